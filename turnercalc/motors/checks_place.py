"""Where the motor stands: warmth, damp, heat into the box, side load, and what a stall does."""

from __future__ import annotations

from turnercalc import units
from turnercalc.findings import Answer, Finding
from turnercalc.motors.case import Case
from turnercalc.motors.electric import holding_power, standing_power
from turnercalc.motors.questions import Question
from turnercalc.tables import limit

ROOM = 25.0  # [degC]; where the design does not say how warm its room gets
DRIP_TIGHT = 2  # second digit of IP: drops at 15 degrees (IEC 60529)


def ambient(case: Case) -> Finding:
    """Tell whether it may be as warm as its place."""
    room = case.demand.room_temperature
    here = case.demand.box_temperature if case.demand.inside else (ROOM if room is None else room)
    most = case.motor.ambient_most
    question = Question(
        id="motor_ambient",
        title="Bears the warmth of its place",
        unit="degC",
        reason="Motors are rated in air of 40 °C at most; listings of hobby motors mean 20 to "
        "25 °C.",
        source="IEC 60034-1 for 40 °C; hobby motors: common practice, no source",
        fields=("motor.stands", "box.temperature"),
    )
    if most is not None:
        # Outside it can be moved to a cooler place, so that is only said.
        warm = Answer.MARGINAL if case.demand.inside else Answer.NOTE
        answer = Answer.FINE if here <= most else warm
        text = f"It stands in {here:.1f} °C and is made for up to {most:g} °C."
        return question.answer(answer, text, value=here, fine=most)
    if not case.demand.inside:
        text = "It stands outside the warm box."
        return question.answer(Answer.FINE, text, value=here, fine=most)
    text = f"It stands in {here:.1f} °C; how warm it may be is not listed."
    ask = "Ask the seller for the largest ambient temperature, or put the motor outside."
    return question.answer(Answer.UNKNOWN, text, value=here, fine=most, ask=ask)


def damp(case: Case) -> Finding:
    """Tell whether it bears the damp."""
    question = Question(
        id="motor_damp",
        title="Bears the damp",
        unit="",
        reason="An incubator is damp for weeks. IP codes rate drops and jets, not humidity, "
        "so even a good code means: keep terminals from sweating.",
        source="IEC 60529 for the codes; IPX2 or better inside is from memory",
        fields=("motor.stands",),
    )
    if not case.demand.inside:
        text = "It stands outside the damp box."
        return question.answer(Answer.FINE, text)
    code = case.motor.protection
    if code is None:
        text = "It stands in the damp box; its protection is not listed."
        ask = "Look for an IP code on its label, or put the motor outside."
        return question.answer(Answer.UNKNOWN, text, ask=ask)
    second = code[3:4]
    tight = second.isdigit() and int(second) >= DRIP_TIGHT
    answer = Answer.FINE if tight else Answer.MARGINAL
    words = "keeps drops out" if tight else "does not keep drops out"
    return question.answer(answer, f"{code} {words}.")


def average_heat(case: Case) -> float | None:
    """Return the heat the motor puts into the box, averaged over the day [W]; None if unknown."""
    if not case.demand.inside:
        return 0.0
    power, rest, run = input_power(case), standing_power(case), _run(case)
    if power is None or rest is None or run is None:
        return None
    moving = min(1.0, run / case.demand.interval_s)
    return power * moving + rest * (1.0 - moving)


def warmest_heat(case: Case) -> float | None:
    """Return the heat into the box in the warmest ten minutes [W]; None if unknown.

    Not averaged over longer: a small box follows within minutes, so a long pause must not make
    a hot motor look cool.
    """
    power, rest, run = input_power(case), standing_power(case), _run(case)
    if power is None or rest is None or run is None:
        return None
    moves = max(1.0, 600.0 / case.demand.interval_s)
    moving = min(1.0, moves * run / 600.0)
    return power * moving + rest * (1.0 - moving)


def input_power(case: Case) -> float | None:
    """Return what the motor draws while it runs [W], or None."""
    motor = case.motor
    if case.traits.all_steppers:
        return holding_power(case)
    if motor.input_power is not None:
        return motor.input_power
    if motor.rated_current is not None and case.match.volts is not None:
        return motor.rated_current * case.match.volts
    return None


def _run(case: Case) -> float | None:
    longest = case.longest_move
    return None if longest == float("inf") else longest


def _hot_at_rest(case: Case) -> bool:
    return case.traits.heat_at_rest == "holding current"


def heat(case: Case) -> Finding | None:
    """Tell how much it warms the box."""
    if not case.demand.inside:
        return None
    rule = limit("motor_heat_in_box")
    value = warmest_heat(case)
    question = Question(
        id="motor_heat_in_box",
        title="Heat into the box",
        unit="W",
        reason=rule.reason,
        source=rule.source,
        fields=("motor.stands",),
    )
    if value is None:
        text = "It stands in the box; what it draws is not listed, so neither is its heat."
        ask = "Ask for its input power, or measure volts and amps while it runs."
        return question.answer(Answer.UNKNOWN, text, value=value, fine=rule.fine, ask=ask)
    answer = Answer.FINE if rule.answer(value) is Answer.FINE else Answer.MARGINAL
    text = f"{units.show(value, 'power')} into the box in the warmest ten minutes."
    if _hot_at_rest(case):
        text += " It keeps heating while it holds: cut its current between moves."
    return question.answer(answer, text, value=value, fine=rule.fine)


def side_load(case: Case) -> Finding | None:
    """Tell whether its shaft bears the pull square to it."""
    need = case.demand.side_load
    if need is None or case.demand.linear:
        return None
    listed, usual = case.motor.side_load, case.traits.side_load
    bears = listed if listed is not None else usual
    question = Question(
        id="motor_side_load",
        title="Shaft bears the pull",
        unit="N",
        reason="Link, chain or belt pulls square to the shaft and wears the gearbox bearing.",
        source="listing" if listed is not None else "table of motor classes (from memory)",
    )
    pull = f"The shaft is pulled sideways with {units.show(need, 'force')}"
    advice = "A bearing on the far side of the crank takes it off the gearbox."
    if listed is not None:
        fine = need <= listed
        text = f"{pull}; it is made for {units.show(listed, 'force')}. {'' if fine else advice}"
        # A bearing puts it right, and a listing that says nothing must not look better.
        answer = Answer.FINE if fine else Answer.NOTE
        return question.answer(answer, text.strip(), value=need, fine=listed)
    if usual is not None and need <= usual:
        text = f"{pull}; not listed, and motors of its class usually bear more."
        return question.answer(Answer.FINE, text, value=need, fine=bears)
    text = f"{pull}; what it bears is not listed. {advice}"
    ask = "Ask the seller for the radial load its shaft allows, and how far out."
    return question.answer(Answer.UNKNOWN, text, value=need, fine=bears, ask=ask)


def stall(case: Case) -> Finding:
    """Tell what it does when something jams."""
    motor = case.motor
    known = [t for t in (motor.stall_torque, motor.starting_torque) if t is not None]
    most = max(known) if known else (case.line.most_torque if case.line else None)
    words = {c.when_stalled for c in case.traits.classes}
    text = words.pop() if len(words) == 1 else "Some motors burn when they are held."
    if most is not None and not case.demand.linear:
        text += f" Up to {units.show(most, 'torque')} at its shaft."
    question = Question(
        "motor_stall",
        "When something jams",
        "A tray that catches takes the full torque of the motor through the link.",
        "table of motor classes (from memory)",
        case.unit,
    )
    return question.answer(Answer.NOTE, text, value=most, caps=False)
