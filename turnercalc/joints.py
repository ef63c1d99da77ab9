"""Friction in joints, as a builder can know it: a range while moving, and from rest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.fields import Given, Trouble
from turnercalc.findings import Assumed
from turnercalc.tables import Range3, friction_pair

Array = NDArray[np.float64]

#: The friction axis of every cycle.
LEVELS = ("low", "middle", "high")


@dataclass(frozen=True)
class JointFriction:
    """The friction coefficient of one kind of joint.

    Attributes
    ----------
    low, middle, high : float
        Coefficient while moving [-].
    starting : float
        Highest coefficient from rest [-]; never below `high`.
    """

    low: float
    middle: float
    high: float
    starting: float

    @classmethod
    def of(cls, bearing: str, moving: Range3) -> JointFriction:
        """Return the friction of a named bearing that moves with the given coefficients.

        From rest it resists more in the proportion its row in the friction table says, so that
        a measured coefficient keeps its bearing's own stiction.
        """
        damp = friction_pair(bearing).damp
        stiction = friction_pair(bearing).damp_static_high / damp.high if damp.high else 1.0
        from_table = (moving.low, moving.high) == (damp.low, damp.high)
        middle = damp.middle if from_table else moving.middle
        return cls(moving.low, middle, moving.high, max(stiction, 1.0) * moving.high)

    def at(self, levels: Sequence[str]) -> Array:
        """Return the coefficients of the named levels along the friction axis, shape (F, 1, 1).

        Levels are ``none``, ``low``, ``middle``, ``high`` and ``starting``.
        """
        values = [0.0 if level == "none" else getattr(self, level) for level in levels]
        return np.array(values, float)[:, None, None]

    def circle(self, diameter: ArrayLike, levels: Sequence[str]) -> Array:
        """Return the radius of the friction circle, r sin(atan mu) [m], shape (F, 1, 1).

        A journal of radius r under the force F resists its turning with F times this radius
        (Beer and Johnston, Vector Mechanics, section 8.6 on journal bearings, from memory).
        """
        mu = self.at(levels)
        return np.asarray(0.5 * np.asarray(diameter, float) * mu / np.hypot(1.0, mu))


FRICTIONLESS = JointFriction(0.0, 0.0, 0.0, 0.0)


def assumed_friction(field: str, bearing: str) -> Assumed:
    """Return the friction range of a named bearing in damp air, as it would stand in the file."""
    pair = friction_pair(bearing)
    text = f"{pair.damp.low:g} to {pair.damp.high:g}"
    return Assumed(field, text, f"friction.csv: {pair.name}, damp", pair.how)


def friction_of_bearing(
    section: str, given: Given, *, bearing: str = "bearing", friction: str = "friction"
) -> Iterable[Assumed]:
    """Yield the friction of a bearing that a section names, where it does not say it itself."""
    if given.get(friction) is None and given.get(bearing):
        yield assumed_friction(f"{section}.{friction}", str(given[bearing]))


def pins_like_pivots(section: str, given: Given, pivots: Given) -> Iterable[Assumed]:
    """Yield pins like the turner's own pivots, for a section that does not say how they turn."""
    why = "taken like the pivots"
    bearing = given.get("bearing") or pivots.get("bearing")
    if given.get("bearing") is None and bearing:
        yield Assumed(f"{section}.bearing", str(bearing), why)
    if given.get("pin_diameter") is None and pivots.get("diameter"):
        yield Assumed(f"{section}.pin_diameter", f"{1e3 * pivots['diameter']:.6g} mm", why)
    if given.get("friction") is None and bearing:
        yield assumed_friction(f"{section}.friction", str(bearing))


def pins_not_said(
    given: Given, names: Sequence[str] = ("pin_diameter", "bearing")
) -> Iterable[Trouble]:
    """Yield a complaint for each thing about pins that is neither said nor taken from pivots."""
    asked = {
        "pin_diameter": ("How thick is the pin? Friction grows with it.", "6 mm"),
        "bearing": ("What turns in what? Friction comes from it.", "steel in nylon"),
    }
    for name in names:
        if given.get(name) is None:
            message, example = asked[name]
            yield name, message, (example,)
