"""Moves to either side, timers, power cuts, running all day, supply and heat as records."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from turnercalc.handover.numbers import rounded
from turnercalc.handover.record.gaps import Gaps

if TYPE_CHECKING:
    from turnercalc.motors import Electric
    from turnercalc.sizing import Sizing

_DEGREES = 180.0 / math.pi
_RPM = 30.0 / math.pi


def _of_shaft(sizing: Sizing) -> tuple[str, float]:
    return ("deg", _DEGREES) if sizing.drive.position_unit == "rad" else ("mm", 1e3)


def _of_turner(sizing: Sizing) -> tuple[str, float]:
    return ("deg", _DEGREES) if sizing.turner.coordinate_unit == "rad" else ("mm", 1e3)


def running_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any] | None:
    """Return timer settings, moves to either side, run-down, power cut and running all day."""
    running = sizing.running
    if gaps.known("running", running, "the drive does not get through its cycle") is None:
        return None
    assert running is not None
    unit, per_si = _of_shaft(sizing)
    own_unit, per_own = _of_turner(sizing)
    record: dict[str, Any] = {
        "moves": [
            {
                "to": "high" if way.to_high else "low",
                "shortest_s": gaps.number("running moves shortest_s", way.shortest, _STALLS),
                "longest_s": gaps.number("running moves longest_s", way.longest, _STALLS),
            }
            for way in running.ways
        ],
        "timers": [_timer(sizing, timer) for timer in running.timers],
        "power_cut": _power_cut(sizing, gaps),
    }
    if running.run_down is not None:
        down = running.run_down
        record["run_down"] = {
            "shortest_s": rounded(down.time[0]),
            "longest_s": rounded(down.time[1]),
            f"shaft_most_{unit}": rounded(down.shaft[1], per_si),
            f"end_shift_most_{own_unit}": rounded(down.coordinate, per_own),
        }
    if running.continuous is not None:
        slow = running.continuous
        record["all_day_long"] = {
            "shaft_speed_rpm": rounded(slow.shaft_speed, _RPM),
            "gear_ratio": gaps.number(
                "running all_day_long gear_ratio", slow.gear_ratio, "no motor's speed is known"
            ),
            f"near_level_{own_unit}": rounded(slow.near_level, per_own),
            "share_of_day_near_level": rounded(slow.share_near_level),
            "share_of_day_near_level_most": gaps.number(
                "running all_day_long share_of_day_near_level_most",
                slow.near_level_most,
                "the limits table sets none",
            ),
            f"beyond_{own_unit}": rounded(slow.beyond, per_own),
            "share_of_day_beyond": rounded(slow.share_beyond),
        }
    record |= _sides(sizing, gaps)
    return record


_STALLS = "the motor does not get through with the hardest planned load"


def _timer(sizing: Sizing, timer: Any) -> dict[str, Any]:
    unit, per_si = _of_shaft(sizing)
    record: dict[str, Any] = {"id": timer.id, "does": timer.does, "text": timer.text}
    if timer.on_time is not None:
        record |= {"on_s": rounded(timer.on_time), "off_s": rounded(timer.off_time)}
    if timer.off_by is not None:
        record[f"off_by_its_steps_{unit}"] = rounded(timer.off_by, per_si)
    return record


def _power_cut(sizing: Sizing, gaps: Gaps) -> dict[str, Any]:
    assert sizing.running is not None
    cut = sizing.running.power_cut
    unit, per_si = _of_shaft(sizing)
    linear = sizing.demand is not None and sizing.demand.linear
    return {
        "stopped_by": cut.stopped_by.replace(" ", "_"),
        "share_of_day_in_a_move": gaps.number(
            "running power_cut share_of_day_in_a_move",
            cut.share_in_move,
            "no motor is chosen, or it does not get through",
        ),
        "finds_its_end": cut.finds_its_end,
        f"off_for_good_most_{unit}": rounded(cut.most_off, per_si),
        "may_be_turned_back": gaps.known(
            "running power_cut may_be_turned_back",
            cut.back_driven,
            "whether the motor holds when off is not known",
            "Turn its shaft by hand with the power off.",
        ),
        f"holding_half_way_{'N' if linear else 'Nm'}": rounded(cut.holding_anywhere),
        "text": cut.text,
        "do": cut.do,
    }


def _sides(sizing: Sizing, gaps: Gaps) -> dict[str, Any]:
    """Return where a bare timer leaves each side; nothing where there is no such question."""
    drift = sizing.timing.drift if sizing.timing is not None else None
    if drift is None:
        return {}
    unit, per_si = _of_turner(sizing)
    long = "not within the longest hatch"
    return {
        "by_time_alone_sides": [
            {
                "side": "high" if side.high else "low",
                "moves_to_a_flat_end": gaps.known(
                    "running by_time_alone_sides moves_to_a_flat_end", side.flat_after, long
                ),
                "moves_to_level": gaps.known(
                    "running by_time_alone_sides moves_to_level", side.level_after, long
                ),
                f"at_a_quarter_turn_off_{unit}": gaps.number(
                    f"running by_time_alone_sides at_a_quarter_turn_off_{unit}",
                    side.at_quarter,
                    long,
                    per_si=per_si,
                ),
            }
            for side in drift.sides
        ]
    }


def electric_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any] | None:
    """Return current, supply and fuse of the chosen motor."""
    electric = sizing.chosen.electric if sizing.chosen is not None else None
    if gaps.known("supply", electric, "no motor is chosen, or it is not judged") is None:
        return None
    assert electric is not None
    return _electric(electric, gaps)


def _electric(electric: Electric, gaps: Gaps) -> dict[str, Any]:
    def number(name: str, value: float | None, why: str) -> float | None:
        return gaps.number(f"supply {name}", value, why)

    listed = "the listing does not give it"
    return {
        "volts_V": number("volts_V", electric.volts, listed),
        "current": electric.current or "unknown",
        "running_A": number("running_A", electric.running, electric.running_from),
        "running_from": electric.running_from,
        "stalled_A": number("stalled_A", electric.stalled, listed),
        "power_W": number("power_W", electric.power, listed),
        "standing_power_W": number("standing_power_W", electric.standing_power, listed),
        "supply_current_A": number("supply_current_A", electric.supply_current, listed),
        "fuse_A": number("fuse_A", electric.fuse, electric.fuse_because),
        "fuse_because": electric.fuse_because,
    }


def warmth_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any] | None:
    """Return the heat inside the box and what becomes of it."""
    warmth = sizing.warmth
    if gaps.known("warmth", warmth, "the drive does not get through its cycle") is None:
        return None
    assert warmth is not None
    walls = "box.insulation is not given"
    drawn = "what the motor draws is not listed"
    why = walls if warmth.conductance is None else drawn

    def number(name: str, value: float | None, reason: str) -> float | None:
        return gaps.number(f"warmth {name}", value, reason)

    return {
        "motor_average_W": number("motor_average_W", warmth.motor_average, drawn),
        "motor_standing_W": number("motor_standing_W", warmth.motor_standing, drawn),
        "motor_running_W": number("motor_running_W", warmth.motor_running, drawn),
        "motor_warmest_ten_minutes_W": number(
            "motor_warmest_ten_minutes_W", warmth.motor_warmest, drawn
        ),
        "fan_W": number("fan_W", warmth.fan, "box.fan_power is not given"),
        "eggs_in_the_last_days_W": rounded(warmth.eggs),
        "wall_area_m2": rounded(warmth.wall_area),
        "walls_W_per_K": number("walls_W_per_K", warmth.conductance, walls),
        "average_rise_K": number("average_rise_K", warmth.average_rise, why),
        "running_rise_K": number("running_rise_K", warmth.running_rise, why),
        "warmest_room_degC": number("warmest_room_degC", warmth.warmest_room, why),
        "warmest_room_in_the_last_days_degC": number(
            "warmest_room_in_the_last_days_degC", warmth.warmest_room_with_eggs, why
        ),
    }
