"""How many eggs each motor carries, and which motor to take: pages, chart, CSV and JSON."""

from __future__ import annotations

import csv
import io
import json
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import labelled, section, table, wrap
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.figure import Figure

    from turnercalc.advice.capacity import Capacity, Carried
    from turnercalc.advice.which_motor import Match
    from turnercalc.design import Design

CAPACITY_FORMAT = "turnercalc-capacity/1"
MATCH_FORMAT = "turnercalc-match/1"
CSV_HEAD = (
    *("file", "design", "turner", "motor", "filling", "counted", "count", "eggs"),
    *("times_enough", "limited_by", "box_holds_count", "box_holds_eggs", "why"),
)


def capacity_page(found: Sequence[Capacity], names: Sequence[str], style: Style) -> str:
    """Return each design's motors with the eggs they carry, then a line for each design."""
    lines: list[str] = []
    for one in found:
        lines += [*_one_design(one, style), ""]
    if len(found) > 1:
        lines += [section("A LINE EACH", "most eggs, and by which motor"), *_summary(found, names)]
    return "\n".join(style.letters(line) for line in lines).rstrip()


def _one_design(one: Capacity, style: Style) -> list[str]:
    lines = wrap(style.letters(one.design.name))
    box = f"the box holds {one.box_eggs} ({one.box_holds} {one.thing})"
    factor = float(one.design["motor"].safety_factor)
    lines += ["", section(f"EGGS CARRIED {factor:g} TIMES OVER", box)]
    words = list(dict.fromkeys(item.filling for item in one.carried))
    motors = list(dict.fromkeys(item.motor for item in one.carried))
    by = {(item.motor, item.filling): item for item in one.carried}
    rows = [("motor", *(word or "eggs" for word in words))]
    rows += [(motor, *(_cell(by[motor, word]) for word in words)) for motor in motors]
    lines += table(rows)
    lines += wrap(f"In brackets: {one.thing}. A + means that more were not looked at.", 2)
    lines += ["", "WHAT LIMITS IT"]
    for motor in motors:
        for text, fillings in _reasons([by[motor, word] for word in words]).items():
            where = "" if len(fillings) == len(words) else f" {' and '.join(fillings)}"
            told = style.words(f"{text[0].upper()}{text[1:].rstrip('.')}.")
            lines += labelled(f"{motor}{where}", told, margin=2, column=14)
    return lines


def _reasons(items: Sequence[Carried]) -> dict[str, list[str]]:
    """Return what limits a motor, and in which fillings."""
    found: dict[str, list[str]] = {}
    for item in items:
        if item.limited_by != "most":
            found.setdefault(item.why, []).append(item.filling)
    return found


def _cell(item: Carried) -> str:
    if not item.count:
        return "none "
    return f"{item.eggs} ({item.count}){'+' if item.limited_by == 'most' else ' '}"


def _summary(found: Sequence[Capacity], names: Sequence[str]) -> list[str]:
    rows = [("file", "box holds", "most carried", "by", "filled")]
    for name, one in zip(names, found, strict=True):
        best = max(one.carried, key=lambda item: item.eggs, default=None)
        told = (
            ("0", "-", "-") if best is None else (str(best.eggs), best.motor, best.filling or "-")
        )
        rows.append((name, str(one.box_eggs), *told))
    return table(rows)


def capacity_csv(found: Sequence[Capacity], names: Sequence[str]) -> str:
    """Return a line for each design, filling and motor."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(CSV_HEAD)
    for name, one in zip(names, found, strict=True):
        for item in one.carried:
            enough = "" if item.times_enough is None else rounded(item.times_enough)
            writer.writerow(
                [
                    *(name, one.design.name, one.design.turner, item.motor, item.filling),
                    *(one.thing, item.count, item.eggs, enough, item.limited_by),
                    *(one.box_holds, one.box_eggs, item.why),
                ]
            )
    return out.getvalue()


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
                "motors": [
                    {
                        "id": item.motor,
                        "filling": item.filling or None,
                        "count": item.count,
                        "eggs": item.eggs,
                        "times_enough": rounded(item.times_enough),
                        "limited_by": item.limited_by,
                        "why": item.why,
                    }
                    for item in one.carried
                ],
            }
            for name, one in zip(names, found, strict=True)
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def chart(found: Sequence[Capacity]) -> Figure:
    """Return a bar for each motor and filling, a panel for each design."""
    from matplotlib.figure import Figure

    from turnercalc.handover.strokes import INK, STROKES

    heights = [0.28 * len(one.carried) + 1.3 for one in found]
    sheet = Figure(figsize=(7.4, sum(heights)), layout="constrained")
    panels = sheet.subplots(len(found), 1, squeeze=False, height_ratios=heights)[:, 0]
    hatches = ("", "////", "....")
    for ax, one in zip(panels, found, strict=True):
        words = list(dict.fromkeys(item.filling for item in one.carried))
        motors = list(dict.fromkeys(item.motor for item in one.carried))
        for at, word in enumerate(words):
            own = [item for item in one.carried if item.filling == word]
            places = [
                motors.index(item.motor) + (at - 0.5 * (len(words) - 1)) * 0.8 / len(words)
                for item in own
            ]
            ax.barh(
                places,
                [item.eggs for item in own],
                height=0.75 / len(words),
                color="white" if at else STROKES[1].colour,
                edgecolor=STROKES[1].colour,
                hatch=hatches[at % len(hatches)],
                label=word or "full",
            )
            for place, item in zip(places, own, strict=True):
                more = " or more" if item.limited_by == "most" else ""
                ax.text(item.eggs, place, f" {item.eggs}{more}", va="center", fontsize=7)
        if one.box_eggs:
            ax.axvline(one.box_eggs, color=INK, linewidth=1.0, linestyle=(0, (6, 3)))
            ax.text(one.box_eggs, -0.75, " the box holds", fontsize=7, color=INK)
        ax.set_yticks(range(len(motors)), motors, fontsize=8)
        ax.invert_yaxis()
        ax.set_ylim(len(motors) - 0.4, -1.0)
        ax.set_xlim(0, 1.18 * max([one.box_eggs, *(item.eggs for item in one.carried)], default=1))
        ax.set_xlabel("eggs carried with the wanted factor", fontsize=9)
        ax.set_title(one.design.name, fontsize=10, loc="left")
        ax.spines[["top", "right"]].set_visible(False)
        if len(words) > 1:
            ax.legend(fontsize=8, frameon=False, loc="lower right")
    return sheet


def match_page(found: Sequence[Match], design: Design, style: Style) -> str:
    """Return every motor in the best way it can be used, best first."""
    lines = wrap(style.letters(design.name))
    lines += ["", section("EVERY MOTOR AT ITS BEST", "best first")]
    rows = [("motor", "times enough", "a turn takes", "how", "")]
    for one in found:
        enough = "-" if one.times_enough is None else f"{one.times_enough:.1f}"
        move = "-" if one.longest_move is None else f"{one.longest_move:.0f} s"
        if one.longest_move == float("inf"):
            move = "stalls"
        rows.append((one.motor, enough, move, how(one), one.verdict.value))
    lines += table(rows)
    works = [one for one in found if one.verdict.value in ("fine", "marginal")]
    for one in works[:3]:
        lines += ["", f"  {one.motor}"]
        lines += [f'    --set {path}="{text}"' for path, text in one.settings.items()]
    if not works:
        lines += ["", *wrap("None of them does, behind any stock stage that was tried.", 2)]
        worst = [one for one in found if one.why]
        lines += wrap(style.words(f"{worst[0].motor}: {worst[0].why}"), 2) if worst else []
    return "\n".join(style.letters(line) for line in lines)


def how(match: Match) -> str:
    """Return what has to be done to use a motor so."""
    parts = []
    if match.train is not None:
        pairs = ", ".join(f"{a} to {b}" for a, b in match.train.pairs)
        parts.append(f"{match.train.kind} {pairs}")
    if match.lengths is not None:
        parts.append("other crank")
    return "; ".join(parts) or "as it is"


def match_json(found: Sequence[Match], design: Design) -> str:
    """Return the same as JSON text."""
    record: dict[str, Any] = {
        "format": MATCH_FORMAT,
        "design": {"name": design.name},
        "motors": [
            {
                "id": one.motor,
                "verdict": one.verdict.value,
                "times_enough": rounded(one.times_enough),
                "longest_move_s": rounded(one.longest_move),
                "added_stages": None if one.train is None else [list(p) for p in one.train.pairs],
                "stage_kind": None if one.train is None else one.train.kind,
                "other_lengths": one.lengths is not None,
                "set": dict(one.settings),
                "why": one.why,
            }
            for one in found
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)
