"""What each table must look like: its columns, their units, ranges and order.

A number outside the range given here is a slip of the pen (grams for kilograms, a lost decimal
point), not an unusual egg: the ranges are wide on purpose.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

HOW = ("read", "from memory", "computed", "common practice, no source", "our choice")

# SI value of one unit. Temperatures stay in degrees Celsius throughout the project.
UNITS: Mapping[str, float] = {
    "": 1.0,
    "g": 1e-3,
    "kg": 1.0,
    "oz": 0.028349523125,  # international avoirdupois ounce, exact by definition (1959)
    "mm": 1e-3,
    "m": 1.0,
    "deg": math.pi / 180,
    "deg/m": math.pi / 180,
    "mm_per_s": 1e-3,
    "s": 1.0,
    "days": 86400.0,
    "rpm": 2 * math.pi / 60,
    "N": 1.0,
    "Nm": 1.0,
    "N·m": 1.0,
    "N_per_mm": 1e3,
    "N/mm": 1e3,
    "kg_per_m": 1.0,
    "kg_per_m3": 1.0,
    "MPa": 1e6,
    "GPa": 1e9,
    "g0": 9.80665,  # standard gravity, exact by definition (3rd CGPM, 1901)
    "W": 1.0,
    "W_per_mK": 1.0,
    "V": 1.0,
    "degC": 1.0,
    "percent": 0.01,
}


@cache
def unit_of(column: str) -> str:
    """Return the unit at the end of a column head, or an empty text: ``mass_min_g`` gives g."""
    fitting = [unit for unit in UNITS if unit and column.endswith(f"_{unit}")]
    return max(fitting, key=len, default="")


@dataclass(frozen=True)
class Number:
    """A column of numbers between two bounds; `optional` allows blank cells."""

    low: float
    high: float
    optional: bool = False

    def read(self, text: str) -> float | None:
        """Return the number; raises ValueError in words."""
        if not text:
            if self.optional:
                return None
            raise ValueError("is blank, a number is needed")
        try:
            value = float(text)
        except ValueError:
            raise ValueError(f"{text!r} is no number") from None
        if not self.low <= value <= self.high:
            raise ValueError(f"{text} is outside {self.low:g} to {self.high:g}")
        return value


@dataclass(frozen=True)
class Text:
    """A column of words; `choices` names the only ones allowed."""

    optional: bool = False
    choices: tuple[str, ...] = ()

    def read(self, text: str) -> str:
        """Return the text; raises ValueError in words."""
        if not text and not self.optional:
            raise ValueError("is blank, words are needed")
        if self.choices and text and text not in self.choices:
            raise ValueError(f"{text!r} is none of {', '.join(self.choices)}")
        return text


Kind = Number | Text


@dataclass(frozen=True)
class Schema:
    """The columns of a table in order, its key, and groups of columns that must not fall."""

    key: str
    columns: Mapping[str, Kind]
    rising: tuple[tuple[str, ...], ...] = field(default=())


_STANDING: Mapping[str, Kind] = {"source": Text(), "how": Text(choices=HOW)}
_STANDING_MIXED: Mapping[str, Kind] = {**_STANDING, "except": Text(optional=True)}
_UNIT = Text(optional=True, choices=tuple(UNITS))

SCHEMAS: Mapping[str, Schema] = {
    "species": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            "scientific_name": Text(),
            "mass_g": Number(2, 3000),
            "mass_min_g": Number(2, 3000),
            "mass_max_g": Number(2, 3000),
            "length_mm": Number(15, 250),
            "breadth_mm": Number(10, 200),
            "incubation_days": Number(10, 90),
            "last_turning_day": Number(8, 90),
            "hand_turns_per_day": Number(1, 12),
            "turns_per_day": Number(1, 100),
            "tilt_deg": Number(20, 60),
            "tilt_low_deg": Number(20, 60),
            "temperature_degC": Number(35, 39),
            "water_loss": Number(0.05, 0.25, optional=True),
            "note": Text(optional=True),
            **_STANDING_MIXED,
        },
        rising=(
            ("mass_min_g", "mass_g", "mass_max_g"),
            ("breadth_mm", "length_mm"),
            ("last_turning_day", "incubation_days"),
            ("hand_turns_per_day", "turns_per_day"),
            ("tilt_low_deg", "tilt_deg"),
        ),
    ),
    "not_turned": Schema(
        key="name",
        columns={"name": Text(), "aliases": Text(optional=True), "reason": Text(), **_STANDING},
    ),
    "limits": Schema(
        key="id",
        columns={
            "id": Text(),
            "sense": Text(choices=("at least", "at most")),
            "fine": Number(-1e6, 1e6, optional=True),
            "no": Number(-1e6, 1e6, optional=True),
            "unit": _UNIT,
            "reason": Text(),
            **_STANDING,
        },
    ),
    "defaults": Schema(
        key="field",
        columns={
            "field": Text(),
            "kind": Text(choices=("value", "rule", "unknown", "required")),
            "text": Text(),
            **_STANDING,
        },
    ),
    "friction": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            **{c: Number(0, 1.5) for c in ("low", "middle", "high", "static_high")},
            **{f"damp_{c}": Number(0, 1.5) for c in ("low", "middle", "high", "static_high")},
            "note": Text(optional=True),
            **_STANDING_MIXED,
        },
        rising=(
            ("low", "middle", "high", "static_high"),
            ("damp_low", "damp_middle", "damp_high", "damp_static_high"),
        ),
    ),
    "egg_friction": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            **{c: Number(0, 1.5) for c in ("low", "middle", "high")},
            **{f"rolling_arm_{c}_mm": Number(0.01, 20) for c in ("low", "middle", "high")},
            **_STANDING_MIXED,
        },
        rising=(
            ("low", "middle", "high"),
            ("rolling_arm_low_mm", "rolling_arm_middle_mm", "rolling_arm_high_mm"),
        ),
    ),
    "runners": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            **{f"rolling_arm_{c}_mm": Number(0.01, 20) for c in ("low", "middle", "high")},
            **{f"grip_{c}": Number(0, 1.5) for c in ("low", "middle", "high")},
            "note": Text(optional=True),
            **_STANDING_MIXED,
        },
        rising=(
            ("rolling_arm_low_mm", "rolling_arm_middle_mm", "rolling_arm_high_mm"),
            ("grip_low", "grip_middle", "grip_high"),
        ),
    ),
    "stage_efficiency": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            **{c: Number(0.05, 1) for c in ("low", "middle", "high")},
            "no_load_drag_Nm": Number(0, 1, optional=True),
            "back_driving": Text(choices=("load proportional", "exact", "slips")),
            "lead_angle_deg": Number(0.5, 60, optional=True),
            "note": Text(),
            **_STANDING_MIXED,
        },
        rising=(("low", "middle", "high"),),
    ),
    "motor_classes": Schema(
        key="id",
        columns={
            "id": Text(),
            "name": Text(),
            "aliases": Text(optional=True),
            "counted_figure": Text(choices=("stall", "pull-out", "holding", "rated")),
            "share_that_counts": Number(0.05, 1),
            "rated_share": Number(0.05, 1, optional=True),
            "starting_share": Number(0.05, 2, optional=True),
            "start_direction": Text(choices=("as wired", "either way", "one way")),
            "holds_when_off": Text(choices=("yes", "no", "unknown")),
            "heat_at_rest": Text(choices=("none", "holding current", "while powered")),
            "efficiency_low": Number(0.01, 1, optional=True),
            "efficiency_high": Number(0.01, 1, optional=True),
            "speed_drop": Number(0, 0.6),
            "supply_low": Number(0.5, 1),
            "speed_low_rpm": Number(0, 10000, optional=True),
            "speed_high_rpm": Number(0, 10000, optional=True),
            "torque_low_Nm": Number(0, 200, optional=True),
            "torque_high_Nm": Number(0, 200, optional=True),
            "travel_speed_low_mm_per_s": Number(0, 500, optional=True),
            "travel_speed_high_mm_per_s": Number(0, 500, optional=True),
            "force_low_N": Number(0, 20000, optional=True),
            "force_high_N": Number(0, 20000, optional=True),
            "side_load_N": Number(0, 2000, optional=True),
            "run_down_low_s": Number(0, 10),
            "run_down_high_s": Number(0, 10),
            "when_stalled": Text(),
            "note": Text(),
            **_STANDING_MIXED,
        },
        rising=(
            ("efficiency_low", "efficiency_high"),
            ("speed_low_rpm", "speed_high_rpm"),
            ("torque_low_Nm", "torque_high_Nm"),
            ("travel_speed_low_mm_per_s", "travel_speed_high_mm_per_s"),
            ("force_low_N", "force_high_N"),
            ("run_down_low_s", "run_down_high_s"),
        ),
    ),
    "insulation": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            "conductivity_W_per_mK": Number(0.01, 5),
            "note": Text(optional=True),
            **_STANDING,
        },
    ),
    "weight_classes": Schema(
        key="name",
        columns={
            "name": Text(),
            "system": Text(choices=("US", "EU")),
            "label": Text(),
            "minimum_per_dozen_oz": Number(1, 100, optional=True),
            "minimum_g": Number(0, 200, optional=True),
            **_STANDING,
        },
    ),
    "turning_practice": Schema(
        key="id",
        columns={
            "id": Text(),
            "topic": Text(choices=("angle", "frequency", "days", "position", "gentleness")),
            "tilt_deg": Number(0, 180, optional=True),
            "turns_per_day": Number(0, 1000, optional=True),
            "hatch_of_fertile_percent": Number(0, 100, optional=True),
            "finding": Text(),
            **_STANDING,
        },
    ),
    "materials": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            "youngs_modulus_GPa": Number(0.1, 400),
            "shear_modulus_GPa": Number(0.05, 160),
            "density_kg_per_m3": Number(50, 20000),
            "bending_allowable_MPa": Number(0.5, 1000),
            "shear_allowable_MPa": Number(0.2, 600),
            "creep_factor": Number(0.05, 1),
            "note": Text(optional=True),
            **_STANDING_MIXED,
        },
        rising=(("shear_modulus_GPa", "youngs_modulus_GPa"),),
    ),
    "build_errors": Schema(
        key="id",
        columns={
            "id": Text(),
            "text": Text(),
            "reason": Text(),
            **_STANDING,
        },
    ),
    "stock_teeth": Schema(
        key="kind",
        columns={
            "kind": Text(),
            "aliases": Text(optional=True),
            "teeth": Text(),
            "smooth_from": Number(low=3.0, high=100.0),
            "note": Text(),
            **_STANDING,
        },
    ),
    "pitches": Schema(
        key="name",
        columns={
            "name": Text(),
            "aliases": Text(optional=True),
            "kind": Text(choices=("toothed belt", "chain")),
            "pitch_mm": Number(1, 100),
            "fewest_teeth": Number(5, 40),
            "working_pull_N_per_mm": Number(0.5, 500, optional=True),
            "breaking_force_N": Number(500, 1e6, optional=True),
            "note": Text(optional=True),
            **_STANDING_MIXED,
        },
    ),
}
