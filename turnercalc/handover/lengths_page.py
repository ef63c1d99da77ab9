"""Sets of lengths as a page and as JSON."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import TYPE_CHECKING, Any

from turnercalc.design.writer import write_design
from turnercalc.handover.display import DIRECTION_WORDS, Style
from turnercalc.handover.layout import WIDTH, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.handover.writing import check_target, make_folder, write_whole
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.advice.fit_trays import TrayFit
    from turnercalc.advice.lengths import Lengths, Suggestion
    from turnercalc.design import Design

FORMAT = "turnercalc-lengths/1"
LABEL = 4


def page(
    lengths: Lengths,
    design: Design,
    style: Style,
    *,
    trays: TrayFit | None = None,
    told: str = "",
) -> str:
    """Return every suggestion with its figures, its trade and its settings.

    `told`: for which trays the lengths are.
    """
    lines = wrap(style.letters(design.name))
    if trays is not None:
        lines += ["", *wrap(style.words(trays.text), 2)]
        if not lengths.suggestions:
            lines += [f'    --set {path}="{text}"' for path, text in trays.settings.items()]
        lines += ["", *wrap(style.words(told), 2)] if told else []
    if not lengths.suggestions:
        if trays is None or lengths.why_none != trays.text:
            lines += ["", *wrap(style.words(lengths.why_none), 2)]
        return "\n".join(lines)
    for number, one in enumerate(lengths.suggestions, start=1):
        lines += ["", *_suggestion(number, one, style)]
    lines += [
        "",
        *wrap(
            f"Out of {lengths.tried:,} sets looked at. Each was sized again in full as written "
            "here. What the lengths do not decide (eggs, motor, timer) is judged by "
            "turnercalc size.",
            2,
        ),
    ]
    return "\n".join(style.letters(line) for line in lines)


def _suggestion(number: int, one: Suggestion, style: Style) -> list[str]:
    what, _, costs = one.trade.partition(": ")
    head = f"{number}  {what}"
    lines = [f"{head:<{WIDTH - 10}}{style.paint(one.answer.value, one.answer.value)}"]
    lines += wrap(style.words(costs[:1].upper() + costs[1:]), LABEL)
    promise = one.promise
    ends = ends_text(one)
    both = one.sizing.drive.both_ways
    way = "" if both else f"; easier {DIRECTION_WORDS[one.sizing.better_direction]}"
    hand = ""
    if math.isfinite(promise.in_hand) and promise.in_hand > 0.0:
        hand = f"; {1e3 * promise.in_hand:.0f} mm in hand"
    lines += wrap(style.words(f"{ends}{way}{hand}."), LABEL)
    lines += [f'{" " * LABEL}--set {path}="{text}"' for path, text in one.settings.items()]
    return lines


def ends_text(one: Suggestion) -> str:
    """Return both ends in the turner's own words."""
    turner, promise = one.sizing.turner, one.promise
    words = wording_of(turner)
    if turner.coordinate_unit != "rad" or turner.endless:
        total = promise.high - promise.low
        figure = degrees(total) if turner.coordinate_unit == "rad" else f"{1e3 * total:.1f} mm"
        return f"{figure} from end to end"
    return f"{degrees(promise.high)} {words.high}, {degrees(-promise.low)} {words.low}"


def degrees(angle: float) -> str:
    """Return an angle in degrees [rad]."""
    return f"{math.degrees(angle):.1f}°"


def as_json(
    lengths: Lengths, design: Design, *, trays: TrayFit | None = None, told: str = ""
) -> str:
    """Return the suggestions as JSON text; keys carry their units."""
    record: dict[str, Any] = {
        "format": FORMAT,
        "design": {"name": design.name, "turner": design.turner, "drive": design.drive},
        "tried": lengths.tried,
        "why_none": lengths.why_none or None,
        "suggestions": [suggestion_record(one) for one in lengths.suggestions],
    }
    if trays is not None:
        record["trays"] = {
            "count": trays.count,
            "pitch_mm": rounded(trays.pitch, 1e3),
            "lowest_pivot_mm": rounded(trays.lowest_pivot, 1e3),
            "spare_height_mm": rounded(trays.spare, 1e3),
            "steepest_deg": rounded(trays.steepest, 180 / math.pi),
            "set": dict(trays.settings),
            "text": trays.text,
            "lengths": told or None,
        }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def suggestion_record(one: Suggestion) -> dict[str, Any]:
    """Return one suggestion as plain values."""
    swings = one.sizing.turner.coordinate_unit == "rad"
    per, end = (180.0 / math.pi, "deg") if swings else (1e3, "mm")
    unit = "Nm" if one.sizing.drive.position_unit == "rad" else "N"
    return {
        "id": one.id,
        "set": dict(one.settings),
        "answer": one.answer.value,
        "verdict": one.sizing.verdict.value,
        "text": one.trade,
        f"high_end_{end}": rounded(one.promise.high, per),
        f"low_end_{end}": rounded(one.promise.low, per),
        f"peak_shaft_{'torque' if unit == 'Nm' else 'force'}_{unit}": rounded(one.promise.peak),
        "link_to_arm_deg": rounded(one.promise.link_to_arm, 180.0 / math.pi),
        "in_hand_mm": rounded(one.promise.in_hand, 1e3),
        "better_direction": DIRECTION_WORDS[one.sizing.better_direction],
    }


def write_designs(
    lengths: Lengths, folder: str | Path, stem: str, *, replace: bool = False
) -> list[Path]:
    """Write every suggestion as a design file; none is written where one may not be."""
    place = Path(folder)
    if lengths.suggestions:
        make_folder(place)
    targets = [
        place / f"{stem}-lengths-{number}.toml" for number in range(1, len(lengths.suggestions) + 1)
    ]
    for target in targets:
        check_target(target, replace=replace)
    return [
        write_whole(target, write_design(one.design), replace=replace)
        for target, one in zip(targets, lengths.suggestions, strict=True)
    ]
