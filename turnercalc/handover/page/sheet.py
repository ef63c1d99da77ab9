"""The page put together: words from the screen, picture, chart, plots, and a script that moves."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

import numpy as np

from turnercalc import __version__
from turnercalc.checks.wording import place
from turnercalc.drives.wording import wording_of
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.handover.display import Scale, Style, decimals_for, scale_for
from turnercalc.handover.page.chart import Chart, chart
from turnercalc.handover.page.chart import record as chart_record
from turnercalc.handover.page.picture import Picture, picture
from turnercalc.handover.screen.care import care_items
from turnercalc.handover.screen.cautions import caution_texts
from turnercalc.handover.screen.granted import gap_texts, remark_texts, source_words
from turnercalc.handover.screen.motors import figures, says_more, sentence, times_words
from turnercalc.handover.screen.running import (
    CODES_FIRST,
    SET_ONE,
    power_cut_texts,
    supply_items,
    timer_items,
)
from turnercalc.handover.screen.timer import timer_texts
from turnercalc.handover.screen.torque import figure, largest, where_words
from turnercalc.handover.screen.verdict import (
    NOTHING_HELPS,
    OTHERS,
    change_words,
    reason_words,
    set_text,
    title,
)

if TYPE_CHECKING:
    from jinja2 import Environment

    from turnercalc.advice import Advice
    from turnercalc.sizing import Sizing

#: Plots shown under the chart, where the design has them.
PLOTS = ("tilt", "force", "time")
#: Seconds the script takes for one move; the real one may take longer.
SHOWN_TIME = 3.0


@dataclass(frozen=True)
class Row:
    """One row of a table: cells, and the answer it ends with."""

    cells: tuple[str, ...]
    answer: str = ""
    note: str = ""


def sheet(sizing: Sizing, advice: Advice, style: Style) -> str:
    """Return the page as HTML that needs no other file and no network.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    advice : Advice
        What helps, best first.
    style : Style
        Units and letters.
    """
    template = _environment().get_template("sheet.html")
    drawn = picture(sizing)
    told = _told(sizing)
    found = chart(sizing, *told, system=style.system) if told and drawn.frames else None
    return template.render(
        made_with=f"turnercalc {__version__}",
        name=sizing.design.name,
        verdict=sizing.verdict.value,
        title=style.letters(title(sizing)),
        reason=style.words(reason_words(sizing)),
        changes=_changes(sizing, advice, style),
        nothing_helps=NOTHING_HELPS if _stuck(sizing, advice) else "",
        buy=style.to_buy(sizing.shopping.text) if sizing.shopping else "",
        seen_from=sizing.design.drawn_from,
        picture=drawn.svg,
        chart=found.svg if found else "",
        loads=_load_names(sizing),
        ways=wording_of(sizing.drive).ways,
        shown={"load": told[0], "way": told[1]} if told else None,
        motion=_motion(sizing, drawn, found, style) if found else None,
        findings=[
            Row((style.letters(f.title), style.words(f.text)), f.answer.value)
            for f in sizing.findings
        ],
        torque=_torque_table(sizing, style),
        where=style.words(where_words(sizing)) if sizing.cycle is not None else "",
        motors=_motors(sizing, style),
        timer=[style.words(text) for text in timer_texts(sizing)],
        running=_running(sizing, style),
        power_cut=[style.words(text) for text in power_cut_texts(sizing)],
        care=[(style.letters(a), style.words(b)) for a, b in care_items(sizing, style.system)],
        assumed=[
            Row((one.field, style.letters(one.text), style.letters(source_words(one))))
            for one in sizing.assumed
        ],
        gaps=[style.words(text) for text in gap_texts(sizing)],
        remarks=[style.letters(text) for text in remark_texts(sizing)],
        cautions=[style.words(text) for text in caution_texts(sizing)],
        plots=_plots(sizing, style),
        css=_text("sheet.css"),
        script=_text("sheet.js"),
    )


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("turnercalc.handover", "page"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _text(name: str) -> str:
    return files("turnercalc.handover").joinpath("page", name).read_text(encoding="utf-8")


def _stuck(sizing: Sizing, advice: Advice) -> bool:
    return sizing.verdict is not Answer.FINE and not advice.changes


def _changes(sizing: Sizing, advice: Advice, style: Style) -> list[dict[str, Any]]:
    return [
        {
            "text": style.words(change_words(change, sizing)),
            "settings": [set_text(*one) for one in change.settings.items()],
        }
        for change in advice.changes[: 1 + OTHERS]
    ]


def _told(sizing: Sizing) -> tuple[int, int] | None:
    """Return family and direction that are told first: the hardest that is planned."""
    if sizing.cycle is None:
        return None
    middle, way = sizing.cycle.levels.index("middle"), sizing.told_direction
    planned = [i for i, family in enumerate(sizing.families) if family.planned]
    hardest = max(
        planned, key=lambda i: float(np.nan_to_num(sizing.families[i].peaks[middle, way]))
    )
    return hardest, way


def _load_names(sizing: Sizing) -> list[str]:
    if sizing.cycle is None:
        return []
    return [
        sizing.cycle.loads[f.worst].name + ("" if f.planned else " (not planned)")
        for f in sizing.families
    ]


def _motion(sizing: Sizing, drawn: Picture, found: Chart, style: Style) -> dict[str, Any]:
    """Return all that the script needs, as plain values."""
    cycle, frames = sizing.cycle, drawn.frames
    assert cycle is not None
    assert frames is not None
    motion, turner = cycle.motion, sizing.turner
    rising = np.asarray(motion.rate) > 0.0
    turns = sizing.drive.position_unit == "rad"
    along = scale_for("angle" if turns else "length", style.system)
    at = frames.indices
    return {
        "parts": drawn.parts,
        "chart": chart_record(found),
        "index": at.tolist(),
        "position": [round(float(v), 2) for v in along.per_si * motion.position[at]],
        "places": [
            [
                style.words(place(turner, float(motion.coordinate[i]), bool(rising[i]) is up))
                for i in at
            ]
            for up in (True, False)
        ],
        "head": wording_of(sizing.drive).head,
        "symbol": along.symbol,
        "round": motion.round_and_round,
        "ends": [frames.high_end, frames.low_end],
        "move": SHOWN_TIME,
        "loads": _load_names(sizing),
    }


def _torque_table(sizing: Sizing, style: Style) -> dict[str, Any] | None:
    if sizing.cycle is None:
        return None
    turns = sizing.drive.position_unit == "rad"
    scale: Scale = scale_for("torque" if turns else "force", style.system)
    decimals = decimals_for(largest(sizing, scale))
    names = _load_names(sizing)
    rows = [
        Row((style.letters(name), *(figure(scale.of(float(p)), decimals) for p in f.peaks.T.flat)))
        for name, f in zip(names, sizing.families, strict=True)
    ]
    words = wording_of(sizing.drive)
    what = f"shaft torque at {words.shaft}" if turns else f"push on {words.shaft}"
    return {"rows": rows, "what": what, "unit": scale.symbol, "ways": words.ways}


def _motors(sizing: Sizing, style: Style) -> list[Row]:
    rows = []
    for result in sizing.motors:
        mark = "judged above: " if result is sizing.chosen else ""
        why = ""
        if result.verdict is not Answer.FINE and result.why and says_more(result):
            why = style.words(sentence(result.why))
        rows.append(
            Row(
                (f"{mark}{result.motor.id}", figures(result.motor, style), times_words(result)),
                result.verdict.value,
                why,
            )
        )
    return rows


def _running(sizing: Sizing, style: Style) -> list[tuple[str, str, str, list[tuple[str, str]]]]:
    """Return what is set and what is wired: heading, its name, what stands beside it, the items."""
    told = [
        ("Timer settings", "settings", SET_ONE, timer_items(sizing)),
        ("Supply and heat", "supply", CODES_FIRST, supply_items(sizing, style)),
    ]
    return [
        (head, name, beside, [(label, style.words(text)) for label, text in items])
        for head, name, beside, items in told
        if items
    ]


def _plots(sizing: Sizing, style: Style) -> list[dict[str, str]]:
    """Return plots as pictures inside the page, each with a text for those who cannot see it."""
    from turnercalc.handover import plots

    system = "us" if style.system == "us" else "metric"
    found = []
    for name in PLOTS:
        if name not in plots.PLOTS or sizing.cycle is None:
            continue
        try:
            drawn = plots.figure(sizing, (name,), system=system)
        except TurnercalcError:
            # This design has nothing of the kind, such as a time without a motor.
            continue
        found.append({"src": plots.as_data(drawn), "alt": _says(plots.KINDS[name].says)})
    return found


def _says(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")
