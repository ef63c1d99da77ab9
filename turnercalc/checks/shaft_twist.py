"""How much the far end of a tray lags behind, where arm and tray sit on one long shaft."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import degrees, judged, worse
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.parts.strength import TwistedShaft, material_of, pin_material
from turnercalc.tables import limit

ID = "shaft_twist"
TITLE = "Far end"
FIELDS = ("pivots.shaft_length", "pivots.shaft_material", "pivots.diameter")
TENTH = math.radians(0.1)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the twist from the arm to the far end of the tray with its hardest planned load."""
    pivots, cycle = evidence.ingredients.sections.get("pivots"), evidence.cycle
    if cycle is None or pivots is None or getattr(pivots, "shaft_length", None) is None:
        return
    made_of = material_of(pivots.shaft_material) or pin_material(pivots.bearing)
    torque = hardest_on_one_shaft(evidence)
    shaft = TwistedShaft(torque, pivots.shaft_length, pivots.diameter, made_of)
    per_metre, stress = limit("shaft_twist"), limit("shaft_use")
    winding = math.degrees(shaft.twist) / shaft.length
    rule, value = per_metre, winding
    if worse(stress.answer(shaft.use), per_metre.answer(winding)):
        rule, value = stress, shaft.use
    lag = degrees(shaft.twist) if shaft.twist > TENTH else "less than 0.1°"
    text = f"The far end of a tray lags {lag} behind its arm, on {made_of.name}."
    if rule.answer(value) is not Answer.FINE:
        text = (
            f"The far end of a tray lags {lag} behind its arm, {winding:.1f}° for each metre of "
            f"{made_of.name} shaft. Twice as thick is 16 times stiffer; an arm at both ends "
            "needs none."
        )
    yield judged(ID, TITLE, value, rule, text, fields=FIELDS)


def hardest_on_one_shaft(evidence: Evidence) -> float:
    """Return the largest torque that one shaft carries with any planned load [N·m].

    A turner of several equal parts, each on a shaft of its own, tells them apart in
    `tray_torques`; else the whole load torque counts.
    """
    cycle = evidence.cycle
    assert cycle is not None
    apart = getattr(evidence.turner, "tray_torques", None)
    if apart is None:
        return float(np.nanmax(np.abs(cycle.load_torque[planned(cycle)]), initial=0.0))
    loads = [case.cells for case in cycle.loads if case.planned]
    cells = np.stack(loads).astype(float)
    every = [apart(cells, cycle.motion.coordinate, sense) for sense in (1.0, -1.0)]
    return float(max(np.nanmax(np.abs(one)) for one in every))
