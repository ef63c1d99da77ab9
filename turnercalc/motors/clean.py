"""A clean copy of a motor file: one figure a cell, units in the heads, nothing left to guess."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Callable, Iterable

from turnercalc.motors.motor import Duty, Motor, MotorFile, MotorRow, Rating, Volts

RPM = math.tau / 60.0


def _number(value: float | None, scale: float = 1.0) -> str:
    # repr gives the shortest text that reads back as the same number
    return "" if value is None else repr(float(value) / scale) if scale != 1.0 else repr(value)


def _at(motor: Motor, field: str, scale: float, unit: str) -> str:
    """Return a figure, or one for each supply it is bound to."""
    bound = [rating for rating in motor.ratings if rating.field == field]
    if not bound:
        value = getattr(motor, field)
        return "" if value is None else f"{_number(value, scale)} {unit}"
    return "; ".join(f"{_number(r.value, scale)} {unit}{_supply_of(r)}" for r in bound)


def _supply_of(rating: Rating) -> str:
    if rating.volts is not None:
        return f" at {_number(rating.volts)} V"
    return f" at {_number(rating.hertz)} Hz" if rating.hertz is not None else ""


def _volts(volts: tuple[Volts, ...]) -> str:
    return "; ".join(_one_volts(v) for v in volts)


def _one_volts(volts: Volts) -> str:
    span = _number(volts.low)
    if volts.high != volts.low:
        span += f"-{_number(volts.high)}"
    return f"{span} V {volts.current.upper()}".strip()


def _duty(duty: Duty | None) -> str:
    if duty is None:
        return ""
    if duty.kind == "S2" and duty.run_time is not None:
        return f"S2 {_number(duty.run_time)} s"
    if duty.share is not None:
        if duty.cycle == 600.0 or duty.kind != "S3":
            return f"{duty.kind} {_number(duty.share * 100.0)} %"
        on = duty.share * duty.cycle
        return f"{_number(on)} s on {_number(duty.cycle - on)} s off"
    return duty.kind


def _holds(motor: Motor) -> str:
    return "" if motor.holds_when_off is None else ("yes" if motor.holds_when_off else "no")


COLUMNS: tuple[tuple[str, Callable[[Motor], str]], ...] = (
    ("name", lambda m: m.id),
    ("what", lambda m: m.title),
    ("class", lambda m: (m.motor_class or "") if m.class_from == "listed" else ""),
    ("rated torque", lambda m: _at(m, "rated_torque", 1.0, "N·m")),
    ("starting torque", lambda m: _at(m, "starting_torque", 1.0, "N·m")),
    ("stall torque", lambda m: _at(m, "stall_torque", 1.0, "N·m")),
    ("holding torque", lambda m: _at(m, "holding_torque", 1.0, "N·m")),
    ("torque", lambda m: _at(m, "unnamed_torque", 1.0, "N·m")),
    ("rated speed", lambda m: _at(m, "rated_speed", 1.0, "rad/s")),
    ("no-load speed", lambda m: _at(m, "free_speed", 1.0, "rad/s")),
    ("speed", lambda m: _at(m, "unnamed_speed", 1.0, "rad/s")),
    ("supply", lambda m: _volts(m.volts)),
    ("frequency", lambda m: "; ".join(f"{_number(f)} Hz" for f in m.frequencies)),
    ("input power (W)", lambda m: _number(m.input_power)),
    ("output power (W)", lambda m: _number(m.output_power)),
    ("rated current (A)", lambda m: _number(m.rated_current)),
    ("stall current (A)", lambda m: _number(m.stall_current)),
    ("no-load current (A)", lambda m: _number(m.free_current)),
    ("direction", lambda m: "" if m.start_direction is None else str(m.start_direction)),
    ("holds when off", _holds),
    ("duty", lambda m: _duty(m.duty)),
    ("protection", lambda m: m.protection or ""),
    ("insulation class", lambda m: m.insulation or ""),
    ("ambient (°C)", lambda m: _number(m.ambient_most)),
    ("side load (N)", lambda m: _number(m.side_load)),
    ("force", lambda m: _at(m, "force", 1.0, "N")),
    ("holding force", lambda m: _at(m, "holding_force", 1.0, "N")),
    ("travel speed", lambda m: _at(m, "travel_speed", 1.0, "m/s")),
    ("stroke (m)", lambda m: _number(m.stroke)),
    ("price", lambda m: f"{_number(m.price)} {m.currency}".strip()),
    ("mass (kg)", lambda m: _number(m.mass)),
    ("notes", lambda m: m.notes),
)


def to_csv(motors: MotorFile | Iterable[Motor | MotorRow]) -> str:
    """Return a clean copy of a motor file.

    Columns that no motor fills are left out. Rows that could not be used are kept as they were
    understood, so that nothing is lost. Reading the copy gives the same motors.
    """
    known = [m.motor if isinstance(m, MotorRow) else m for m in motors]
    cells = [[one_line(write(motor)) for _, write in COLUMNS] for motor in known]
    filled = [
        column for column in range(len(COLUMNS)) if column == 0 or any(row[column] for row in cells)
    ]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([COLUMNS[column][0] for column in filled])
    writer.writerows([[row[column] for column in filled] for row in cells])
    return out.getvalue()


def one_line(text: str) -> str:
    """Return a text on one line."""
    return " ".join(text.split())
