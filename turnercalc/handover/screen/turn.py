"""THE TURN: every check of the turner, with its figures and its answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turnercalc.findings import Answer
from turnercalc.handover.display import Style
from turnercalc.handover.layout import answered, section

if TYPE_CHECKING:
    from turnercalc.findings import Finding
    from turnercalc.sizing import Sizing


def the_turn(sizing: Sizing, style: Style) -> list[str]:
    """Return the findings about the turner, one after another, answers at the right edge."""
    remark = style.letters(f"seen from {sizing.design.drawn_from}")
    lines = [section("THE TURN", remark)]
    for finding in sizing.findings:
        lines += finding_lines(finding, style)
    return lines


def finding_lines(finding: Finding, style: Style) -> list[str]:
    """Return one finding: title, text and answer."""
    answer = finding.answer.value
    lines = answered(style.letters(finding.title), style.words(shortened(finding.text)), answer)
    if finding.answer in (Answer.NO, Answer.MARGINAL, Answer.FINE, Answer.UNKNOWN):
        cut = lines[0].rfind(answer)
        lines[0] = lines[0][:cut] + style.paint(answer, answer)
    return lines


def shortened(text: str) -> str:
    """Return a text without its full stop where it is a single sentence: these are table lines."""
    inner = text[:-1]
    single = text.endswith(".") and ". " not in inner
    return inner if single else text
