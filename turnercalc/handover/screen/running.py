"""TIMER SETTINGS, SUPPLY AND HEAT, AFTER A POWER CUT: what is set, wired and looked after."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.checks.wording import amount, between, degrees, millimetres, seconds
from turnercalc.drives.wording import wording_of as drive_words
from turnercalc.handover.display import Style
from turnercalc.handover.layout import labelled, section, wrap
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.motors import Electric
    from turnercalc.sizing import Sizing
    from turnercalc.timing import Continuous, Side
    from turnercalc.warmth import Warmth

#: What stands beside two of the headings.
SET_ONE = "set one of them"
CODES_FIRST = "general terms; local codes come first"

_LABEL, _TEXT = 2, 22
_HOW_LITTLE = 0.05  # W; less warms nothing


def timer_settings(sizing: Sizing, style: Style) -> list[str]:
    """Return the setting of each kind of timer, moves to either side, and running all day."""
    lines = []
    for label, text in timer_items(sizing):
        lines += _told(label, style.words(text))
    return [section("TIMER SETTINGS", SET_ONE), *lines] if lines else []


def timer_items(sizing: Sizing) -> list[tuple[str, str]]:
    """Return the same as pairs of label and text."""
    if sizing.running is None:
        return []
    return [*_ways(sizing), *_timers(sizing), *_wandering(sizing), *_all_day(sizing)]


def supply_and_heat(sizing: Sizing, style: Style) -> list[str]:
    """Return current, supply and fuse in general terms, and the heat inside the box."""
    lines = []
    for label, text in supply_items(sizing, style):
        lines += _told(label, style.words(text))
    return [section("SUPPLY AND HEAT", CODES_FIRST), *lines] if lines else []


def supply_items(sizing: Sizing, style: Style) -> list[tuple[str, str]]:
    """Return the same as pairs of label and text."""
    chosen = sizing.chosen
    told = []
    if chosen is not None and chosen.electric is not None:
        told += _electric(sizing, chosen.electric)
    if sizing.warmth is not None:
        told += _warmth(sizing, sizing.warmth, style)
    return told


def after_a_power_cut(sizing: Sizing, style: Style) -> list[str]:
    """Return what a power cut leaves behind, and what to do about it."""
    lines = []
    for text in power_cut_texts(sizing):
        lines += wrap(style.words(text), 4, "  ")
    return ["AFTER A POWER CUT", *lines] if lines else []


def _told(label: str, text: str) -> list[str]:
    return labelled(label, text, margin=_LABEL, column=_TEXT)


# -- timers --------------------------------------------------------------------------------------


def _ways(sizing: Sizing) -> list[tuple[str, str]]:
    assert sizing.running is not None
    moves = sizing.running.ways
    words = wording_of(sizing.turner)
    if len(moves) < 2 or not all(math.isfinite(way.longest) for way in moves):
        return []
    told = []
    for way in moves:
        side = f"to {words.high if way.to_high else words.low}"
        if words.anywhere:
            side = words.sides[0 if way.to_high else 1]
        told.append(f"{between(seconds(way.shortest), seconds(way.longest))} {side}")
    text = ", ".join(told) + "."
    down = sizing.running.run_down
    if down is not None and down.time[1] > 0.0:
        shaft = down.shaft[1]
        turned = degrees(shaft) if sizing.drive.position_unit == "rad" else millimetres(shaft, 1)
        shift = amount(sizing.turner, down.coordinate)
        text += (
            f" Switched off it runs on for up to {down.time[1]:.1f} s, {turned} of {_moved(sizing)}"
        )
        if words.anywhere:
            return [("A turn", f"{text}.")]
        text += "; that "
        hardly = shift.split(maxsplit=1)[0].rstrip("°") == "0"
        text += "hardly shifts an end." if hardly else f"shifts an end by up to {shift}."
    return [("A turn", text)]


def _moved(sizing: Sizing) -> str:
    """Return what the motor moves: a shaft that turns, or an actuator's rod."""
    return "shaft" if sizing.drive.position_unit == "rad" else "rod"


def _timers(sizing: Sizing) -> list[tuple[str, str]]:
    assert sizing.running is not None
    told = []
    for timer in sizing.running.timers:
        text = timer.text[0].upper() + timer.text[1:]
        if timer.off_by:
            off = (
                degrees(timer.off_by)
                if sizing.drive.position_unit == "rad"
                else (millimetres(timer.off_by, 1))
            )
            text += f" Its steps alone can be {off} of {_moved(sizing)} off in every move."
        told.append((timer.name, text))
    return told


def _wandering(sizing: Sizing) -> list[tuple[str, str]]:
    """Return where a bare timer leaves each side."""
    timing = sizing.timing
    if timing is None or timing.drift is None or timing.stopped_by != "timer":
        return []
    drift = timing.drift
    told = [_side_words(sizing, side) for side in drift.sides]
    told = [text for text in told if text]
    if not told:
        return []
    text = f"{degrees(abs(drift.per_move), 2)} of shaft a move. {' '.join(told)}"
    if drift.quarter_after is not None:
        text += f" The shaft is a quarter turn off after {drift.quarter_after} turns."
    return [("Wanders off", text)]


def _side_words(sizing: Sizing, side: Side) -> str:
    words = wording_of(sizing.turner)
    name = words.high if side.high else words.low
    if side.level_after is None:
        return ""
    return f"{name[0].upper()}{name[1:]} parks {words.middle} after {side.level_after} turns."


def _all_day(sizing: Sizing) -> list[tuple[str, str]]:
    assert sizing.running is not None
    slow = sizing.running.continuous
    return [] if slow is None else [("Or all day long", _all_day_words(sizing, slow))]


def _all_day_words(sizing: Sizing, slow: Continuous) -> str:
    rounds = slow.shaft_speed * 3600.0 / (2.0 * math.pi)
    near = amount(sizing.turner, slow.near_level, 0)
    ratio = "" if slow.gear_ratio is None else f", {slow.gear_ratio:.0f} to 1 behind your motor"
    at_most = slow.near_level_most
    most = "" if at_most is None else f"; {at_most:.0%} is the most that is fine"
    shaft, middle = drive_words(sizing.drive).shaft, wording_of(sizing.turner).middle
    return (
        f"{shaft[0].upper()}{shaft[1:]} would go round {rounds:.3g} times an hour{ratio}, "
        f"and be within {near} of {middle} for {slow.share_near_level:.0%} of the day instead of "
        f"resting at its ends{most}."
    )


# -- supply, fuse, heat --------------------------------------------------------------------------


def _electric(sizing: Sizing, electric: Electric) -> list[tuple[str, str]]:
    timing = sizing.timing
    told = []
    if electric.running is None:
        told.append(("Current", f"Not known: {electric.running_from}."))
    else:
        text = f"Up to {_amps(electric.running)} moving ({electric.running_from})"
        text += (
            f", {_amps(electric.stalled)} blocked."
            if electric.stalled is not None
            else "; what it takes blocked is not listed."
        )
        told.append(("Current", text))
    if electric.supply_current is not None and electric.volts is not None:
        kind = electric.current.upper()
        text = f"{electric.volts:g} V {kind}, {_amps(electric.supply_current)} at least."
        told.append(("Supply", text.replace("  ", " ")))
    fuse = "None" if electric.fuse is None else f"{electric.fuse:g} A"
    told.append(("Fuse", f"{fuse}: {electric.fuse_because}."))
    if timing is not None and timing.give_up_after is not None:
        because = timing.give_up_because
        text = f"Off after {seconds(timing.give_up_after)} without an end ({because})."
        told.append(("Stall time-out", text))
    return told


def _amps(value: float) -> str:
    return f"{value:.3g} A" if value < 10.0 else f"{value:.0f} A"


def _warmth(sizing: Sizing, warmth: Warmth, style: Style) -> list[tuple[str, str]]:
    inside = sizing.demand is not None and sizing.demand.inside
    told = []
    if inside and sizing.chosen is not None:
        electric = sizing.chosen.electric
        bound = electric is not None and electric.power_at_most
        told.append(("Heat of the motor", _heat_words(warmth, at_most=bound)))
    if warmth.conductance is not None:
        told.append(("Box", _box_words(warmth, style, inside=inside)))
    return told


def _watts(value: float | None) -> str:
    if value is None:
        return "not known"
    if value == 0.0:
        return "none"
    return f"{value:.2g} W" if value >= _HOW_LITTLE else "next to none"


def _heat_words(warmth: Warmth, *, at_most: bool) -> str:
    bound = " At most: its amps at the volts of its driver." if at_most else ""
    return (
        f"{_watts(warmth.motor_running)} while it moves, {_watts(warmth.motor_standing)} between "
        f"moves, {_watts(warmth.motor_average)} over the day.{bound}"
    )


def _kelvins(rise: float) -> str:
    return f"{rise:.1f} K" if rise >= _HOW_LITTLE else "next to nothing"


def _box_words(warmth: Warmth, style: Style, *, inside: bool) -> str:
    area = "" if warmth.area_given else " (by its inside faces)"
    text = f"{warmth.wall_area:.2g} m² of wall{area} lets {warmth.conductance:.2g} W/K through."
    if inside and warmth.average_rise is not None and warmth.running_rise is not None:
        text += (
            f" The motor adds {_kelvins(warmth.average_rise)} over the day, "
            f"{_kelvins(warmth.running_rise)} if it ran on and on."
        )
    if warmth.warmest_room is not None and warmth.warmest_room_with_eggs is not None:
        text += (
            f" With the heater off it holds {style.show(warmth.set_point, 'temperature')} in rooms "
            f"up to {style.show(warmth.warmest_room, 'temperature')}, in the last days, when the "
            f"eggs give {_watts(warmth.eggs)}, up to "
            f"{style.show(warmth.warmest_room_with_eggs, 'temperature')}."
        )
    return text


# -- power cuts ----------------------------------------------------------------------------------


def power_cut_texts(sizing: Sizing) -> list[str]:
    """Return what a power cut leaves behind, a sentence or two each."""
    if sizing.running is None:
        return []
    cut = sizing.running.power_cut
    share = "" if not cut.share_in_move else f" One cut in {1.0 / cut.share_in_move:.0f} does that."
    texts = [f"By {cut.stopped_by}: {cut.text}{share}", cut.do]
    if cut.back_driven is not False:
        unit = "N" if sizing.demand is not None and sizing.demand.linear else "N·m"
        may = "may turn back" if cut.back_driven is None else "turns back"
        texts.append(
            f"Half way the load pushes with up to {cut.holding_anywhere:.2f} {unit} and {may} "
            "the motor."
        )
    return texts
