"""How each row of a motor file was read: as a page and as JSON. No design is needed."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

from turnercalc.handover.conversion import sentence
from turnercalc.handover.display import Style
from turnercalc.handover.layout import WIDTH, labelled, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.motors import Duty, Motor, MotorFile, MotorRow, Reading
from turnercalc.motors.classes import motor_class
from turnercalc.motors.dependable import Dependable, dependable
from turnercalc.motors.motor import Outcome, Possible
from turnercalc.motors.traits import traits_of

FORMAT = "turnercalc-motors/1"


class Field(NamedTuple):
    """How a field of a motor is called on the page, and its kind and key in records."""

    words: str
    kind: str
    key: str
    per_si: float = 1.0


_RPM = 30.0 / 3.141592653589793
FIELDS: Mapping[str, Field] = MappingProxyType(
    {
        "rated_torque": Field("rated torque", "torque", "rated_torque_Nm"),
        "starting_torque": Field("starting torque", "torque", "starting_torque_Nm"),
        "stall_torque": Field("stall torque", "torque", "stall_torque_Nm"),
        "holding_torque": Field("holding torque", "torque", "holding_torque_Nm"),
        "unnamed_torque": Field("torque (kind not said)", "torque", "unnamed_torque_Nm"),
        "rated_speed": Field("speed under load", "rotation", "rated_speed_rpm", _RPM),
        "free_speed": Field("speed without load", "rotation", "free_speed_rpm", _RPM),
        "unnamed_speed": Field("speed (load not said)", "rotation", "unnamed_speed_rpm", _RPM),
        "volts": Field("supply", "voltage", "volts_V"),
        "frequencies": Field("mains", "frequency", "frequencies_Hz"),
        "input_power": Field("power drawn", "power", "input_power_W"),
        "output_power": Field("power given", "power", "output_power_W"),
        "rated_current": Field("current under load", "current", "rated_current_A"),
        "stall_current": Field("stall current", "current", "stall_current_A"),
        "free_current": Field("current without load", "current", "free_current_A"),
        "start_direction": Field("way it starts", "", "start_direction"),
        "holds_when_off": Field("holds when off", "", "holds_when_off"),
        "duty": Field("duty", "", "duty"),
        "protection": Field("protection", "", "protection"),
        "insulation": Field("insulation class", "", "insulation_class"),
        "ambient_most": Field("warmest surroundings", "temperature", "ambient_most_degC"),
        "side_load": Field("side load allowed", "force", "side_load_N"),
        "force": Field("force", "force", "force_N"),
        "holding_force": Field("holding force", "force", "holding_force_N"),
        "travel_speed": Field("travel speed", "speed", "travel_speed_mm_per_s", 1e3),
        "stroke": Field("stroke", "length", "stroke_mm", 1e3),
        "price": Field("price", "", "price"),
        "mass": Field("weight", "mass", "mass_kg"),
    }
)
_HOW_CLASSED = {
    "listed": "",
    "words": " (from its words)",
    "figures": " (only guessed from its figures)",
}
_MOST_CLASSES = 7  # nothing in the row tells brushed from mains motors: naming all helps nobody
_LABEL = 4
_TEXT = 14


def page(file: MotorFile, style: Style) -> str:
    """Return a motor file row by row: what was taken, doubted and refused, and what counts."""
    used = sum(row.used for row in file)
    name = file.name or "the pasted table"
    rows = "row" if len(file) == 1 else "rows"
    lines = wrap(style.letters(f"{name}: {len(file)} {rows}, {used} can be used."))
    lines += wrap(style.letters(f"Read as {file.layout}.")) if file.layout else []
    for remark in file.remarks:
        lines += wrap(_broken(style.letters(remark)))
    for row in file:
        lines += ["", *_row(row, style)]
    return "\n".join(lines)


def _row(row: MotorRow, style: Style) -> list[str]:
    motor = row.motor
    answer = "fine" if row.used else "no"
    state = "used" if row.used else "not used"
    named = motor.title if motor.called_by_title else f"{motor.id}  {motor.title}"
    title = style.letters(named.rstrip())
    if len(title) > WIDTH - 12:
        title = title[: WIDTH - 15] + "..."
    lines = [f"{title:<{WIDTH - 10}}{style.paint(state, answer)}"]
    lines += _told("taken for", _class_words(motor))
    for reading in row.readings:
        lines += _told(*_reading_words(reading, style))
    if row.refused:
        lines += _told("why not", style.words(row.refused))
    for possible in row.possible:
        lines += _told("possible", style.words(_possible_words(possible, style)))
    if row.used:
        lines += _told("counts", style.letters(_counted_words(motor, style)))
    return lines


def _told(label: str, text: str) -> list[str]:
    return labelled(_broken(label), _broken(text), margin=_LABEL, column=_LABEL + _TEXT)


_TOO_LONG = re.compile(r"\S{50,}")


def _broken(text: str) -> str:
    """Return a text without words that no line of the page could hold."""
    return _TOO_LONG.sub(lambda match: f"{match[0][:44]}...", text)


def _class_words(motor: Motor) -> str:
    names = [motor_class(name).name for name in motor.candidates] or [motor.motor_class or ""]
    if not any(names) or len(names) > _MOST_CLASSES:
        return "a motor of unknown class; the least that any class allows is reckoned with"
    how = _HOW_CLASSED.get(motor.class_from, "")
    return f"{' or '.join(names)}{how}"


def _reading_words(reading: Reading, style: Style) -> tuple[str, str]:
    label = style.letters(reading.column) or "row"
    quoted = style.letters(f'"{reading.text}"')
    if reading.outcome is Outcome.PASSED_OVER:
        return label, f"{quoted} passed over{_because(reading, style)}"
    if reading.outcome is Outcome.REFUSED:
        return label, f"{quoted} refused{_because(reading, style)}"
    field = FIELDS.get(reading.field)
    what = field.words if field else reading.field.replace("_", " ")
    shown = ", ".join(_values(reading, style))
    bound = _at_supply(reading, style)
    doubt = ", doubted" if reading.outcome is Outcome.DOUBTED else ""
    value = f": {shown}" if shown else ""
    arrow = style.letters("→")
    return label, f"{quoted} {arrow} {what}{bound}{value}{doubt}{_because(reading, style)}"


def _because(reading: Reading, style: Style) -> str:
    return f". {sentence(style.words(reading.note))}" if reading.note else ""


def _values(reading: Reading, style: Style) -> Iterable[str]:
    if reading.field == "price" and isinstance(reading.value, tuple):
        amount, currency = reading.value
        yield style.letters(f"{amount:g} {currency}".strip())
        return
    field = FIELDS.get(reading.field)
    values = reading.value if isinstance(reading.value, tuple) else (reading.value,)
    for value in dict.fromkeys(values):
        if isinstance(value, float) and field is not None and field.kind:
            yield style.show(value, field.kind)
        elif isinstance(value, Duty):
            yield duty_words(value)
        elif isinstance(value, bool):
            yield "yes" if value else "no"
        elif isinstance(value, str) and value:
            yield style.letters(value)


def duty_words(duty: Duty) -> str:
    """Return a duty in the terms of IEC 60034-1: ``S2 10 min``, ``S3 25%``."""
    if duty.run_time is not None:
        minutes = duty.run_time / 60.0
        return (
            f"{duty.kind} {minutes:g} min" if minutes >= 1.0 else f"{duty.kind} {duty.run_time:g} s"
        )
    return duty.kind if duty.share is None else f"{duty.kind} {duty.share:.0%}"


def _at_supply(reading: Reading, style: Style) -> str:
    if reading.volts is not None:
        return f" at {style.show(reading.volts, 'voltage')}"
    if reading.hertz is not None:
        return f" at {style.show(reading.hertz, 'frequency')}"
    return ""


def _possible_words(possible: Possible, style: Style) -> str:
    torque, speed = FIELDS[possible.torque_is], FIELDS[possible.speed_is]
    return (
        f"as {torque.words} and {speed.words} it is "
        f"{style.show(possible.output_power, 'power')} at most, which can be. Ask the seller which."
    )


def _counted_words(motor: Motor, style: Style) -> str:
    found = counted(motor)
    kind = "force" if traits_of(motor).linear else "torque"
    if found.torque is None or found.listed is None:
        return f"nothing: no {kind} that can be counted on"
    whole = style.show(found.torque, kind)
    if kind == "force":
        return f"{whole}: {found.share:.0%} of its listed force {style.show(found.listed, kind)}"
    if found.share == 1.0:
        return f"{whole}: its rated {kind}, in full"
    share, listed = f"{found.share:.0%}", style.show(found.listed, kind)
    if not found.certain:
        return (
            f"{whole}: {share} of {listed}, because the listing does not say which kind of "
            f"{kind} that is"
        )
    return f"{whole}: {share} of its {found.source.removeprefix('share of ')} {kind} {listed}"


def counted(motor: Motor) -> Dependable:
    """Return what of a motor's listed torque or force may be counted on."""
    return dependable(motor, traits_of(motor))


# --- JSON ---------------------------------------------------------------------------------------


def as_json(file: MotorFile) -> str:
    """Return a motor file row by row as JSON; what the listing does not say is null."""
    record = {
        "format": FORMAT,
        "file": file.name or None,
        "layout": file.layout,
        "remarks": list(file.remarks),
        "motors": [_row_record(row) for row in file],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def _row_record(row: MotorRow) -> dict[str, Any]:
    found = counted(row.motor)
    linear = traits_of(row.motor).linear
    return {
        "id": row.motor.id,
        "line": row.line,
        "used": row.used,
        "why_not": row.refused or None,
        **motor_record(row.motor),
        f"dependable_{'force_N' if linear else 'torque_Nm'}": rounded(found.torque),
        "dependable_from": found.source or None,
        "readings": [
            {
                "column": reading.column,
                "text": reading.text,
                "field": reading.field or None,
                "outcome": reading.outcome.value,
                "note": reading.note or None,
            }
            for reading in row.readings
        ],
        "possible": [
            {
                "torque_is": possible.torque_is,
                "speed_is": possible.speed_is,
                "output_power_W": rounded(possible.output_power),
            }
            for possible in row.possible
        ],
    }


def motor_record(motor: Motor) -> dict[str, Any]:
    """Return the figures of a motor under keys that carry their unit."""
    record: dict[str, Any] = {
        "title": motor.title or None,
        "motor_class": motor.motor_class,
        "motor_class_from": motor.class_from or None,
    }
    for name, field in FIELDS.items():
        value = getattr(motor, name)
        if name == "volts":
            value = [[rounded(v.low), rounded(v.high)] for v in value]
        elif name == "frequencies":
            value = [rounded(hertz) for hertz in value]
        elif name == "duty":
            value = None if value is None else value.kind
        elif isinstance(value, float):
            value = rounded(value * field.per_si)
        record[field.key] = value
    record["currency"] = motor.currency or None
    return record
