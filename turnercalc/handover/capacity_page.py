"""How many eggs each motor carries and how many the box holds: page, chart, CSV and JSON."""

from __future__ import annotations

import csv
import io
import json
from typing import TYPE_CHECKING

from turnercalc.handover.display import Style
from turnercalc.handover.layout import ending_in_words, labelled, section, table, wrap
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from turnercalc.advice.capacity import Capacity, Carried
    from turnercalc.motors import MotorFile

CAPACITY_FORMAT = "turnercalc-capacity/1"
CSV_HEAD = (
    *("file", "design", "turner", "motor", "filling", "counted", "count", "eggs"),
    *("times_enough", "limited_by", "why", "motor_count", "motor_eggs", "motor_more", "motor_why"),
    *("box_holds_count", "box_holds_eggs", "box_why"),
)
#: Longer names of motors have a line of their own.
NAME = 22


def capacity_page(
    found: Sequence[Capacity], names: Sequence[str], motors: MotorFile, style: Style
) -> str:
    """Return each design's motors with the eggs that go in, then a line for each design."""
    lines: list[str] = []
    for one in found:
        lines += [*_one_design(one, motors, style), ""]
    if len(found) > 1:
        lines += [section("A LINE EACH", "most eggs that go in, by which motor")]
        lines += _summary(found, names)
    return "\n".join(style.letters(line) for line in lines).rstrip()


def _one_design(one: Capacity, motors: MotorFile, style: Style) -> list[str]:
    lines = wrap(style.letters(one.design.name))
    factor = float(one.design["motor"].safety_factor)
    lines += ["", section(f"EGGS CARRIED {factor:g} TIMES OVER", _box(one))]
    if one.stuck:
        return [
            *lines,
            *wrap(f"Nothing is carried, whatever the motor. {style.words(one.stuck)}", 2),
        ]
    if not one.carried:
        return [*lines, *wrap(f"{motors.name or 'The motor file'} lists no motor.", 2)]
    lines += _table(one, style)
    lines += wrap(f"In brackets: {one.thing}. A + means that the motor may carry more.", 2)
    lines += ["", "WHAT LIMITS IT"]
    lines += labelled("the room", style.words(_room(one)), margin=2, column=14)
    for whom, text in _reasons(one):
        lines += labelled(whom, style.words(_sentence(text)), margin=2, column=14)
    return lines


def _table(one: Capacity, style: Style) -> list[str]:
    """Return a part of the table for each filling, all in the same columns."""
    rows: list[tuple[str, str, str, str]] = []
    long_names: dict[int, str] = {}
    impossible = one.impossible
    for word in dict.fromkeys(item.filling for item in one.carried):
        if word in impossible:
            continue
        rows.append((word or "motor", "go in ", "motor alone ", "limited by"))
        for item in one.carried:
            if item.filling == word:
                long = len(item.motor) > NAME
                if long:
                    long_names[len(rows)] = item.motor
                rows.append(("" if long else item.motor, *_cells(item)))
    lines: list[str] = []
    for at, line in enumerate(table(rows)):
        lines += wrap(style.letters(long_names[at]), 2) if at in long_names else []
        lines.append(line)
    for word, why in impossible.items():
        lines += wrap(style.words(f"{word or 'no motor'}: none. {_sentence(why)}"), 4, "  ")
    return lines


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _room(one: Capacity) -> str:
    why = _sentence(one.box_why)
    if not one.box_full_at:
        return why
    return f"With {one.grows.named(one.box_full_at)}: {why[:1].lower()}{why[1:]}"


def _box(one: Capacity) -> str:
    if one.box_holds is None:
        return "not known what the box holds"
    if not one.box_holds:
        return f"the box has room for no {one.thing}"
    return f"the box holds {one.box_eggs} ({one.grows.named(one.box_holds)})"


def _cells(item: Carried) -> tuple[str, str, str]:
    """Return what goes in, what the motor alone would carry, and which of the two limits."""
    if item.limited_by == "unknown":
        return "not known ", "not known ", "-"
    more = "+" if item.motor_more else " "
    alone = f"{item.motor_eggs} ({item.motor_count}){more}" if item.motor_count else "none "
    goes = f"{item.eggs} ({item.count})"
    if item.limited_by == "most":
        return f"{goes}+", alone, "-"
    by = "the room" if item.box_limits else "the motor"
    return f"{goes} " if item.count else "none ", alone, by


def _reasons(one: Capacity) -> list[tuple[str, str]]:
    """Return which motors, in which fillings, are limited by what of their own."""
    fillings: dict[tuple[str, str], list[str]] = {}
    for item in one.carried:
        if item.filling in one.impossible:
            continue
        if item.limited_by != "most" and not item.box_limits:
            fillings.setdefault((item.motor, _reason(item, one)), []).append(item.filling)
    every = len({item.filling for item in one.carried} - set(one.impossible))
    motors: dict[tuple[str, str], list[str]] = {}
    for (motor, text), words in fillings.items():
        where = "" if len(words) == every else f" {' and '.join(words)}"
        motors.setdefault((where, text), []).append(motor)
    return [(f"{', '.join(names)}{where}", text) for (where, text), names in motors.items()]


def _reason(item: Carried, one: Capacity) -> str:
    if not item.count:
        return item.why
    return f"With {one.grows.named(item.fails_at)}: {item.why[:1].lower()}{item.why[1:]}"


def _summary(found: Sequence[Capacity], names: Sequence[str]) -> list[str]:
    rows = [("file", "box holds", "go in", "filled", "by")]
    for name, one in zip(names, found, strict=True):
        held = "not known" if one.box_eggs is None else str(one.box_eggs)
        rows.append((name, held, *_most(one)))
    return ending_in_words(rows, right=(1, 2), longest=26)


def _shortened(name: str, most: int = 28) -> str:
    return name if len(name) <= most else f"{name[: most - 3]}..."


def _most(one: Capacity) -> tuple[str, str, str]:
    """Return the most eggs that go in, how they are filled, and the motor that just does it.

    Of the motors that carry as many, the least that is enough, with the fewest rules of filling.
    """
    most = max((item.eggs for item in one.carried), default=0)
    if not most:
        return "none", "-", "-"
    alike = [item for item in one.carried if item.eggs == most]
    filled = alike[0].filling
    own = [item for item in alike if item.filling == filled]
    least = min(own, key=lambda item: item.times_enough or 0.0)
    others = f", {len(own) - 1} more" if len(own) > 1 else ""
    return str(most), filled or "-", f"{least.motor}{others}"


def capacity_csv(found: Sequence[Capacity], names: Sequence[str]) -> str:
    """Return a line for each design, filling and motor; what is not known is left empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(CSV_HEAD)
    for name, one in zip(names, found, strict=True):
        for item in one.carried:
            known = item.limited_by != "unknown"
            writer.writerow(
                [
                    *(name, one.design.name, one.design.turner, item.motor, item.filling),
                    *(one.thing, *((item.count, item.eggs) if known else ("", ""))),
                    "" if item.times_enough is None else rounded(item.times_enough),
                    *(item.limited_by, item.why),
                    *((item.motor_count, item.motor_eggs) if known else ("", "")),
                    *("yes" if item.motor_more else "no", item.motor_why),
                    *(_blank(one.box_holds), _blank(one.box_eggs), one.box_why),
                ]
            )
    return out.getvalue()


def _blank(count: int | None) -> int | str:
    return "" if count is None else count


def capacity_json(found: Sequence[Capacity], names: Sequence[str]) -> str:
    """Return the same as JSON text."""
    record = {
        "format": CAPACITY_FORMAT,
        "designs": [
            {
                "file": name,
                "name": one.design.name,
                "turner": one.design.turner,
                "counted": one.thing,
                "field": one.field,
                "box_holds_count": one.box_holds,
                "box_holds_eggs": one.box_eggs,
                "box_why": one.box_why,
                "stuck": one.stuck or None,
                "motors": [_record(item) for item in one.carried],
            }
            for name, one in zip(names, found, strict=True)
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def _record(item: Carried) -> dict[str, object]:
    known = item.limited_by != "unknown"
    return {
        "id": item.motor,
        "filling": item.filling or None,
        "count": item.count if known else None,
        "eggs": item.eggs if known else None,
        "times_enough": rounded(item.times_enough),
        "limited_by": item.limited_by,
        "why": item.why,
        "motor_count": item.motor_count if known else None,
        "motor_eggs": item.motor_eggs if known else None,
        "motor_more": item.motor_more,
        "motor_why": item.motor_why,
    }


def chart(found: Sequence[Capacity]) -> Figure:
    """Return a bar for each motor and filling, a panel for each design."""
    from matplotlib.figure import Figure

    heights = [0.28 * len(one.carried) + 1.3 for one in found]
    sheet = Figure(figsize=(7.4, sum(heights)), layout="constrained")
    panels = sheet.subplots(len(found), 1, squeeze=False, height_ratios=heights)[:, 0]
    for ax, one in zip(panels, found, strict=True):
        _panel(ax, one)
    return sheet


def _panel(ax: Axes, one: Capacity) -> None:
    """Draw what goes in with each motor, the room of the box, and in figures the motor alone."""
    from turnercalc.handover.strokes import INK, STROKES

    hatches = ("", "////", "....")
    words = list(dict.fromkeys(item.filling for item in one.carried))
    motors = list(dict.fromkeys(item.motor for item in one.carried))
    most = max([one.box_eggs or 0, *(item.eggs for item in one.carried), 1])
    for at, word in enumerate(words):
        own = [item for item in one.carried if item.filling == word]
        offset = (at - 0.5 * (len(words) - 1)) * 0.8 / len(words)
        places = [motors.index(item.motor) + offset for item in own]
        ax.barh(
            places,
            [item.eggs for item in own],
            height=0.75 / len(words),
            color="white" if at else STROKES[1].colour,
            edgecolor=STROKES[1].colour,
            hatch=hatches[at % len(hatches)],
            label=word or "go in",
        )
        for place, item in zip(places, own, strict=True):
            ax.text(item.eggs, place, _told(item), va="center", fontsize=7)
    if one.box_eggs:
        ax.axvline(one.box_eggs, color=INK, linewidth=1.0, linestyle=(0, (6, 3)))
        ax.text(one.box_eggs, -0.75, f" the box holds {one.box_eggs}", fontsize=7, color=INK)
    ax.set_yticks(range(len(motors)), [_shortened(motor) for motor in motors], fontsize=8)
    ax.set_ylim(max(len(motors), 1) - 0.4, -1.0)
    ax.set_xlim(0, 1.4 * most)
    factor = float(one.design["motor"].safety_factor)
    ax.set_xlabel(f"eggs that go in and are carried {factor:g} times over", fontsize=9)
    ax.set_title(one.design.name, fontsize=10, loc="left")
    ax.spines[["top", "right"]].set_visible(False)
    if one.stuck or not motors:
        why = "Nothing is carried, whatever the motor." if one.stuck else "No motor is listed."
        ax.text(0.5, 0.4, why, transform=ax.transAxes, ha="center", fontsize=9)
    if len(words) > 1:
        ax.legend(fontsize=8, frameon=False, loc="lower right")


def _told(item: Carried) -> str:
    if item.limited_by == "unknown":
        return "  not known"
    more = "+" if item.motor_more else ""
    if not item.box_limits:
        return f"  {item.eggs}{more}"
    beyond = item.motor_more or item.motor_eggs > item.eggs
    return f"  {item.eggs}{f' (the motor alone {item.motor_eggs}{more})' if beyond else ''}"
