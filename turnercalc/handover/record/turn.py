"""The turn as records: ends, linkage, gearing, loads, motion, timer, sensitivity."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from turnercalc.checks.link_to_arm import link_to_arm
from turnercalc.drives.wording import wording_of
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.numbers import rounded
from turnercalc.handover.record.gaps import Gaps
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.swing import egg_turn, lengths, sensitivities
from turnercalc.turners.wording import wording_of as words_of_turner

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

_DEGREES = 180.0 / math.pi
_RPM = 30.0 / math.pi
NO_CYCLE = "the drive does not get through its cycle"
NO_MOTOR = "no motor is chosen, or its speed and torque are not known"
JAMS = "friction holds it there, or the motor does not get through"


def swing_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any]:
    """Return both ends, as designed and as built: ``tilt`` in degrees or ``slide`` in mm."""
    swings = sizing.turner.coordinate_unit == "rad"
    unit, per_si = ("deg", _DEGREES) if swings else ("mm", 1e3)
    name = _coordinate(sizing)
    if sizing.cycle is None:
        return {name: gaps.known(name, None, NO_CYCLE)}
    high, low = words_of_turner(sizing.turner).keys if swings else ("highest", "lowest")
    ends, built = sizing.ends, sizing.as_built
    sign = -1.0 if swings and ends.low else 1.0
    wanted = sizing.turner.travel
    each_side = swings and wanted[0] == -wanted[1]
    record = {
        f"{high}_{unit}": rounded(ends.high, per_si),
        f"{low}_{unit}": rounded(sign * ends.low, per_si),
        f"total_{unit}": rounded(ends.total, per_si),
        f"wanted_{'each_side' if each_side else 'highest'}_{unit}": rounded(wanted[1], per_si),
    }
    if built is not None:
        record |= {
            f"as_built_min_{unit}": rounded(built.least, per_si),
            f"as_built_max_{unit}": rounded(built.most, per_si),
            f"play_{unit}": rounded(built.play_swing, per_si),
        }
    return {name: record}


def _coordinate(sizing: Sizing) -> str:
    """Return what the turner's coordinate is called in keys: ``tilt``, ``turn``, ``slide``."""
    if sizing.turner.coordinate_unit != "rad":
        return "slide"
    return words_of_turner(sizing.turner).coordinate.replace(" ", "_")


def linkage_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any]:
    """Return whether the drive gets through, what it is, and its lengths."""
    closing, ends = sizing.closing, sizing.ends
    record: dict[str, Any] = {
        "closes": closing.closes,
        "kind": closing.kind,
        "missing_mm": gaps.number(
            "linkage missing_mm", closing.missing, "no length of this kind is missing", per_si=1e3
        ),
        "nearest_that_closes_mm": {
            field: rounded(value, 1e3) for field, value in closing.nearest.items()
        },
    }
    branch = getattr(sizing.drive, "branch", None)
    if branch is not None:
        raises = float(np.asarray(branch).flat[0]) > 0.0
        record["branch"] = "longer_link_raises" if raises else "longer_link_lowers"
    if sizing.cycle is not None:
        angle = link_to_arm(sizing.cycle.motion, sizing.turner.path())
        if np.isfinite(angle).any():
            record["min_link_to_arm_deg"] = rounded(float(np.nanmin(angle)), _DEGREES)
        if sizing.cycle.motion.round_and_round:
            there = (ends.high_position - ends.low_position) % (2.0 * math.pi)
            back = 2.0 * math.pi - there
            record["time_ratio"] = rounded(max(there, back) / min(there, back))
        if ends.rests:
            rests = sorted((ends.low_position, ends.high_position))
            record["rest_points_crank_deg"] = [rounded(rest, _DEGREES) for rest in rests]
    for field, length in lengths(sizing.turner, sizing.drive).items():
        record[f"{field.replace('.', '_')}_mm"] = rounded(length, 1e3)
    return record


def gearing_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any]:
    """Return the stages outside the motor, and between which ratios it would suit."""
    wanted = sizing.timing.gear_ratios_wanted if sizing.timing else None
    efficiency = sizing.stages.efficiency
    needed = None if wanted is None else {"from": rounded(wanted[0]), "to": rounded(wanted[1])}
    return {
        "gear_ratio": rounded(sizing.stages.ratio),
        "gear_ratio_range_needed": gaps.known("gearing gear_ratio_range_needed", needed, NO_MOTOR),
        "efficiency": {
            level: rounded(getattr(efficiency, level)) for level in ("low", "middle", "high")
        },
        "stages": [
            {"kind": stage.kind, "ratio": rounded(stage.ratio)} for stage in sizing.stages.stages
        ],
    }


def load_records(sizing: Sizing, gaps: Gaps) -> list[dict[str, Any]]:
    """Return every load with its peaks, planned or not."""
    if sizing.cycle is None:
        return []
    return [_load(sizing, index, gaps) for index in range(len(sizing.cycle.loads))]


def _load(sizing: Sizing, index: int, gaps: Gaps) -> dict[str, Any]:
    cycle = cycle_of(sizing)
    case, better = cycle.loads[index], sizing.told_direction
    middle = cycle.levels.index("middle")
    swings = sizing.turner.coordinate_unit == "rad"
    shaft, unit = ("torque", "Nm") if sizing.drive.position_unit == "rad" else ("force", "N")
    peak_name = f"peak_{'shaft_torque' if shaft == 'torque' else 'rod_force'}_{unit}"
    start_name = f"starting_{'shaft_torque' if shaft == 'torque' else 'rod_force'}_{unit}"

    def number(name: str, value: Any, per_si: float = 1.0) -> float | None:
        return gaps.number(f"load {case.id} {name}", value, JAMS, per_si=per_si)

    torque = cycle.shaft_torque[index]
    at = torque[middle, better]
    place = None if np.isnan(at).any() else float(cycle.motion.coordinate[int(at.argmax())])
    load_name = "peak_load_torque_Nm" if swings else "peak_load_force_N"
    peak_at = f"peak_at_{_coordinate(sizing)}_{'deg' if swings else 'mm'}"
    record: dict[str, Any] = {
        "id": case.id,
        "name": case.name,
        "family": case.family,
        "planned": case.planned,
        "egg_count": case.egg_count,
        "egg_mass_kg": rounded(case.egg_count * sizing.ingredients.lot.typical.mass),
        load_name: number(load_name, np.abs(cycle.load_torque[index, middle, better]).max()),
        peak_name: {
            word: {
                level: number(f"{peak_name} {word} {level}", torque[row, direction].max())
                for row, level in enumerate(cycle.levels)
            }
            for direction, word in enumerate(wording_of(sizing.drive).ways)
        },
        peak_at: number(peak_at, place, _DEGREES if swings else 1e3),
    }
    if sizing.starting is not None:
        start = sizing.starting.shaft_torque[index, 0, better].max()
        record[start_name] = number(start_name, start)
    if cycle.bar_force is not None:
        force = cycle.bar_force[index, middle, better]
        record["link_force_min_N"] = number("link_force_min_N", force.min())
        record["link_force_max_N"] = number("link_force_max_N", force.max())
    return record


def motion_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any] | None:
    """Return how far, how long, how fast and how gently."""
    timing = sizing.timing
    if gaps.known("motion", timing, NO_CYCLE) is None:
        return None
    assert timing is not None
    swings = sizing.turner.coordinate_unit == "rad"
    unit, per_si = ("deg", _DEGREES) if swings else ("mm", 1e3)

    def number(name: str, value: float | None, scale: float = 1.0) -> float | None:
        return gaps.number(f"motion {name}", value, NO_MOTOR, per_si=scale)

    beyond = f"{timing.beyond * per_si:.0f}{unit}"
    near = f"{timing.near_level * per_si:.0f}{unit}"
    knock = next((f for f in sizing.findings if f.id == "knock"), None)
    record: dict[str, Any] = {
        "turns_per_day": rounded(timing.counts.turns_per_day),
        **_of_one_move(sizing),
        "changes_sides": timing.counts.changes_sides,
        "move_time_s": {
            "shortest": number("move_time_s shortest", timing.shortest_move),
            "longest": number("move_time_s longest", timing.longest_move),
        },
        f"peak_speed_{unit}_per_s": number(f"peak_speed_{unit}_per_s", timing.peak_speed, per_si),
        "peak_egg_acceleration_g0": number(
            "peak_egg_acceleration_g0", timing.peak_acceleration, 1.0 / STANDARD_GRAVITY
        ),
        "knock_acceleration_g0": gaps.known(
            "motion knock_acceleration_g0", None, "how stiff the stop is, nobody knows"
        ),
    }
    if words_of_turner(sizing.turner).middle_counts:
        shares = (
            ("beyond", beyond, timing.share_beyond),
            ("within", near, timing.share_near_level),
        )
        for how, where, share in shares:
            record[f"share_of_day_{how}_{where}"] = number(f"share_of_day_{how}_{where}", share)
    if knock is not None and knock.value is not None:
        record["knock_like_a_fall_of_mm"] = rounded(knock.value)
    return record


def _of_one_move(sizing: Sizing) -> dict[str, Any]:
    """Return how far a typical egg is turned in one move, and the stroke of a part that slides."""
    total, record = sizing.ends.total, {}
    turned = egg_turn(sizing.turner, total)
    if turned is not None:
        record["egg_turn_deg"] = rounded(turned, _DEGREES)
    if sizing.turner.coordinate_unit == "m":
        record["stroke_mm"] = rounded(total, 1e3)
    return record


def timer_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any] | None:
    """Return timer settings, counter readings, and what a bare timer would do."""
    timing = sizing.timing
    if gaps.known("timer", timing, NO_CYCLE) is None:
        return None
    assert timing is not None
    counts, drift = timing.counts, timing.drift
    record: dict[str, Any] = {
        "interval_s": rounded(timing.interval),
        "stopped_by": timing.stopped_by.replace(" ", "_"),
        "give_up_after_s": gaps.number("timer give_up_after_s", timing.give_up_after, NO_MOTOR),
        "count_day_7": counts.day_7,
        "count_last_day": counts.last_day_count,
        "last_day": rounded(counts.last_day),
        "quiet_days": rounded(counts.quiet_days),
        "speed_min_rpm" if sizing.drive.position_unit == "rad" else "speed_min_mm_per_s": rounded(
            timing.limits.slowest, _RPM if sizing.drive.position_unit == "rad" else 1e3
        ),
        "speed_max_rpm" if sizing.drive.position_unit == "rad" else "speed_max_mm_per_s": rounded(
            timing.limits.fastest, _RPM if sizing.drive.position_unit == "rad" else 1e3
        ),
    }
    if drift is None and timing.stopped_by == "timer":
        record["run_time_s"] = gaps.number("timer run_time_s", timing.run_time, NO_MOTOR)
    if drift is not None:
        long = "not within the longest hatch"
        record["by_time_alone"] = {
            "run_time_s": rounded(drift.run_time),
            "off_per_move_deg": rounded(drift.per_move, _DEGREES),
            "moves_to_a_quarter_turn_off": gaps.known(
                "timer by_time_alone moves_to_a_quarter_turn_off", drift.quarter_after, long
            ),
            "moves_to_a_flat_end": gaps.known(
                "timer by_time_alone moves_to_a_flat_end", drift.flat_after, long
            ),
        }
    return record


def sensitivity_records(sizing: Sizing) -> list[dict[str, Any]]:
    """Return how both ends move when a length is a millimetre more."""
    if sizing.cycle is None:
        return []
    swings = sizing.turner.coordinate_unit == "rad"
    found = sensitivities(sizing.turner, sizing.drive)
    if swings:
        high, low = words_of_turner(sizing.turner).keys
        return [
            {
                "field": one.field,
                "per": "1 mm",
                f"{high}_deg": rounded(one.high, _DEGREES * 1e-3),
                f"{low}_deg": rounded(-one.low, _DEGREES * 1e-3),
            }
            for one in found
        ]
    return [
        {
            "field": one.field,
            "per": "1 mm",
            "highest_mm": rounded(one.high),
            "lowest_mm": rounded(one.low),
        }
        for one in found
    ]
