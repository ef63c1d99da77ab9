"""The classes of motor a builder meets, and which one a listing speaks of."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from turnercalc.errors import UnknownNameError
from turnercalc.motors.motor import StartDirection, Volts
from turnercalc.tables import Row, table

_STARTS = {
    "as wired": StartDirection.REVERSIBLE,
    "either way": StartDirection.UNDEFINED,
    "one way": StartDirection.ONE_WAY,
}
LINES = {
    "synchronous_one_way": "synchronous",
    "synchronous_reversible": "synchronous",
    "shaded_pole": "induction",
    "capacitor_run": "induction",
    "stepper": "stepped",
    "small_geared_stepper": "stepped",
    "servo": "stepped",
}  # every other class runs on a straight line
MAINS = ("synchronous_one_way", "synchronous_reversible", "shaded_pole", "capacitor_run")
BRUSHED_GEARED = ("brushed_spur", "brushed_planetary", "brushed_worm")
LOW_VOLTAGE = (*BRUSHED_GEARED, "wiper", "stepper", "small_geared_stepper", "servo")
LOWEST_MAINS = 90.0  # [V]; nothing a builder runs from a battery or plug supply reaches it
HIGHEST_BATTERY = 60.0  # [V]


@dataclass(frozen=True)
class MotorClass:
    """One class of motor, as the table of motor classes has it.

    Attributes
    ----------
    id, name : str
    line : str
        Form of its torque-speed line: ``straight``, ``synchronous``, ``induction``, ``stepped``.
    share_that_counts : float
        What of a stall, pull-out, holding or unnamed figure may be counted on [ratio].
    counted_figure : str
        The listed figure that share is meant for.
    rated_share : float
        What of a rated figure may be counted on [ratio].
    starting_share : float or None
        Torque at start as a share of the dependable torque, where none is listed [ratio]; None
        where a motor always starts with more than it is rated for.
    start_direction : StartDirection
    holds_when_off : bool or None
        None where it depends on the gear.
    heat_at_rest : str
        ``none``, ``holding current`` or ``while powered``.
    efficiency_low, efficiency_high : float or None
        [ratio]
    speed_drop : float
        Share of the free speed lost at the dependable torque [ratio].
    supply_low : float
        Lowest supply to reckon with, as a share of nominal [ratio].
    side_load : float or None
        What the output shaft usually bears square to it [N].
    run_down_low, run_down_high : float
        From switching off to standstill, without load [s].
    when_stalled : str
        What a stall does, for people.
    note, source, how : str
    """

    id: str
    name: str
    line: str
    share_that_counts: float
    counted_figure: str
    rated_share: float
    starting_share: float | None
    start_direction: StartDirection
    holds_when_off: bool | None
    heat_at_rest: str
    efficiency_low: float | None
    efficiency_high: float | None
    speed_drop: float
    supply_low: float
    speed_low: float | None
    speed_high: float | None
    torque_low: float | None
    torque_high: float | None
    side_load: float | None
    run_down_low: float
    run_down_high: float
    when_stalled: str
    note: str
    source: str
    how: str

    @property
    def is_mains(self) -> bool:
        """Whether it runs on alternating current."""
        return self.id in MAINS

    @property
    def is_linear(self) -> bool:
        """Whether it moves in a line."""
        return self.id == "linear_actuator"


@cache
def motor_class(name: str) -> MotorClass:
    """Return a class by id, name or alias; raises UnknownNameError with the nearest."""
    return _typed(table("motor_classes").row(name))


@cache
def motor_classes() -> tuple[MotorClass, ...]:
    """Return every class in the order of the table."""
    return tuple(_typed(row) for row in table("motor_classes").rows)


def _typed(row: Row) -> MotorClass:
    name = row.text("id")
    rated_share = row.maybe("rated_share")
    return MotorClass(
        id=name,
        name=row.text("name"),
        line=LINES.get(name, "straight"),
        share_that_counts=row.number("share_that_counts"),
        counted_figure=row.text("counted_figure"),
        rated_share=1.0 if rated_share is None else rated_share,
        starting_share=row.maybe("starting_share"),
        start_direction=_STARTS[row.text("start_direction")],
        holds_when_off={"yes": True, "no": False, "unknown": None}[row.text("holds_when_off")],
        heat_at_rest=row.text("heat_at_rest"),
        efficiency_low=row.maybe("efficiency_low"),
        efficiency_high=row.maybe("efficiency_high"),
        speed_drop=row.number("speed_drop"),
        supply_low=row.number("supply_low"),
        speed_low=row.maybe_si("speed_low"),
        speed_high=row.maybe_si("speed_high"),
        torque_low=row.maybe_si("torque_low"),
        torque_high=row.maybe_si("torque_high"),
        side_load=row.maybe_si("side_load"),
        run_down_low=row.si("run_down_low"),
        run_down_high=row.si("run_down_high"),
        when_stalled=row.text("when_stalled"),
        note=row.text("note"),
        source=row.source,
        how=row.how,
    )


@dataclass(frozen=True, slots=True)
class Guess:
    """Which class a listing speaks of.

    Attributes
    ----------
    motor_class : str or None
    class_from : str
        ``listed``, ``words``, ``figures`` or empty.
    candidates : tuple of str
        All that it could be.
    """

    motor_class: str | None
    class_from: str
    candidates: tuple[str, ...]


_REVERSING = re.compile(
    r"(?<!non[- ])(?<!not )\brevers\w*|\bcapacitor|\bbi-?direct|\bboth (?:ways|directions)"
    r"|cw ?/ ?ccw|\btwo[- ]way"
)
_WORDS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), name)
    for pattern, name in (
        (
            r"\bactuator|\blinear motor|\belectric (?:jack|ram|cylinder)|\bpush ?rod motor",
            "linear_actuator",
        ),
        (r"\bwiper", "wiper"),
        (r"\b(?:28 ?mm|5 ?v)\b.*\bstep|\bstep.*\b(?:28 ?mm|5 ?v)\b", "small_geared_stepper"),
        (r"\bstepper|\bstepping\b|\bstep motor|\bnema ?\d\d", "stepper"),
        (r"\bservo", "servo"),
        (
            r"\bshaded|\bspit\b|\brotisserie|\bbarbecue|\bbbq\b|\bgrill motor|\bfan swing"
            r"|\boscillat\w+ fan",
            "shaded_pole",
        ),
        (r"\bsynchron|\bturn-?table|\bmicrowave", "synchronous"),
        (r"\bcapacitor|\bpsc\b|\binduction|\basynchron", "capacitor_run"),
        (r"\bworm", "brushed_worm"),
        (r"\bplanet|\bepicycl", "brushed_planetary"),
        (r"\bspur\b", "brushed_spur"),
        (r"\bself[- ]?locking gear", "brushed_worm"),
        (r"\bgear|\bbrush|\bdc motor|\bspeed reduc|\breduc\w+ motor", "geared"),
    )
)


def guess_class(named: str, words: str, volts: tuple[Volts, ...], has_hertz: bool) -> Guess:
    """Return the class a listing speaks of.

    Parameters
    ----------
    named : str
        The cell of a class column, tidied; empty where there is none.
    words : str
        Everything else the row says, tidied.
    volts : tuple of Volts
    has_hertz : bool
        Whether the row names a mains frequency.
    """
    if named:
        try:
            name = motor_class(named).id
        except UnknownNameError:
            words = f"{named} {words}"
        else:
            return Guess(name, "listed", (name,))
    current = electrics(volts, has_hertz)
    name = _worded(words)
    if name == "synchronous":
        reversing = _REVERSING.search(words)
        name = "synchronous_reversible" if reversing else "synchronous_one_way"
    return _fitting(name, current)


@lru_cache(maxsize=16384)
def _worded(words: str) -> str:
    return next((name for pattern, name in _WORDS if pattern.search(words)), "")


@lru_cache(maxsize=256)
def _fitting(name: str, current: str) -> Guess:
    """Bring the words and the kind of current together."""
    if name in BRUSHED_GEARED and current == "ac":
        # A worm or planetary gear on mains current has an induction motor behind it.
        return Guess("capacitor_run", "figures", ("capacitor_run", "shaded_pole"))
    if name == "geared":
        if current == "ac":
            return Guess("synchronous_one_way", "figures", MAINS)
        if current:
            return Guess("brushed_spur", "figures", BRUSHED_GEARED)
        return Guess(None, "", (*BRUSHED_GEARED, *MAINS))
    if name:
        return Guess(name, "words", (name,))
    if current == "ac":
        return Guess(None, "", MAINS)
    everything = tuple(c.id for c in motor_classes() if not c.is_linear)
    if current == "dc":
        return Guess(None, "", LOW_VOLTAGE)
    return Guess(None, "", everything)


def electrics(volts: tuple[Volts, ...], has_hertz: bool) -> str:
    """Return ``ac``, ``dc``, ``low`` (battery voltage, unmarked) or empty for unknown."""
    marked = {v.current for v in volts if v.current}
    if marked:
        return "ac" if "ac" in marked else "dc"
    if has_hertz or any(v.high >= LOWEST_MAINS for v in volts):
        return "ac"
    return "low" if any(v.high <= HIGHEST_BATTERY for v in volts) else ""
