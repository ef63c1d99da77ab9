"""Motors against a demand: every check, one verdict each, and which is best."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from turnercalc import units
from turnercalc.findings import Answer, Finding, worst
from turnercalc.motors import checks_place, checks_running, checks_strength
from turnercalc.motors.case import Case, Move, build_case
from turnercalc.motors.checks_strength import times, told_times
from turnercalc.motors.demand import Demand
from turnercalc.motors.electric import Electric, electric
from turnercalc.motors.line import Line
from turnercalc.motors.motor import Motor, MotorFile, MotorRow, StartDirection

if TYPE_CHECKING:
    from turnercalc.motors.staged import Staged

Check = Callable[[Case], Finding | None]

#: Those that need no move reckoned in time.
AT_ONCE: tuple[Check, ...] = (
    checks_strength.strength,
    checks_strength.torque_kind,
    checks_strength.corner,
    checks_strength.starting,
    checks_running.speed,
    checks_running.stroke,
    checks_running.own_length,
    checks_running.speed_basis,
    checks_running.reverses,
    checks_running.servo_travel,
    checks_running.supply,
    checks_running.frequency,
    checks_strength.holding,
)
#: Those that do, and what nothing is refused for.
IN_TIME: tuple[Check, ...] = (
    checks_strength.rms,
    checks_running.duty,
    checks_place.ambient,
    checks_place.damp,
    checks_place.heat,
    checks_place.side_load,
    checks_place.stall,
)
# Without these nothing can be said of a motor, so it is not judged rather than capped.
ESSENTIAL = frozenset({"motor_strength", "motor_speed", "motor_supply"})
_ORDER = (Answer.FINE, Answer.MARGINAL, Answer.NO, Answer.UNKNOWN)


@dataclass(frozen=True, eq=False)
class MotorResult:
    """One motor judged against a demand.

    Attributes
    ----------
    motor : Motor
        As the listing has it.
    row : MotorRow or None
        Its row in the motor file.
    verdict : Answer
        fine, marginal, no; or unknown for a motor that cannot be judged: its row breaks physics
        or lacks torque, speed or supply.
    times_enough : float or None
        Dependable torque over the hardest planned torque [ratio].
    corner : float or None
        The same from rest, at high friction and low supply [ratio].
    dependable : float or None
        Torque that may be counted on [N·m].
    dependable_from : str
        ``rated``, ``share of stall`` and the like.
    line : Line or None
        Torque-speed line on the builder's supply.
    directions : tuple of int
        Directions that count: 0 anticlockwise, 1 clockwise.
    findings : tuple of Finding
    moves : tuple of Move
        Each single move of the cycle in each direction that counts, with its shortest and longest
        time over the planned loads.
    average_heat_in_box : float or None
        Over the day [W]; 0 outside the box, None where it is not known.
    why : str
        The one reason, in a line for the screen.
    deciding : Finding or None
        The finding it comes from.
    if_so : tuple of MotorResult
        For a row that is not used: the results of the readings that would be possible.
    warmest_heat_in_box : float or None
        In the warmest ten minutes [W]; 0 outside the box, None where it is not known.
    electric : Electric or None
        What it draws, the supply and the fuse for it; None where it is not judged.
    run_down : (float, float) or None
        Shortest and longest time from switching off to standstill, without load [s].
    heat_at_rest : str
        What it turns into heat while it stands: ``none``, ``holding current``, ``while powered``.
    holds_when_off : bool or None
        By the listing, else by its class; None where that is not known.
    staged : Staged or None
        The stock stage that would make it fit, where it does not as it stands.
    without_stages : MotorResult or None
        The same motor without the stages of the design; None where it has none.
    """

    motor: Motor
    row: MotorRow | None
    verdict: Answer
    times_enough: float | None
    corner: float | None
    dependable: float | None
    dependable_from: str
    line: Line | None
    directions: tuple[int, ...]
    findings: tuple[Finding, ...]
    moves: tuple[Move, ...]
    average_heat_in_box: float | None
    why: str
    deciding: Finding | None
    if_so: tuple[MotorResult, ...] = ()
    warmest_heat_in_box: float | None = None
    electric: Electric | None = None
    run_down: tuple[float, float] | None = None
    heat_at_rest: str = "none"
    holds_when_off: bool | None = None
    staged: Staged | None = None
    without_stages: MotorResult | None = None

    @property
    def unknown(self) -> tuple[Finding, ...]:
        """What is not known of this motor, each with what to ask or test."""
        return tuple(f for f in self.findings if f.answer is Answer.UNKNOWN)

    def finding(self, name: str) -> Finding | None:
        """Return the finding of an id, or None where the question did not arise."""
        return next((f for f in self.findings if f.id == name), None)

    @property
    def falls_short(self) -> bool:
        """Whether anything known of it is less than fine; what is not listed may yet be fine."""
        return any(f.answer is Answer.MARGINAL and f.caps_verdict for f in self.findings)

    @property
    def jammed(self) -> bool:
        """Whether friction holds the drive, so that nothing is ever enough."""
        return self.times_enough == 0.0

    @property
    def shortest_move(self) -> float | None:
        """Shortest time of any single move [s], or None."""
        return min((move.shortest for move in self.moves), default=None)

    @property
    def longest_move(self) -> float | None:
        """Longest time of any single move [s], or None."""
        return max((move.longest for move in self.moves), default=None)


def judge(motor: Motor | MotorRow, demand: Demand) -> MotorResult:
    """Judge one motor against a demand.

    Parameters
    ----------
    motor : Motor or MotorRow
        A row that was refused is not judged; the readings that would be possible are.
    demand : Demand

    Returns
    -------
    MotorResult
    """
    if isinstance(motor, MotorRow):
        return _judge_row(motor, demand)
    return _judge_motor(motor, demand)


def rank(motors: MotorFile | Iterable[Motor | MotorRow], demand: Demand) -> tuple[MotorResult, ...]:
    """Judge every motor and return the results, best first.

    Enough before not enough; what may yet prove fine, if the seller answers, before what is known
    to fall short; among those that do, just enough before far too big, then less heat in the box,
    then a lower price; otherwise the order of the file.
    """
    known: dict[Motor, MotorResult] = {}
    results = [_judged_once(motor, demand, known) for motor in motors]
    return tuple(sorted(results, key=lambda result: _rank_key(result, demand)))


def _judged_once(
    motor: Motor | MotorRow, demand: Demand, known: dict[Motor, MotorResult]
) -> MotorResult:
    """Judge a motor, or hand on the answer for one with the same figures: catalogues repeat."""
    if isinstance(motor, MotorRow) and not motor.used:
        return judge(motor, demand)
    listed = motor.motor if isinstance(motor, MotorRow) else motor
    figures = replace(listed, id="", line=0, title="", notes="", price=None, currency="", mass=None)
    found = known.get(figures)
    if found is None:
        found = known.setdefault(figures, judge(listed, demand))
    return replace(found, motor=listed, row=motor if isinstance(motor, MotorRow) else None)


def _rank_key(result: MotorResult, demand: Demand) -> tuple[float, ...]:
    times_enough = result.times_enough or 0.0
    does = result.verdict in (Answer.FINE, Answer.MARGINAL)
    # Twice what is wanted is no better than what is wanted; more than that is money and weight.
    oversize = max(1.0, times_enough / (2.0 * demand.safety_factor)) if does else -times_enough
    heat = result.average_heat_in_box
    price = result.motor.price
    other_fault = result.verdict is Answer.NO and not _too_weak(result)
    return (
        _ORDER.index(result.verdict),
        float(other_fault or (does and result.falls_short)),
        -min(times_enough, demand.safety_factor) if does else 0.0,
        round(oversize, 2),
        float("inf") if heat is None else round(heat, 3),
        float("inf") if price is None else price,
        result.motor.line,
    )


def _too_weak(result: MotorResult) -> bool:
    return result.deciding is not None and result.deciding.id == "motor_strength"


# -- one motor ---------------------------------------------------------------------------------


def _judge_row(row: MotorRow, demand: Demand) -> MotorResult:
    if row.used:
        return replace(_judge_motor(row.motor, demand), row=row)
    if_so = tuple(_judge_motor(p.motor, demand) for p in row.possible)
    finding = Finding(
        id="motor_reading",
        title="Can be as listed",
        answer=Answer.UNKNOWN,
        text=_reading_text(row, if_so),
        reason="No motor gives out more than it takes in.",
        source="conservation of energy",
        ask="Ask the seller which torque and which speed are listed.",
    )
    return replace(_set_aside(row.motor, finding), row=row, if_so=if_so)


_READ_AS = {
    ("stall_torque", "free_speed"): "stall and free speed",
    ("rated_torque", "rated_speed"): "a rated pair",
}


def _reading_text(row: MotorRow, if_so: tuple[MotorResult, ...]) -> str:
    parts = [row.refused]
    for possible, result in zip(row.possible, if_so, strict=True):
        how = _READ_AS.get((possible.torque_is, possible.speed_is), possible.torque_is)
        power = units.show(possible.output_power, "power", digits=2)
        enough = result.times_enough
        then = f"; then {times(enough)} enough" if enough else ""
        parts.append(f"As {how} it is possible ({power}){then}. Ask the seller which.")
    if not row.possible and "no torque" not in row.refused:
        parts.append("No reading of it is possible. Ask the seller.")
    return " ".join(parts)


def _judge_motor(motor: Motor, demand: Demand) -> MotorResult:
    case = build_case(motor, demand)
    if case.traits.linear is not demand.linear:
        return _wrong_motion(case)
    return _result(case, (*_found_at_once(case), *_found(case, IN_TIME)))


def judge_unless_refused(motor: Motor, demand: Demand) -> MotorResult | None:
    """Judge one motor; None, and sooner, where what is seen at once already says no."""
    case = build_case(motor, demand)
    if case.traits.linear is not demand.linear:
        return None
    at_once = _found_at_once(case)
    if _verdict(at_once) is Answer.NO:
        return None
    return _result(case, (*at_once, *_found(case, IN_TIME)))


def _found_at_once(case: Case) -> tuple[Finding, ...]:
    return _found(case, (_class, *AT_ONCE))


def _found(case: Case, checks: Iterable[Check]) -> tuple[Finding, ...]:
    return tuple(f for check in checks if (f := check(case)) is not None)


def _result(case: Case, findings: tuple[Finding, ...]) -> MotorResult:
    demand = case.demand
    verdict = _verdict(findings)
    deciding = _deciding(findings, verdict)
    return MotorResult(
        motor=case.listed,
        row=None,
        verdict=verdict,
        times_enough=told_times(case),
        corner=case.corner,
        dependable=case.counted.torque,
        dependable_from=case.counted.source,
        line=case.line,
        directions=case.directions,
        findings=findings,
        moves=case.moves,
        average_heat_in_box=checks_place.average_heat(case),
        warmest_heat_in_box=checks_place.warmest_heat(case) if demand.inside else 0.0,
        electric=electric(case),
        run_down=case.traits.run_down,
        heat_at_rest=case.traits.heat_at_rest,
        holds_when_off=checks_strength.holds(case),
        why=_why(case, verdict, deciding),
        deciding=deciding,
    )


def _class(case: Case) -> Finding | None:
    """Tell whether it is known what class of motor it is."""
    if case.traits.certain:
        return None
    names = " or ".join(c.name for c in case.traits.classes[:3])
    if len(case.traits.classes) > 3:
        names += f" or one of {len(case.traits.classes) - 3} more"
    return Finding(
        id="motor_class",
        title="What class of motor",
        answer=Answer.UNKNOWN,
        text=f"The listing does not say what class of motor it is. It could be {names}; the "
        "worst of them was reckoned with.",
        reason="Class decides what share of a torque counts, how it starts and whether it holds.",
        source="table of motor classes (from memory)",
        ask="Ask the seller, or look for the words worm, planetary, synchronous, stepper.",
    )


def _verdict(findings: tuple[Finding, ...]) -> Answer:
    essential = [f for f in findings if f.id in ESSENTIAL]
    if any(f.answer is Answer.UNKNOWN and f.value is None for f in essential):
        return Answer.UNKNOWN
    return worst(tuple(f.answer for f in findings if f.caps_verdict))


def _deciding(findings: tuple[Finding, ...], verdict: Answer) -> Finding | None:
    if verdict is Answer.FINE:
        return next((f for f in findings if f.id == "motor_strength"), None)
    wanted: dict[Answer, tuple[Answer, ...]] = {
        Answer.NO: (Answer.NO,),
        Answer.MARGINAL: (Answer.MARGINAL, Answer.UNKNOWN),
        Answer.UNKNOWN: (Answer.UNKNOWN,),
    }
    for answer in wanted[verdict]:
        for finding in findings:
            counts = verdict is not Answer.UNKNOWN or finding.id in ESSENTIAL
            if finding.answer is answer and finding.caps_verdict and counts:
                return finding
    return None


def _why(case: Case, verdict: Answer, deciding: Finding | None) -> str:
    if deciding is None:
        return ""
    if deciding.id == "motor_strength" and verdict is Answer.NO:
        return _why_weak(case, deciding)
    return deciding.text


def _why_weak(case: Case, finding: Finding) -> str:
    counted = case.counted
    if counted.source == "share of stall" and case.motor.rated_torque is None:
        share = {0.25: "a quarter", 0.5: "half"}.get(counted.share, f"{counted.share:.0%}")
        return f"only the stall figure is listed; {share} of it counts"
    if "harder way" in finding.text:
        one_way = case.start_direction is StartDirection.ONE_WAY
        how = "turns one way only" if one_way else "may start either way"
        return f"it {how}, so the harder way counts"
    return finding.text


def _wrong_motion(case: Case) -> MotorResult:
    if case.traits.linear:
        text = "It moves in a line; this drive wants a turning shaft."
    else:
        text = "It turns; this drive wants an actuator that moves in a line."
    finding = Finding(
        id="motor_motion",
        title="Moves the right way",
        answer=Answer.NO,
        text=text,
        reason="A crank wants a turning shaft, an actuator its two eyes.",
        source="definition",
        fields=("drive",),
    )
    return _set_aside(case.listed, finding)


def _set_aside(motor: Motor, finding: Finding) -> MotorResult:
    """Return the result of a motor that one finding alone decides: nothing else was reckoned."""
    return MotorResult(
        motor=motor,
        row=None,
        verdict=finding.answer,
        times_enough=None,
        corner=None,
        dependable=None,
        dependable_from="",
        line=None,
        directions=(),
        findings=(finding,),
        moves=(),
        average_heat_in_box=None,
        why=finding.text,
        deciding=finding,
    )
