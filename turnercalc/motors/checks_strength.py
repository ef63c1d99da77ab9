"""Is the motor strong enough: running, in the bad corner, from rest, over the move, holding."""

from __future__ import annotations

import math

from turnercalc import units
from turnercalc.findings import Answer, Finding
from turnercalc.motors.case import Case
from turnercalc.motors.motor import StartDirection
from turnercalc.motors.questions import Question
from turnercalc.tables import limit

LONG_RUN = 60.0  # [s]; windings of motors this small warm through in a few minutes (from memory)
NEXT_TO_NOTHING = 0.02  # of the dependable torque: friction of any gearbox holds that
MOST_TIMES = 1e6
#: An unlisted starting torque may be half of what its class usually has (from memory).
UNLISTED_START = 2.0


def shown(case: Case, torque: float) -> str:
    """Return a torque, or a force for a motor that moves in a line, for people."""
    return units.show(torque, "force" if case.demand.linear else "torque")


def times(value: float, wanted: float | None = None) -> str:
    """Return a ratio as people say it; one that falls short of what is wanted looks so."""
    return "many times" if value > 100.0 else f"{shown_times(value, wanted)} times"


def shown_times(value: float, wanted: float | None = None) -> str:
    """Return the figure of a ratio, with as many digits as tell it from what is wanted."""
    digits = 1
    if wanted is not None:
        while digits < 4 and value < wanted <= round(value, digits):
            digits += 1
    return f"{value:.{digits}f}"


def _with_load(peak: tuple[float, str, int, int]) -> str:
    return f' with the load "{peak[1]}"' if peak[1] else ""


def _jams(peak: tuple[float, str, int, int], *, first: bool = True) -> str:
    """Return that friction holds the drive, at the beginning of a sentence or within it."""
    return f"{'F' if first else 'f'}riction jams the drive{_with_load(peak)}, whatever the motor"


def _enough(value: float, fine: float) -> Answer:
    if value < min(1.0, fine):
        return Answer.NO
    return Answer.FINE if value >= fine else Answer.MARGINAL


def told_times(case: Case) -> float | None:
    """Return the times enough that is told.

    The cautious reading counts; but where even the kinder one is too weak, that is told.
    """
    cautious, kindest = case.times_enough, case.kindest_times
    if cautious is not None and kindest is not None and kindest < 1.0:
        return kindest
    return cautious


def strength(case: Case) -> Finding:
    """Compare times enough with the wanted safety factor, at middle friction."""
    rule = limit("times_enough")
    question = Question(
        "motor_strength",
        "Strong enough",
        rule.reason,
        rule.source,
        "ratio",
        ("motor.safety_factor",),
    )
    fine = case.demand.safety_factor
    value = told_times(case)
    if value is None:
        text = "The listing gives no torque that may be counted on."
        return question.answer(Answer.UNKNOWN, text, fine=fine, no=1.0, ask=_ask_torque(case))
    if case.hardest[0] <= 0.0:
        text = "Nothing is asked of it: no planned load resists."
        return question.answer(Answer.FINE, text, value=MOST_TIMES, fine=fine, no=1.0)
    if math.isinf(case.hardest[0]):
        text = f"{_jams(case.hardest)}; a stronger one or more gearing does not help."
        return question.answer(Answer.NO, text, value=0.0, fine=fine, no=1.0)
    text = (
        f"The hardest turn{_with_load(case.hardest)} needs {shown(case, case.hardest[0])}; it "
        f"gives {_gives(case)}: {times(value, fine)} enough, {fine:g} wanted.{_start_words(case)}"
    )
    return question.answer(
        _enough(value, fine), text, value=min(value, MOST_TIMES), fine=fine, no=1.0
    )


def _start_words(case: Case) -> str:
    free = case.start_direction is StartDirection.REVERSIBLE
    if free or len(case.directions) < 2 or case.demand.both_directions_needed:
        return ""
    undefined = case.start_direction is StartDirection.UNDEFINED
    how = "It may start either way" if undefined else "It turns one way only"
    return f" {how}, so the harder way counts."


_LISTED_AS = {
    "share of stall": "stall torque",
    "share of pull-out": "largest torque",
    "share of holding": "holding torque",
    "share of starting": "starting torque",
    "share of force": "listed force",
}


def _gives(case: Case) -> str:
    counted = case.counted
    listed = shown(case, counted.listed or 0.0)
    if counted.source == "rated":
        return shown(case, counted.torque or 0.0)
    if not counted.certain and (case.kindest_times or 0.0) < 1.0:
        return f"{shown(case, counted.kindest or 0.0)} even if that is its rated torque"
    torque = f"{shown(case, counted.torque or 0.0)}, {share_words(counted.share)}"
    if not counted.certain:
        return f"{torque} of the {listed} of which it is not said what torque it is"
    return f"{torque} of the {_LISTED_AS[counted.source]} of {listed}"


def share_words(share: float) -> str:
    """Return a share as people say it."""
    named = {0.25: "a quarter", 0.5: "half", 1.0: "all"}
    return named.get(share, f"{share:.0%}")


def _ask_torque(case: Case) -> str:
    if case.traits.linear:
        return "Ask the seller for its force, in N or kgf."
    return "Ask the seller for the rated torque, and at what speed."


def torque_kind(case: Case) -> Finding | None:
    """Tell that the listing does not say which torque it gives."""
    counted = case.counted
    if counted.certain or counted.torque is None:
        return None
    question = Question(
        "motor_torque_kind",
        "Which torque is listed",
        "A motor stalls or burns where its stall torque is taken for its rated torque.",
        "common practice, no source",
    )
    listed = shown(case, counted.listed or 0.0)
    cautious, kindest = case.times_enough or 0.0, case.kindest_times or 0.0
    fine = case.demand.safety_factor
    text = f"Not said which torque its {listed} is"
    if kindest < 1.0:
        text += " (too weak either way)."
    elif cautious >= fine:
        text += " (strong enough either way)."
    else:
        text += (
            f". As a rated torque it would be {times(kindest)} enough; "
            f"{share_words(counted.share)} of it was counted."
        )
    ask = "Ask the seller whether it is the rated or the stall torque."
    decides = _enough(cautious, fine) is not _enough(kindest, fine)
    return question.answer(Answer.UNKNOWN, text, ask=ask, caps=decides)


def corner(case: Case) -> Finding | None:
    """Compare with the hardest planned load at high friction, from rest, on a low supply."""
    value = case.corner
    if value is None:
        return None
    rule = limit("motor_corner")
    question = Question("motor_corner", "The bad corner", rule.reason, rule.source, "ratio")
    need = case.hardest_corner[0]
    if need <= 0.0:
        text = "No planned start resists."
        return question.answer(Answer.FINE, text, value=MOST_TIMES, fine=1.0, no=1.0)
    if math.isinf(need):
        text = f"From rest at high friction {_jams(case.hardest_corner, first=False)}."
        return question.answer(Answer.NO, text, value=0.0, fine=1.0, no=1.0)
    text = (
        f"From rest at high friction{_with_load(case.hardest_corner)} it takes "
        f"{shown(case, need)}; on {case.traits.supply_low:.0%} of its supply it has "
        f"{shown(case, value * need)} left: {times(value, 1.0)} enough."
    )
    answer = Answer.FINE if value >= 1.0 else Answer.NO
    return question.answer(answer, text, value=min(value, MOST_TIMES), fine=1.0, no=1.0)


def starting(case: Case) -> Finding | None:
    """Tell whether it starts wherever a move may have stopped."""
    torque = case.starting_torque
    if torque is None:
        return None
    how, source = _starting_basis(case)
    question = Question(
        "motor_starting",
        "Starts anywhere",
        "A power cut may stop it anywhere, and friction at rest is higher than running.",
        source,
        "ratio",
    )
    need = case.hardest_corner[0]
    value = torque / need if need > 0.0 else MOST_TIMES
    if math.isinf(need):
        text = f"From rest at high friction {_jams(case.hardest_corner, first=False)}."
        return question.answer(Answer.NO, text, value=0.0, fine=1.0, no=1.0)
    text = (
        f"It starts against {shown(case, torque)}{how}; the hardest start, at high friction, "
        f"takes {shown(case, need)}."
    )
    answer = Answer.FINE if value >= 1.0 else Answer.NO
    ask = ""
    if 1.0 <= value < UNLISTED_START and _start_is_guessed(case):
        answer, ask = Answer.UNKNOWN, "Ask the seller for its starting torque."
        text += " What it starts against is not listed, and there is little in hand."
    return question.answer(answer, text, value=min(value, MOST_TIMES), fine=1.0, no=1.0, ask=ask)


def _start_is_guessed(case: Case) -> bool:
    """Whether its class alone says what it starts against, where classes differ in that."""
    share = case.traits.starting_share
    return case.motor.starting_torque is None and share is not None and not case.traits.all_steppers


def _starting_basis(case: Case) -> tuple[str, str]:
    """Return how the starting torque is known, and its source."""
    share = case.traits.starting_share
    if case.motor.starting_torque is not None:
        return "", "listing"
    if share is not None:
        how = f" ({share_words(share)} of what it gives running, as its class does)"
        return how, "table of motor classes (from memory)"
    if case.motor.stall_torque is not None:
        return "", "listing"
    return " at least, since a brushed motor gives most at standstill", "from memory"


def rms(case: Case) -> Finding | None:
    """Compare the torque over one move in time with what it may give for long."""
    if case.line is None or case.counted.torque is None:
        return None
    value = case.rms_torque()
    if value is None:
        return None  # it does not get through, which the strength already says
    question = Question(
        "motor_rms",
        "Warms up over the move",
        "Heat follows the square of the torque over the time it runs; the pause between moves "
        "does not carry the load and does not count.",
        "equivalent torque: G. K. Dubey, Fundamentals of Electrical Drives, chapter 4",
        case.unit,
    )
    longest = case.longest_move or 0.0
    most = case.counted.continuous
    text = f"Over a move it gives {shown(case, value)} on average (RMS) for {longest:.0f} s"
    if longest <= LONG_RUN:
        text += ": too short to heat it through."
        return question.answer(Answer.FINE, text, value=value, fine=most)
    if most is None:
        text += "; what it may give for so long is not listed."
        ask = "Ask the seller for the rated (continuous) torque."
        return question.answer(Answer.UNKNOWN, text, value=value, ask=ask)
    answer = Answer.FINE if value <= most else Answer.MARGINAL
    text += f"; it is rated for {shown(case, most)}."
    return question.answer(answer, text, value=value, fine=most)


def holding(case: Case) -> Finding:
    """Tell whether it stays where it parks when it is off."""
    need = case.demand.holding_torque
    enough = case.counted.torque or 0.0
    question = Question(
        "motor_holding",
        "Stays where it parks",
        "Judged with the lowest friction: what friction holds today may slip tomorrow.",
        "definition",
        case.unit,
    )
    if need <= NEXT_TO_NOTHING * enough or need <= 0.0:
        text = "Where it parks the load does not turn it."
        return question.answer(Answer.FINE, text, value=need)
    push = f"Where it parks the load turns it with {shown(case, need)}"
    kept = holds(case)
    if kept is None:
        text = f"{push}; whether it holds when off is not listed."
        ask = "Turn its shaft by hand with the power off, or hang the load on it overnight."
        return question.answer(Answer.UNKNOWN, text, value=need, ask=ask)
    if not kept:
        text = f"{push}, and it does not hold when off. {_kept_by(case)}"
        return question.answer(Answer.MARGINAL, text, value=need)
    listed = case.motor.holding_torque
    bears = listed if listed is not None else enough
    if bears < need:
        text = f"{push}; it holds {shown(case, bears)}."
        return question.answer(Answer.MARGINAL, text, value=need, fine=bears)
    return question.answer(Answer.FINE, f"{push}; it holds when off.", value=need, fine=bears)


def _kept_by(case: Case) -> str:
    """Return what keeps a load where it parks if the motor does not; a rest point only if any."""
    if case.demand.linear:
        return "Keep a brake on it, or take one whose screw holds by itself."
    if case.demand.rest_points:
        return "Park it on a rest point, keep a brake on it, or drive through a worm."
    return "Keep a brake on it, or drive through a worm."


def holds(case: Case) -> bool | None:
    """Return whether it holds when off: by the listing, else by its class, else unknown."""
    if case.motor.holds_when_off is not None:
        return case.motor.holds_when_off
    if case.motor.holding_torque is not None and not case.traits.all_steppers:
        return True
    return case.traits.holds_when_off if case.traits.certain else None
