"""The whole page, section by section."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from turnercalc.handover.display import Style
from turnercalc.handover.layout import wrap
from turnercalc.handover.screen.care import build_with_care
from turnercalc.handover.screen.cautions import cautions
from turnercalc.handover.screen.granted import not_known, remarks, taken_for_granted
from turnercalc.handover.screen.motors import your_motors
from turnercalc.handover.screen.running import (
    after_a_power_cut,
    supply_and_heat,
    timer_settings,
)
from turnercalc.handover.screen.timer import timer
from turnercalc.handover.screen.torque import how_hard
from turnercalc.handover.screen.turn import the_turn
from turnercalc.handover.screen.verdict import verdict_block

if TYPE_CHECKING:
    from turnercalc.advice import Advice
    from turnercalc.sizing import Sizing

Section = Callable[["Sizing", Style], list[str]]

#: In the order they are told; a section without lines is left out.
SECTIONS: Sequence[Section] = (
    the_turn,
    how_hard,
    your_motors,
    timer,
    timer_settings,
    supply_and_heat,
    after_a_power_cut,
    build_with_care,
    taken_for_granted,
    not_known,
    remarks,
    cautions,
)


@dataclass(frozen=True)
class Files:
    """What the page was made from, as it was named on the command line.

    Attributes
    ----------
    design : str
    motors : str or None
        ``-`` for a table pasted on standard input.
    """

    design: str
    motors: str | None = None


def page(sizing: Sizing, advice: Advice, files: Files, style: Style, *, brief: bool = False) -> str:
    """Return the verdict page.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    advice : Advice
        What helps, best first.
    files : Files
        For the commands that are offered at the end.
    style : Style
        Units, letters, colour.
    brief : bool
        Only the verdict and what to do.
    """
    lines = verdict_block(sizing, advice, style)
    if not brief:
        for section in SECTIONS:
            found = section(sizing, style)
            lines += ["", *found] if found else []
        lines += ["", *what_next(sizing, files, style)]
    return "\n".join(lines)


def what_next(sizing: Sizing, files: Files, style: Style) -> list[str]:
    """Return the commands that lead on from here."""
    design = shlex.quote(files.design)
    with_motors = f" -m {shlex.quote(files.motors)}" if files.motors not in (None, "-") else ""
    if sizing.cycle is None:
        return wrap(style.letters("turnercalc explain jam point"), 6, "Next: ")
    lines = wrap(style.letters(f"turnercalc plot {design} torque{with_motors}"), 6, "Next: ")
    lines += wrap(style.letters(f"turnercalc cycle {design}"), 6)
    return lines + wrap("turnercalc explain WORD, for any word on this page", 6)
