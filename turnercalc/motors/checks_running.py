"""How fast it runs and for how long: speed, duty; and what it runs on."""

from __future__ import annotations

import math

from turnercalc import units
from turnercalc.findings import Answer, Finding
from turnercalc.motors.case import Case
from turnercalc.motors.motor import Duty, StartDirection
from turnercalc.motors.questions import Question
from turnercalc.motors.supply import listed_frequencies
from turnercalc.tables import limit

#: Listed strokes are round figures; this much off is the same stroke [m].
STROKE_ROUNDING = 1e-3
#: 6 in and 150 mm are one and the same rod in shops (common practice, no source) [ratio].
SAME_ROD = 0.02
#: How far hobby servos turn between their own stops [rad].
USUAL_SERVO, LARGEST_SERVO = math.pi, 1.5 * math.pi
TEN_MINUTES = 600.0  # [s]; longest cycle that IEC 60034-1 calls intermittent (S3)
HARMLESS_RUN = 30.0  # [s]; a twentieth of ten minutes, less than any duty seen on a listing
HARMLESS_SHARE = 0.1
SHORTEST_SHORT_TIME = 600.0  # [s]; shortest of the standard S2 ratings 10, 30, 60 and 90 min


def _speed_text(case: Case, speed: float) -> str:
    return units.show(speed, "speed" if case.demand.linear else "rotation")


def speed(case: Case) -> Finding:
    """Tell whether it turns neither too fast for the eggs nor too slowly."""
    demand, speeds = case.demand, case.speeds
    question = Question(
        id="motor_speed",
        title="Right speed",
        unit="m/s" if demand.linear else "rpm",
        reason="Too fast shakes the eggs; too slow leaves them long near level.",
        source=limit("peak_acceleration").source,
    )
    if speeds is None:
        ask = "Time ten turns with a stopwatch, or ask the seller."
        text = "The listing gives no speed."
        return question.answer(Answer.UNKNOWN, text, ask=ask)
    scale = 1.0 if demand.linear else units.parse("1 rpm", "rotation")
    most = demand.speed_max / scale
    sure = _speed_answer(case, speeds.high, speeds.low)
    likely = _speed_answer(case, speeds.nominal, speeds.nominal)
    answer, text = likely
    if speeds.doubt and sure[0] is not likely[0] and answer is not Answer.NO:
        answer = Answer.UNKNOWN
        text = f"{text} Not known: {speeds.doubt}; it may be {sure[1][0].lower()}{sure[1][1:]}"
    ask = "Time ten turns with a stopwatch." if answer is Answer.UNKNOWN else ""
    return question.answer(answer, text, value=speeds.nominal / scale, fine=most, no=most, ask=ask)


def _speed_answer(case: Case, fast: float, slow: float) -> tuple[Answer, str]:
    demand = case.demand
    most, least = demand.speed_max, demand.speed_min
    if fast > most * 1.0001:
        return Answer.NO, (
            f"Too fast: {_speed_text(case, fast)}, and {_speed_text(case, most)} is the most."
        )
    loaded = slow
    if case.line is not None:
        loaded = float(case.line.at_speed(slow).speed(case.hardest[0]))
    if slow < least * _slowest_share():
        return Answer.NO, (
            f"Far too slow: {_speed_text(case, slow)}, and {_speed_text(case, least)} is wanted."
        )
    if slow < least * 0.9999:
        return Answer.MARGINAL, (
            f"Slow: {_speed_text(case, slow)}, and {_speed_text(case, least)} is wanted."
        )
    if 0.0 < loaded < least * 0.9999:
        return Answer.MARGINAL, (
            f"Under the hardest load it slows to {_speed_text(case, loaded)}; "
            f"{_speed_text(case, least)} is wanted."
        )
    return Answer.FINE, f"{_speed_text(case, slow)} without load."


def _slowest_share() -> float:
    """Return how much slower than wanted is out of the question, by the limits of move time."""
    rule = limit("move_time_longest")
    return (rule.fine or 1.0) / (rule.no or 1.0)


def stroke(case: Case) -> Finding | None:
    """Tell whether a motor that moves in a line goes far enough, and not too far."""
    demand, has = case.demand, case.motor.stroke
    if not demand.linear:
        return None
    own_ends = demand.runs_whole_stroke
    need = demand.travel if own_ends is None else own_ends
    question = Question(
        id="motor_stroke",
        title="Stroke",
        unit="mm",
        reason="What moves in a line and comes to its own end too soon does not turn the eggs to "
        "the other side; one that goes on too far tears at its pins.",
        source="definition",
        fields=("actuator.stroke",),
    )
    wanted = _length(need)
    if has is None:
        text = f"Its stroke is not listed, and {wanted} is wanted."
        ask = "Ask the seller for its stroke, and for its length from eye to eye with the rod in."
        return question.answer(Answer.UNKNOWN, text, fine=1e3 * need, ask=ask)
    value, fine = 1e3 * has, 1e3 * need
    if has < need - STROKE_ROUNDING:
        text = f"Its stroke of {_length(has)} is too short; {wanted} is wanted."
        return question.answer(Answer.NO, text, value=value, fine=fine, no=fine)
    if own_ends is not None and has > need + STROKE_ROUNDING:
        text = (
            f"Its stroke of {_length(has)} is not the {wanted} of the design, and it is to run "
            "from one of its own ends to the other."
        )
        return question.answer(Answer.NO, text, value=value, fine=fine, no=fine)
    return question.answer(Answer.FINE, f"Its stroke is {_length(has)}.", value=value, fine=fine)


def own_length(case: Case) -> Finding | None:
    """Tell that what moves in a line is another than the one the eyes were placed for."""
    demand, has = case.demand, case.motor.stroke
    drawn = demand.drawn_stroke
    if not demand.linear or demand.runs_whole_stroke is not None or has is None or drawn is None:
        return None  # a whole stroke that differs is refused by the stroke itself
    if abs(has - drawn) <= SAME_ROD * drawn or has < demand.travel - STROKE_ROUNDING:
        return None
    return Finding(
        id="motor_own_length",
        title="How long it is from eye to eye",
        answer=Answer.UNKNOWN,
        text=f"Its stroke is {_length(has)} and the eyes are placed for one of {_length(drawn)}: "
        "it may be longer from eye to eye too.",
        value=1e3 * has,
        unit="mm",
        limit_fine=1e3 * drawn,
        reason="The longer the stroke, the longer the rod at rest: the eyes then stand too near.",
        source="definition",
        fields=("actuator.shortest", "actuator.stroke"),
        ask="Ask the seller for its length from eye to eye with the rod in; write that and its "
        "stroke into actuator.shortest and actuator.stroke.",
        caps_verdict=False,
    )


def _length(value: float) -> str:
    return units.in_unit(value, "mm", "length")


def speed_basis(case: Case) -> Finding | None:
    """Tell what the listing leaves open about its speed."""
    if case.speeds is None or not case.speeds.doubt:
        return None
    return Finding(
        id="motor_speed_basis",
        title="What its speed holds for",
        answer=Answer.UNKNOWN,
        text=f"Not known: {case.speeds.doubt}.",
        reason="Seconds for each move follow from the speed under load.",
        source="definition",
        ask="Time ten turns with a stopwatch, with and without load.",
        caps_verdict=False,  # where it decides, the check of the speed says so itself
    )


def reverses(case: Case) -> Finding | None:
    """Tell whether it can be told to turn back, where every other move goes the other way."""
    demand = case.demand
    if not demand.both_directions_needed or demand.moves_per_cycle != 1:
        return None
    question = Question(
        id="motor_reverses",
        title="Can be told to turn back",
        unit="",
        reason="To and fro, every other move goes the other way.",
        source="definition",
        fields=("motor.have",),
    )
    texts = {
        StartDirection.REVERSIBLE: "It can be made to turn either way.",
        StartDirection.ONE_WAY: "It turns one way only, and this turner goes to and fro.",
        StartDirection.UNDEFINED: "It may start either way, and nobody can tell it to turn back.",
    }
    turns = case.start_direction
    good = turns is StartDirection.REVERSIBLE
    return question.answer(Answer.FINE if good else Answer.NO, texts[turns])


def servo_travel(case: Case) -> Finding | None:
    """Tell whether a hobby servo turns far enough: it comes to its own stops."""
    if {kind.id for kind in case.traits.classes} != {"servo"}:
        return None
    need = case.demand.turns_through
    question = Question(
        id="motor_travel",
        title="Turns far enough",
        unit="deg",
        reason="A hobby servo turns half a turn to its own stops; a few turn 270 degrees.",
        source="hobby servos, from memory",
        fields=("motor.have",),
    )
    if need == float("inf"):
        text = "A hobby servo turns half a turn and stops, and here it has to go on round."
        return question.answer(Answer.NO, text)
    wanted = units.in_unit(need, "deg", "angle")
    value, usual, most = (math.degrees(angle) for angle in (need, USUAL_SERVO, LARGEST_SERVO))
    if need <= USUAL_SERVO * (1.0 + 1e-6):
        text = f"A hobby servo turns half a turn; {wanted} is wanted."
        return question.answer(Answer.FINE, text, value=value, fine=usual, no=most)
    if need <= LARGEST_SERVO:
        text = f"A hobby servo turns half a turn, a few turn 270 degrees; {wanted} is wanted."
        ask = "Ask the seller how far it turns."
        return question.answer(Answer.UNKNOWN, text, value=value, fine=usual, no=most, ask=ask)
    text = f"A hobby servo turns half a turn and stops; {wanted} is wanted."
    return question.answer(Answer.NO, text, value=value, fine=usual, no=most)


def supply(case: Case) -> Finding:
    """Tell whether the builder has the supply that it wants."""
    match = case.match
    ask = ""
    if match.answer is Answer.UNKNOWN:
        ask = "Look on its label for V, and AC or DC."
    return Finding(
        id="motor_supply",
        title="Runs on your supply",
        answer=match.answer,
        text=match.text,
        value=match.volts,
        unit="V",
        reason="A tenth either way is what mains keeps to.",
        source="EN 50160, from memory",
        fields=("motor.supply",),
        ask=ask,
    )


def frequency(case: Case) -> Finding | None:
    """Tell whether a mains motor is made for the builder's frequency."""
    if not case.traits.any_mains or case.match.current == "dc":
        return None
    mine, listed = case.demand.supply.frequency, listed_frequencies(case.listed)
    names = " and ".join(f"{value:g}" for value in listed)
    question = Question(
        id="motor_frequency",
        title="Made for your mains frequency",
        unit="",
        reason="The mains frequency sets the speed: on 60 Hz it turns 1.2 times as fast as on "
        "50. A motor made for 60 Hz runs hotter on 50.",
        source="synchronous speed 120 f/p; heat from memory",
        fields=("motor.supply",),
    )
    if mine is None:
        text = "A mains motor runs by the mains frequency, and you did not say yours."
        ask = "Add 50 Hz or 60 Hz to the supply; it stands on any appliance."
        return question.answer(Answer.UNKNOWN, text, value=mine, ask=ask)
    if not listed:
        text = f"It does not say whether its speed holds for 50 or 60 Hz; you have {mine:g}."
        ask = "Look on its label for Hz."
        return question.answer(Answer.UNKNOWN, text, value=mine, ask=ask)
    if mine in listed:
        text = f"Made for {names} Hz; you have {mine:g}."
        return question.answer(Answer.FINE, text, value=mine)
    text = f"Made for {names} Hz; on your {mine:g} it turns {mine / listed[0]:.2f} times as fast."
    return question.answer(Answer.MARGINAL, text, value=mine)


# -- duty --------------------------------------------------------------------------------------


def duty(case: Case) -> Finding | None:
    """Tell whether it may run so long and so often, in the terms of IEC 60034-1."""
    run = case.longest_move
    if run is None or run == float("inf"):
        return None
    interval = case.demand.interval_s
    question = Question(
        id="motor_duty",
        title="May run so long",
        unit="s",
        reason="A cycle of more than ten minutes is no intermittent duty (S3): each run has "
        "to be allowed by itself, however long the pause.",
        source="IEC 60034-1, duty types S1 to S10 (read in summaries)",
        fields=("turning.turns_per_day",),
    )
    listed = case.motor.duty
    if listed is None or (listed.kind not in ("S1", "S2") and listed.share is None):
        return _unlisted_duty(run, interval, question)
    if listed.kind == "S1":
        return question.answer(Answer.FINE, "Rated to run all day (S1).", value=run)
    allowed, words = _allowed(listed, interval)
    # A run that no listing forbids in practice is only noted, as it is fine where none is listed.
    over = Answer.NOTE if _harmless(run, interval) else Answer.MARGINAL
    answer = Answer.FINE if run <= allowed else over
    text = f"A move takes {run:.0f} s at most; {words} allows {allowed:.0f} s."
    return question.answer(answer, text, value=run, fine=allowed)


def _harmless(run: float, interval: float) -> bool:
    return run <= HARMLESS_RUN and run <= HARMLESS_SHARE * interval


def _unlisted_duty(run: float, interval: float, question: Question) -> Finding:
    if _harmless(run, interval):
        text = f"Its duty is not listed; {run:.0f} s in {interval / 60.0:.0f} min is within any."
        return question.answer(Answer.FINE, text, value=run)
    text = f"Its duty is not listed, and a move takes {run:.0f} s in {interval / 60.0:.0f} min."
    ask = "Ask the seller how long it may run at a time: S1, S2 or S3 with its per cent."
    return question.answer(Answer.UNKNOWN, text, value=run, ask=ask)


def _allowed(listed: Duty, interval: float) -> tuple[float, str]:
    """Return the longest run a duty allows when it comes once an interval [s], and in words."""
    if listed.kind == "S2":
        run = listed.run_time if listed.run_time is not None else SHORTEST_SHORT_TIME
        if interval < TEN_MINUTES:
            return min(run, HARMLESS_SHARE * interval), "its short-time duty (S2)"
        return run, "its short-time duty (S2)"
    share = listed.share if listed.share is not None else 0.0
    words = f"its intermittent duty ({listed.kind}, {share:.0%})"
    return share * min(interval, listed.cycle), words
