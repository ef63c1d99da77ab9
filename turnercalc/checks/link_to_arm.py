"""Whether the link turns the arm, or mostly pushes at its pivot."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import amount, degrees, judged
from turnercalc.drives.base import Motion
from turnercalc.drives.wording import wording_of as words_of_drive
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.paths import Path
from turnercalc.swing import lengths
from turnercalc.tables import limit
from turnercalc.turners.wording import wording_of

ID = "link_to_arm"
#: A position counts as loaded where the link carries this share of its largest force.
LOADED = 0.1

Array = NDArray[np.float64]


def link_to_arm(motion: Motion, path: Path) -> Array:
    """Return the angle between the link and the arm at every position, 0 to a right angle [rad].

    Notes
    -----
    The arm is square to the way its pin goes, so the sine of the angle is the share of the link's
    force along that way (transmission angle: R. L. Norton, Design of Machinery, section 2.14 on
    it, from memory). On a straight path it is the angle between the link and the square to it.
    """
    if motion.bar_x is None or motion.bar_y is None:
        return np.full(motion.position.shape, np.nan)
    tx, ty = path.tangent(motion.coordinate)
    along = np.abs(motion.bar_x * tx + motion.bar_y * ty)
    across = np.abs(motion.bar_x * ty - motion.bar_y * tx)
    return np.asarray(np.arctan2(along, across))


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the worst angle over the part of the cycle in which the link carries load."""
    cycle = evidence.cycle
    if cycle is None or cycle.bar_force is None:
        return
    angle = link_to_arm(cycle.motion, evidence.turner.path())
    force = np.abs(cycle.bar_force[planned(cycle)])
    force = np.where(np.isnan(force), np.inf, force).max(axis=(0, 1, 2))
    # A jam counts as a load like any other: its force has no bound.
    largest = force[np.isfinite(force)].max(initial=0.0)
    at = int(np.where(force >= LOADED * largest, angle, np.inf).argmin())
    rule = limit("link_to_arm")
    away = amount(evidence.turner, abs(cycle.motion.coordinate[at]), 0)
    its = wording_of(evidence.turner)
    where = f"at its worst, {away} from {its.middle}"
    text = f"{degrees(angle[at], 0)} {where}; {rule.fine:g}° wanted."
    if rule.answer(math.degrees(angle[at])) is not Answer.FINE:
        words = words_of_drive(evidence.drive)
        astray = its.astray.format(origin=evidence.kind.measured_from.one)
        text = (
            f"Only {degrees(angle[at], 0)} {where}; {rule.fine:g}° wanted. The {words.bar} "
            f"{astray}, and every millimetre of play counts double. {words.squarer}"
        )
    yield judged(
        ID,
        f"{words_of_drive(evidence.drive).bar.capitalize()} to {its.lever}",
        math.degrees(angle[at]),
        rule,
        text,
        fields=tuple(lengths(evidence.turner, evidence.drive)),
    )
