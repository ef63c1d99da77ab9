"""What a millimetre, a gram or a part does: ends and peak by every figure of a design.

Switches and timer stay as the design means them: a rod stops where its switches were set, and a
bar turns as far as before, whatever comes out otherwise. So a millimetre here is the millimetre of
a sizing and of `tolerance`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

import numpy as np

from turnercalc.advice.asked import need_design
from turnercalc.advice.ranges import info_of
from turnercalc.advice.rows import PEAK_NAMES, Rows
from turnercalc.building import Built, build
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError, UnknownNameError
from turnercalc.loads import hardest
from turnercalc.swing import egg_turn, ends, lengths
from turnercalc.tables import Range3

#: A length is changed by this [m], a mass and a friction by this share of it.
LENGTH_STEP = 0.25e-3
SHARE_STEP = 0.02
#: What is told: the change for a millimetre, and for a tenth of a mass or a friction.
MILLIMETRE, TENTH = 1e-3, 0.1
PER_LENGTH, PER_SHARE = "1 mm", "10 %"
SKIPPED = ("box.", "eggs.", "motor.", "loads.", "turning.", "gearing.")
COUNT = 180
#: Decimals of a share to which two figures are as strong.
SAME = 6


class Figures(NamedTuple):
    """Ends [rad or m], hardest planned peak [N·m or N], and how far an egg turns [rad]."""

    low: float
    high: float
    peak: float
    turn: float


@dataclass(frozen=True)
class Effect:
    """What one figure does.

    Attributes
    ----------
    field : str
        Field path, with a word behind it for a part of one; ``eggs.weighed`` for the mass of an
        egg.
    per : str
        What the changes are for: ``1 mm`` or ``10 %``.
    low, high : float
        Change of the ends [rad or m].
    peak : float
        Change of the hardest planned shaft torque, better direction, middle friction [N·m or N].
    turn : float
        Change of how far a move turns an egg [rad]; NaN where nobody says.
    """

    field: str
    per: str
    low: float
    high: float
    peak: float
    turn: float = math.nan

    @property
    def part(self) -> str:
        """The part whose figure it is: the section of the file."""
        return self.field.partition(".")[0]

    @property
    def figure(self) -> str:
        """What it is of that part."""
        return self.field.partition(".")[2]

    @property
    def is_length(self) -> bool:
        """Whether it is told for a millimetre."""
        return self.per == PER_LENGTH


@dataclass(frozen=True)
class Part:
    """What the figures of one part do.

    Attributes
    ----------
    name : str
        The section of the file.
    effects : tuple of Effect
        The strongest first.
    lengths : int
        How many of them are lengths.
    low, high, peak, turn : float
        What all its lengths do together when each comes out a millimetre off: the root of the sum
        of squares, since different marks err apart from one another.
    """

    name: str
    effects: tuple[Effect, ...]
    lengths: int
    low: float
    high: float
    peak: float
    turn: float


@dataclass(frozen=True)
class Sensitivity(Rows):
    """Every figure that does something, the strongest first.

    Attributes
    ----------
    low, high, peak : float
        As the design stands [rad or m; N·m or N].
    effects : tuple of Effect
    turn : float
        How far a move turns an egg [rad]; NaN where nobody says.
    unit : str
        ``rad`` or ``m``, of the ends.
    force_unit : str
        ``N·m`` or ``N``, of the peak.
    """

    low: float
    high: float
    peak: float
    effects: tuple[Effect, ...]
    turn: float = math.nan
    unit: str = "rad"
    force_unit: str = "N·m"

    @property
    def parts(self) -> tuple[Part, ...]:
        """The effects part by part, the part with the strongest figure first."""
        names = dict.fromkeys(effect.part for effect in self.effects)
        return tuple(self._part(name) for name in names)

    def _part(self, name: str) -> Part:
        own = tuple(effect for effect in self.effects if effect.part == name)
        marks = [effect for effect in own if effect.is_length]
        together = (
            math.sqrt(sum(getattr(effect, what) ** 2 for effect in marks))
            for what in Figures._fields
        )
        return Part(name, own, len(marks), *together)

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each figure, keys with their unit in SI."""
        force = PEAK_NAMES["rad" if self.force_unit == "N·m" else "m"]
        return [
            {
                "part": one.part,
                "field": one.field,
                "per": one.per,
                f"low_end_{self.unit}": one.low,
                f"high_end_{self.unit}": one.high,
                force: one.peak,
                "egg_turn_rad": None if math.isnan(one.turn) else one.turn,
            }
            for one in self.effects
        ]


def sensitivity(design: Design) -> Sensitivity:
    """Return what a millimetre more of every length, and a tenth more of every mass, does.

    By central differences, every design built anew, so that what is worked out from a field
    follows it; what is set on the finished machine does not.

    Raises
    ------
    TurnercalcError
        The design does not go through as it stands.
    """
    need_design(design)
    built = build(design)
    design = as_set(design, built)
    here = figures(design, built)
    if not all(math.isfinite(value) for value in here[:3]):
        raise TurnercalcError(
            "The design does not go through as it stands. turnercalc size says what is missing."
        )
    found = []
    for probe in probes(design, built):
        effect = effect_of(design, built, probe, here)
        if effect is not None and tells(effect, here):
            found.append(effect)
    return Sensitivity(
        here.low,
        here.high,
        here.peak,
        tuple(sorted(found, key=lambda effect: -strength(effect, here))),
        here.turn,
        built.turner.coordinate_unit,
        "N·m" if built.drive.position_unit == "rad" else "N",
    )


def as_set(design: Design, built: Built) -> Design:
    """Return the design with what was worked out of where its drive stops written down."""
    worked_out = {
        path: value
        for path, value in lengths(built.turner, built.drive).items()
        if design.values().get(path) is None
    }
    return design.replace(worked_out, si=True) if worked_out else design


@dataclass(frozen=True)
class Probe:
    """One figure to change: a field, or one figure of a field that holds several."""

    path: str
    part: str = ""
    word: str = ""

    @property
    def name(self) -> str:
        """Field path, and what of it."""
        return f"{self.path} {self.word}".strip()


def probes(design: Design, built: Built) -> Iterator[Probe]:
    """Yield what can matter: lengths, places, masses and friction in the machine."""
    if design.values().get("eggs.weighed"):
        yield Probe("eggs.weighed")
    for path, value in design.values().items():
        if path.startswith(SKIPPED) or path not in design.origin:
            continue
        rubs = isinstance(value, Range3) and path.endswith(".friction")
        if rubs or (isinstance(value, float) and quantity(design, path) in ("length", "mass")):
            yield Probe(path)
    for one in getattr(built.turner, "measured", ()):
        # What is counted in units of its own, such as a direction in shelves, is no millimetre.
        if one.part and not one.unit and design.values().get(one.field) is not None:
            yield Probe(one.field, one.part, one.word)


def quantity(design: Design, path: str) -> str | None:
    """Return the kind of quantity of a field; None where it has none."""
    try:
        return info_of(design, path).phrase.quantity
    except UnknownNameError:
        return None


def effect_of(design: Design, built: Built, probe: Probe, here: Figures) -> Effect | None:
    """Return what one figure does; None where it cannot be changed so little."""
    value = design.value(probe.path)
    old = getattr(value, probe.part) if probe.part else value
    shared = isinstance(old, Range3) or "mass" in (probe.part, quantity(design, probe.path))
    if shared and not isinstance(old, Range3) and not old:
        return None
    step, told = (SHARE_STEP, TENTH) if shared else (LENGTH_STEP, MILLIMETRE)
    ways = []
    for sign in (1.0, -1.0):
        new = scaled(old, 1.0 + sign * step) if shared else old + sign * step
        new = replace(value, **{probe.part: new}) if probe.part else new
        ways.append(changed_figures(design, built, {probe.path: new}))
    slopes = [slope(*three) for three in zip(*ways, here, strict=True)]
    if math.isnan(slopes[0]):
        return None
    per = PER_SHARE if shared else PER_LENGTH
    return Effect(probe.name, per, *(told * one / step for one in slopes))


def scaled(value: Any, by: float) -> Any:
    """Return a mass, or a range as it is written, times a factor."""
    if isinstance(value, Range3):
        return f"{value.low * by:.12g} to {value.high * by:.12g}"
    return value * by


def slope(up: float, down: float, here: float) -> float:
    """Return the change for one step, from either side, or from one where the other is none."""
    if math.isfinite(up) and math.isfinite(down):
        return 0.5 * (up - down)
    return up - here if math.isfinite(up) else here - down if math.isfinite(down) else math.nan


def changed_figures(design: Design, built: Built, changes: dict[str, Any]) -> Figures:
    """Return the figures of a design a little otherwise, stopped as before; NaN where it cannot."""
    try:
        return figures(design.replace(changes, si=True), built)
    except TurnercalcError:
        return Figures(*(math.nan,) * 4)


def figures(design: Design, meant: Built) -> Figures:
    """Return both ends, the hardest planned peak and the egg's turn; NaN where there is none."""
    built = build(design)
    stopped_at = getattr(built.turner, "stopped_at", None)
    turner = built.turner if stopped_at is None else stopped_at(meant.turner.travel)
    with np.errstate(invalid="ignore", divide="ignore"):
        swing = ends(turner, built.drive, count=COUNT)
        if not np.isfinite(swing.total):
            return Figures(*(math.nan,) * 4)
        loads = [case for case in turner.load_cases() if case.planned]
        cycle = turn_cycle(turner, built.drive, loads, levels=("middle",), count=COUNT)
    peaks = [hardest(cycle, 0, way).torque for way in (0, 1)]
    peak = max(peaks) if built.drive.both_ways else min(peaks)
    turn = egg_turn(turner, swing.total)
    return Figures(swing.low, swing.high, peak, math.nan if turn is None else turn)


def strength(effect: Effect, here: Figures) -> float:
    """Return the largest share by which an effect moves anything; equals stay in file order."""
    half = 0.5 * (here.high - here.low)
    shares = [abs(effect.low) / half, abs(effect.high) / half]
    shares += [abs(effect.peak / here.peak)] if here.peak else []
    shares += [abs(effect.turn / here.turn)] if here.turn else []
    return round(max(share for share in shares if not math.isnan(share)), SAME)


def tells(effect: Effect, here: Figures) -> bool:
    """Tell whether a figure does anything worth a line."""
    ends_move = max(abs(effect.low), abs(effect.high)) > 1e-4 * (here.high - here.low)
    eggs_turn = abs(effect.turn) > 1e-4 * abs(here.turn)
    return ends_move or eggs_turn or abs(effect.peak) > 1e-3 * abs(here.peak)
