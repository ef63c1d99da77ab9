"""Rows of some tables as typed records: limits, defaults, friction, losses of stages."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.errors import UnitError
from turnercalc.findings import Answer
from turnercalc.tables._columns import UNITS
from turnercalc.tables._reader import Row, table


@dataclass(frozen=True)
class Limit:
    """Where fine ends and where no begins, and why.

    Attributes
    ----------
    id : str
        Such as ``link_to_arm``.
    fine, no : float or None
        In `unit`; a value between the two is marginal. None where that side has no limit.
    unit : str
        Unit symbol, as in a `Finding`.
    reason : str
        Why the limit stands where it does, for people.
    source, how : str
        Where it comes from and how it came to us.
    sense : str
        ``at least`` or ``at most``: on which side of the limit it is fine.
    """

    id: str
    fine: float | None
    no: float | None
    unit: str
    reason: str
    source: str
    how: str
    sense: str

    def of_si(self, value: float) -> float:
        """Return an SI value in the unit of this limit."""
        return value / UNITS[self.unit]

    def answer(self, value: float | None) -> Answer:
        """Return fine, marginal or no for a value in the unit of this limit; None is unknown."""
        if value is None or math.isnan(value):
            return Answer.UNKNOWN
        sign = 1.0 if self.sense == "at least" else -1.0
        # 40 degrees taken through radians and back are 39.99999999999999: still 40.
        value = value + sign * 1e-9 * max(1.0, abs(value))
        if self.no is not None and sign * value < sign * self.no:
            return Answer.NO
        if self.fine is not None and sign * value < sign * self.fine:
            return Answer.MARGINAL
        return Answer.FINE


def limit(name: str) -> Limit:
    """Return the limit of an id; raises UnknownNameError with the nearest id."""
    row = table("limits").row(name)
    return Limit(
        id=row.text("id"),
        fine=row.maybe("fine"),
        no=row.maybe("no"),
        unit=row.text("unit"),
        reason=row.text("reason"),
        source=row.source,
        how=row.how,
        sense=row.text("sense"),
    )


@dataclass(frozen=True)
class Default:
    """What is taken where the builder says nothing.

    Attributes
    ----------
    field : str
        Field path such as ``link.pin_play``.
    text : str
        For a `value` the very text the file could hold; else a sentence for people.
    source, how : str
        Where it comes from and how it came to us.
    kind : str
        ``value`` (a text that could stand in the file), ``rule`` (worked out from other fields),
        ``unknown`` (stays unknown) or ``required`` (there is no default; the builder must say).
    """

    field: str
    text: str
    source: str
    how: str
    kind: str


def default(field: str) -> Default:
    """Return the default of a field path; raises UnknownNameError with the nearest path."""
    return _default(table("defaults").row(field))


def defaults() -> tuple[Default, ...]:
    """Return all defaults in the order of the table."""
    return tuple(_default(row) for row in table("defaults").rows)


def _default(row: Row) -> Default:
    return Default(row.text("field"), row.text("text"), row.source, row.how, row.text("kind"))


@dataclass(frozen=True)
class Range3:
    """A figure as low, middle and high, because its true value is not known better.

    Attributes
    ----------
    low, middle, high : float
        In SI; ``low <= middle <= high``.
    """

    low: float
    middle: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.middle <= self.high:
            message = f"{self.low:g}, {self.middle:g}, {self.high:g} do not run from low to high."
            raise UnitError(message)


@dataclass(frozen=True)
class FrictionPair:
    """Friction coefficients of one pair of materials.

    Attributes
    ----------
    name : str
        As a builder writes it: ``steel in nylon``.
    dry, damp : Range3
        Kinetic coefficients in a dry room and in the warm damp air of an incubator.
    static_high, damp_static_high : float
        Highest coefficient at rest: what a start has to overcome.
    source, how : str
        Where it comes from and how it came to us.
    """

    name: str
    dry: Range3
    damp: Range3
    static_high: float
    damp_static_high: float
    source: str
    how: str


def friction_pair(name: str) -> FrictionPair:
    """Return the friction of a named bearing or pin; raises UnknownNameError with the nearest."""
    row = table("friction").row(name)
    return FrictionPair(
        name=row.text("name"),
        dry=Range3(row.number("low"), row.number("middle"), row.number("high")),
        damp=Range3(row.number("damp_low"), row.number("damp_middle"), row.number("damp_high")),
        static_high=row.number("static_high"),
        damp_static_high=row.number("damp_static_high"),
        source=row.source,
        how=row.how,
    )


@dataclass(frozen=True)
class RunnerPair:
    """Arc runners on what they roll on, in the warm damp air of an incubator.

    Attributes
    ----------
    name : str
        As a builder writes it: ``wood on wood``.
    rolling_arm : Range3
        Arm of rolling resistance [m].
    grip : Range3
        Friction coefficient that keeps them from sliding [-].
    note, source, how : str
        What to mind, where the figures come from and how they came to us.
    """

    name: str
    rolling_arm: Range3
    grip: Range3
    note: str
    source: str
    how: str


def runner_pair(name: str) -> RunnerPair:
    """Return a pair of runner and floor by name; raises UnknownNameError with the nearest."""
    row = table("runners").row(name)
    levels = ("low", "middle", "high")
    return RunnerPair(
        name=row.text("name"),
        rolling_arm=Range3(*(row.si(f"rolling_arm_{level}") for level in levels)),
        grip=Range3(*(row.number(f"grip_{level}") for level in levels)),
        note=row.text("note"),
        source=row.source,
        how=row.how,
    )


@dataclass(frozen=True)
class StageLosses:
    """Losses of one stage between the gearmotor and the turner.

    Attributes
    ----------
    kind : str
        Such as ``toothed belt``.
    efficiency : Range3
        Share of the work that arrives when the motor drives.
    no_load_drag : float or None
        Torque the unloaded stage takes at its input side [N·m].
    back_driving : str
        ``load proportional`` (2 - 1/efficiency), ``exact`` (screw and worm formulas) or
        ``slips``.
    lead_angle : float or None
        Of the thread of a worm or screw [rad]; None for everything else.
    source, how : str
        Where it comes from and how it came to us.
    """

    kind: str
    efficiency: Range3
    no_load_drag: float | None
    back_driving: str
    source: str
    how: str
    lead_angle: float | None = None


def stage_losses(kind: str) -> StageLosses:
    """Return the losses of a kind of stage; raises UnknownNameError with the nearest kind."""
    row = table("stage_efficiency").row(kind)
    return StageLosses(
        kind=row.text("name"),
        efficiency=Range3(row.number("low"), row.number("middle"), row.number("high")),
        no_load_drag=row.maybe_si("no_load_drag"),
        back_driving=row.text("back_driving"),
        source=row.source,
        how=row.how,
        lead_angle=row.maybe_si("lead_angle"),
    )


@dataclass(frozen=True)
class Material:
    """What a part is made of.

    Attributes
    ----------
    name : str
        As a builder writes it.
    youngs_modulus, shear_modulus : float
        E and G, dry and at room temperature [Pa].
    density : float
        [kg/m3].
    bending_allowable, shear_allowable : float
        Working stresses with a factor in them already [Pa].
    creep_factor : float
        Share of E left under a standing load in the warm box [-].
    note, source, how : str
        What to mind, where the figures come from and how they came to us.
    """

    name: str
    youngs_modulus: float
    shear_modulus: float
    density: float
    bending_allowable: float
    shear_allowable: float
    creep_factor: float
    note: str
    source: str
    how: str

    @property
    def standing_modulus(self) -> float:
        """E under a load that stands for weeks at 37.5 degC [Pa]."""
        return self.youngs_modulus * self.creep_factor


def material(name: str) -> Material:
    """Return a material by name; raises UnknownNameError with the nearest."""
    row = table("materials").row(name)
    return Material(
        name=row.text("name"),
        youngs_modulus=row.si("youngs_modulus"),
        shear_modulus=row.si("shear_modulus"),
        density=row.si("density"),
        bending_allowable=row.si("bending_allowable"),
        shear_allowable=row.si("shear_allowable"),
        creep_factor=row.number("creep_factor"),
        note=row.text("note"),
        source=row.source,
        how=row.how,
    )


def stock_teeth(kind: str) -> tuple[int, ...]:
    """Return the numbers of teeth that shops keep for a kind of stage, smallest first."""
    row = table("stock_teeth").row(kind)
    return tuple(int(teeth) for teeth in row.names("teeth"))


def smooth_teeth(kind: str) -> tuple[int, str]:
    """Return the fewest teeth of a kind of stage that run as they should, and why."""
    row = table("stock_teeth").row(kind)
    return int(row.number("smooth_from")), row.text("note")
