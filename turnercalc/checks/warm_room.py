"""In how warm a room the box still holds its set point, with fan and motor running."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "warm_room"
TITLE = "Warm days"
FIELDS = ("box.insulation", "box.wall_area", "box.fan_power", "box.room", "motor.stands")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the warmest room, where the box's insulation is given; nothing else is asked for it."""
    warmth = evidence.warmth
    if warmth is None or warmth.conductance is None:
        return
    rule = limit("room_temperature_high")
    usual = rule.fine if rule.fine is not None else 0.0
    wanted = warmth.room if warmth.room is not None else usual
    found = warmth.warmest_room
    if found is None:
        ask = "Ask for the motor's input power, or measure its volts and amps while it runs."
        text = "How much the motor warms the box is not known."
        yield _finding(Answer.UNKNOWN, text, None, wanted, ask)
        return
    sources = "the motor's heat" if not warmth.fan else "fan and motor running"
    text = (
        f"With {sources} and the heater off the box holds {_c(warmth.set_point)} in rooms up to "
        f"{_c(found)}"
    )
    late = warmth.warmest_room_with_eggs
    text += f", up to {_c(late)} in the last days." if late is not None else "."
    worst = found if late is None else late
    answer = Answer.FINE if worst >= wanted else Answer.MARGINAL
    if answer is Answer.MARGINAL:
        whose = "yours gets to" if warmth.room is not None else "rooms get to"
        text += f" Where {whose} {_c(wanted)}, open its vents wider or put the motor outside."
    if warmth.fan is None:
        text += " A fan inside is not counted: say box.fan_power."
    yield _finding(answer, text, worst, wanted, "")


def _c(value: float) -> str:
    return units.show(value, "temperature")


def _finding(answer: Answer, text: str, value: float | None, wanted: float, ask: str) -> Finding:
    return Finding(
        id=ID,
        title=TITLE,
        answer=answer,
        text=text,
        value=value,
        unit="degC",
        limit_fine=wanted,
        reason="Heat of fan, motor and eggs has to leave through the walls; where it cannot, the "
        "box gets too warm with the heater off.",
        source="heat balance of the walls; surface resistances of ISO 6946, from memory",
        fields=FIELDS,
        ask=ask,
        caps_verdict=answer is not Answer.UNKNOWN,
    )
