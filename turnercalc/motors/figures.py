"""From the text of one cell to readings: which figure is which.

One rule for every cell: a figure whose kind is that of the column takes the column's meaning;
any other figure, and every figure of a free text, takes its meaning from the words around it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.motors.cells import Figure, in_unit, scan, tidy, undo_date
from turnercalc.motors.columns import Column
from turnercalc.motors.labels import ends_clause, label_after, label_before, power_side
from turnercalc.motors.motor import Outcome, Reading
from turnercalc.units.spellings import SPELLINGS, Unit

TORQUE_FIELDS = {
    "rated": "rated_torque",
    "starting": "starting_torque",
    "stall": "stall_torque",
    "holding": "holding_torque",
}
SPEED_FIELDS = {"rated": "rated_speed", "free": "free_speed"}
CURRENT_FIELDS = {
    "rated": "rated_current",
    "stall": "stall_current",
    "free": "free_current",
    "starting": "stall_current",
    "": "rated_current",
}
# The one unit that listings leave off; a torque has two and is settled by the power.
_LEFT_OFF = {"speed": "rpm", "voltage": "v", "power": "w", "frequency": "hz"}
_CONDITION = re.compile(r"\s*(?:\(|@|at|\(at|\(@|under|\bby\b|/)?\s*(?:@|at)?\s*(?:[ad]c\s*)?")
_MARKED = re.compile(r"\(|@|\bat\b")
_LEAD = re.compile(r"\s*[:=]\s*")
_AC = re.compile(r"\bac\b|\bac(?=\d)|(?<=v)ac\b|~|\bmains\b")
_DC = re.compile(r"\bdc\b|\bdc(?=\d)|(?<=v)dc\b|(?<=v)\s?=|\bbatter|\busb\b")
_FORCE_WORDS = re.compile(r"\bforce|\bthrust|\bpush|\bload|\blift|\bactuator|\bpull\b")
_SIDE_WORDS = re.compile(r"\bradial|\bside[- ]load|\boverhung|\baxial")
_STROKE_WORDS = re.compile(r"\bstroke|\btravel|\bextension")
_MASS_WORDS = re.compile(r"\bweigh|\bmass\b")
_TORQUE_WORDS = re.compile(r"\btorque|\bmoment|\btq\b")
_AMBIENT_WORDS = re.compile(r"\bambient|\btemp|\boperat")
FORCE_AS_TORQUE = "force in a column of torques"
_SERVO_SPEED = 1.0  # s/60°; a bare speed below it is a servo's

Scanned = tuple[Reading, ...]


@lru_cache(maxsize=131072)
def read_figures(column: Column, text: str, comma_file: bool) -> Scanned:
    """Return the figures of a cell as readings.

    Parameters
    ----------
    column : Column
        What the column is about; free text where it has no topic of its own.
    text : str
        The cell, not blank.
    comma_file : bool
        The file writes decimal commas.

    Returns
    -------
    tuple of Reading
        `value` is a tuple of SI numbers, one for each alternative; ranges come as their two
        ends for voltages and as their low end for everything else.
    """
    tidied = tidy(text)
    note = ""
    if column.topic == "speed":
        undone, note = undo_date(text)
        tidied = tidied if undone == text else undone
        if not tidied:
            return (Reading(column.head, text, "", None, Outcome.REFUSED, note),)
    figures = [_in_column_unit(figure, column) for figure in scan(tidied, comma_file)]
    figures = _as_written(figures, text, tidied)
    conditions, used = _conditions(tidied, figures)
    readings: list[Reading] = []
    for place, figure in enumerate(figures):
        label = _label(tidied, figures, place)
        if not label and figure.kind == "current" and place:
            # "stall 70 kg.cm, 1.2 A": the current of the torque before it
            label = _label_of(readings[-1].field) if readings else ""
        reading = _reading(column, tidied, figure, label, note)
        volts, hertz = conditions.get(place, (column.volts, column.hertz))
        if place in used and reading.field != "volts":
            continue
        if volts or hertz:
            reading = replace(reading, volts=volts, hertz=hertz)
        readings.append(reading)
    return tuple(readings)


def _as_written(figures: list[Figure], text: str, tidied: str) -> list[Figure]:
    """Let figures quote the file with its own capitals, where tidying moved nothing."""
    written = tidy(text, keep_case=True)
    if len(written) != len(tidied) or written == tidied:
        return figures
    return [
        figure
        if figure.text == (said := written[figure.start : figure.end])
        else replace(figure, text=said)
        for figure in figures
    ]


_TAKES_LABELS = frozenset({"torque", "rotation", "current", "force", "speed", ""})


def _label(text: str, figures: list[Figure], place: int) -> str:
    """Return which torque, speed or current the words around a figure make it."""
    figure = figures[place]
    floor = figures[place - 1].end if place else 0
    label = label_before(text, figure.start, floor)
    if label:
        return label
    following = figures[place + 1] if place + 1 < len(figures) else None
    end = following.start if following is not None else len(text)
    # "6 rpm rated 20 kg.cm": words that lead up to another figure are that figure's own.
    if (
        following is None
        or following.kind not in _TAKES_LABELS
        or ends_clause(text, figure.end, end)
    ):
        label = label_after(text, figure.end, end)
    if not label and _is_working_point(text, figures, place):
        label = "rated"
    return label


def _label_of(field: str) -> str:
    if not field.endswith("_torque"):
        return ""
    return next((label for label, name in TORQUE_FIELDS.items() if name == field), "")


def _in_column_unit(figure: Figure, column: Column) -> Figure:
    """Give a bare number the unit that the head names, or the one that listings leave off."""
    if figure.kind or not figure.bare or figure.doubt:
        return figure
    if column.unit is not None:
        return in_unit(figure, column.unit, column.kind)
    left_off = _LEFT_OFF.get(column.topic)
    if left_off is None:
        return figure
    if column.topic == "speed" and len(figure.bare) == 1 and figure.bare[0] < _SERVO_SPEED:
        return figure
    return in_unit(figure, _unit(column.kind, left_off), column.kind)


def _unit(kind: str, spelling: str) -> Unit:
    return SPELLINGS[kind][spelling]


def _conditions(
    text: str, figures: list[Figure]
) -> tuple[dict[int, tuple[float | None, float | None]], set[int]]:
    """Find the voltage or frequency at which a figure holds: ``9.4 kg·cm (4.8 V)``, ``6V: 11``."""
    found: dict[int, tuple[float | None, float | None]] = {}
    used: set[int] = set()
    for place, figure in enumerate(figures):
        if figure.kind not in ("voltage", "frequency") or figure.form != "one":
            continue
        if not figure.values:
            continue
        supply = (figure.values[0], None) if figure.kind == "voltage" else (None, figure.values[0])
        before = figures[place - 1] if place else None
        if before is not None and _depends(before) and place - 1 not in found:
            between = text[before.end : figure.start]
            if _MARKED.search(between) and _CONDITION.fullmatch(between):
                found[place - 1] = supply
                used.add(place)
                continue
        after = figures[place + 1] if place + 1 < len(figures) else None
        leads = after is not None and _LEAD.fullmatch(text[figure.end : after.start])
        if leads and after is not None and _depends(after):
            found[place + 1] = supply
            used.add(place)
    # A condition is a supply voltage too, so voltages stay as readings of their own.
    return found, {place for place in used if figures[place].kind != "voltage"}


def _is_working_point(text: str, figures: list[Figure], place: int) -> bool:
    """Whether a torque and a speed are told as a pair: ``30 kg.cm @ 8 rpm``."""
    kinds = {"torque", "rotation"}
    for first, second in ((place - 1, place), (place, place + 1)):
        if first < 0 or second >= len(figures):
            continue
        pair = figures[first], figures[second]
        if {pair[0].kind, pair[1].kind} == kinds:
            between = text[pair[0].end : pair[1].start]
            if re.fullmatch(r"\s*\(?(?:@|at)\s*", between):
                return True
    return False


def _depends(figure: Figure) -> bool:
    return figure.kind in ("torque", "rotation", "speed", "current", "force") or (
        not figure.kind and bool(figure.bare)
    )


# -- one figure --------------------------------------------------------------------------------


def _reading(column: Column, text: str, figure: Figure, label: str, note: str) -> Reading:
    """Return what one figure is taken for."""
    if not figure.values:
        return _without_value(column, figure, label)
    field, doubt = _field(_Spot(column, text, figure, label))
    if not field:
        outcome = Outcome.REFUSED if doubt else Outcome.PASSED_OVER
        return Reading(column.head, figure.text, "", None, outcome, doubt)
    scale, field = _scale(field)
    values, spread = _values(figure, field)
    values = tuple(value * scale for value in values)
    notes = " ".join(part for part in (note, doubt, figure.doubt, spread) if part)
    outcome = Outcome.DOUBTED if doubt or figure.doubt or note else Outcome.TAKEN
    return Reading(column.head, figure.text, field, values, outcome, notes)


def _scale(field: str) -> tuple[float, str]:
    """Return by what a mass is multiplied to become the torque or force that it stands for."""
    if field.startswith("kg "):
        return STANDARD_GRAVITY * 0.01, field.removeprefix("kg ")
    if field.startswith("weight "):
        return STANDARD_GRAVITY, field.removeprefix("weight ")
    return 1.0, field


def _values(figure: Figure, field: str) -> tuple[tuple[float, ...], str]:
    """Return the alternatives a figure gives, ranges and tolerances settled."""
    if field == "frequencies":
        return figure.values, ""
    if field.startswith("volts"):
        return _volt_pairs(figure), ""
    low = field != "ambient_most"
    if figure.form == "range":
        chosen = min(figure.values) if low else max(figure.values)
        which = "low" if low else "high"
        return (chosen,), f"Of the range {figure.text} the {which} end counts."
    if figure.tolerance and field.endswith("_torque"):
        values = tuple(value * (1.0 - figure.tolerance) for value in figure.values)
        return values, f"Of {figure.text} the low side counts."
    if figure.form == "at most" and field.endswith(("_speed", "_torque")):
        return figure.values, "The listing gives it as the most."
    return figure.values, ""


def _volt_pairs(figure: Figure) -> tuple[float, ...]:
    """Return low and high of each voltage in turn: 110/220-240 V gives 110, 110, 220, 240."""
    values = figure.values
    if figure.form == "range" and len(values) == 2:
        return tuple(sorted(values))
    pairs: list[float] = []
    for value in values:
        if figure.form == "range" and pairs and 1.0 < value / pairs[-1] < 1.2:
            pairs[-1] = value
        else:
            pairs += [value, value]
    return tuple(pairs)


def _without_value(column: Column, figure: Figure, label: str) -> Reading:
    """Return the reading of a figure that has no unit or cannot be read as a number."""
    if figure.doubt:
        wanted = column.topic in _LEFT_OFF or column.topic in ("torque", "force", "travel speed")
        outcome = Outcome.REFUSED if figure.kind or wanted else Outcome.PASSED_OVER
        return Reading(column.head, figure.text, "", None, outcome, figure.doubt)
    if column.topic == "torque" and figure.bare:
        field = TORQUE_FIELDS.get(label or column.label, "unnamed_torque")
        note = "A torque without a unit."
        value = (min(figure.bare),) if figure.form == "range" else figure.bare
        return Reading(column.head, figure.text, f"bare {field}", value, Outcome.DOUBTED, note)
    if column.topic in ("force", "side load", "travel speed", "stroke", "mass", "current", "speed"):
        note = f"{figure.text} of what? A figure needs its unit."
        return Reading(column.head, figure.text, "", None, Outcome.REFUSED, note)
    return Reading(column.head, figure.text, "", None, Outcome.PASSED_OVER)


@dataclass(frozen=True, slots=True)
class _Spot:
    """A figure, its label, and where it stands."""

    column: Column
    text: str
    figure: Figure
    label: str

    @property
    def topic(self) -> str:
        return self.column.topic

    def around(self, before: int, after: int) -> str:
        """Return the text next to the figure, the figure included."""
        return self.text[max(0, self.figure.start - before) : self.figure.end + after]


def _field(spot: _Spot) -> tuple[str, str]:
    """Return the field a figure belongs to and what is odd about it; no field passes it over."""
    chooser = _CHOOSERS.get(spot.figure.kind)
    if chooser is None:
        return "", ""
    own = spot.topic and spot.column.kind == spot.figure.kind
    own = own or (spot.topic in ("torque", "force") and spot.figure.kind == "mass")
    if not spot.label and own and spot.column.label:
        spot = replace(spot, label=spot.column.label)
    return chooser(spot)


def _torque(spot: _Spot) -> tuple[str, str]:
    if spot.topic == "ratio" or spot.label == "free":
        return "", ""
    return TORQUE_FIELDS.get(spot.label, "unnamed_torque"), ""


def _speed(spot: _Spot) -> tuple[str, str]:
    if spot.figure.unit == "s/60°":
        return SPEED_FIELDS.get(spot.label, "free_speed"), ""
    bare = spot.topic == "speed" and spot.column.unit is None and spot.figure.text[-1].isdigit()
    doubt = "Taken for rpm, the unit that listings leave off." if bare else ""
    return SPEED_FIELDS.get(spot.label, "unnamed_speed"), doubt


def _power(spot: _Spot) -> tuple[str, str]:
    if spot.topic == "power":
        return (spot.column.label or "input_power"), ""
    return power_side(spot.around(24, 16)), ""


def _voltage(spot: _Spot) -> tuple[str, str]:
    for text in (spot.around(5, 6), spot.column.head.lower()):
        is_ac, is_dc = bool(_AC.search(text)), bool(_DC.search(text))
        if is_ac is not is_dc:
            return ("volts ac" if is_ac else "volts dc"), ""
    return "volts", ""


def _current(spot: _Spot) -> tuple[str, str]:
    return CURRENT_FIELDS.get(spot.label, "rated_current"), ""


def _frequency(spot: _Spot) -> tuple[str, str]:
    figure = spot.figure
    if figure.unit != "Hz" or not all(16.0 <= value <= 400.0 for value in figure.values):
        return "", ""  # a pulse rate, not the mains
    return "frequencies", ""


def _temperature(spot: _Spot) -> tuple[str, str]:
    wanted = spot.topic == "ambient" or _AMBIENT_WORDS.search(spot.text)
    return ("ambient_most" if wanted else ""), ""


def _force(spot: _Spot) -> tuple[str, str]:
    figure = spot.figure
    if spot.topic == "torque":
        # Only the rest of the row tells whether this is an actuator, which has no torque.
        return (
            FORCE_AS_TORQUE,
            f"{figure.text} is a force, no torque: {figure.unit} times what length?",
        )
    if spot.topic == "side load" or _SIDE_WORDS.search(spot.around(30, 20)):
        return "side_load", ""
    if spot.topic == "force" or _FORCE_WORDS.search(spot.text):
        return ("holding_force" if spot.label == "holding" else "force"), ""
    return "", ""


def _length(spot: _Spot) -> tuple[str, str]:
    return (
        "stroke" if spot.topic == "stroke" or _STROKE_WORDS.search(spot.around(16, 16)) else ""
    ), ""


def _mass(spot: _Spot) -> tuple[str, str]:
    figure, around = spot.figure, spot.around(16, 14)
    if spot.topic == "torque" or _TORQUE_WORDS.search(around):
        if figure.unit != "kg":
            return "", f"{figure.text} is a mass, no torque: on what length of arm?"
        field = TORQUE_FIELDS.get(spot.label, "unnamed_torque")
        return f"kg {field}", "kg is a mass; beside the word torque listings mean kgf·cm."
    if spot.topic == "force" or (spot.topic != "mass" and _FORCE_WORDS.search(around)):
        field = "holding_force" if spot.label == "holding" else "force"
        return f"weight {field}", "A mass, taken for its weight."
    return ("mass" if spot.topic == "mass" or _MASS_WORDS.search(around) else ""), ""


def _travel(spot: _Spot) -> tuple[str, str]:
    return ("" if spot.topic == "ratio" else "travel_speed"), ""


_CHOOSERS = {
    "torque": _torque,
    "rotation": _speed,
    "power": _power,
    "voltage": _voltage,
    "current": _current,
    "frequency": _frequency,
    "temperature": _temperature,
    "force": _force,
    "length": _length,
    "mass": _mass,
    "speed": _travel,
}
