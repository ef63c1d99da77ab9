"""TAKEN FOR GRANTED, NOT KNOWN, and what was understood although it was written otherwise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turnercalc.findings import Answer
from turnercalc.handover.display import Style
from turnercalc.handover.layout import wrap
from turnercalc.motors.faults import in_short

if TYPE_CHECKING:
    from turnercalc.design import Design
    from turnercalc.findings import Assumed, Finding
    from turnercalc.motors import MotorResult
    from turnercalc.sizing import Sizing

_FIELD = 22
_VALUE = 20


def taken_for_granted(sizing: Sizing, style: Style) -> list[str]:
    """Return what the builder did not say, the value that was taken, and where it comes from."""
    if not sizing.assumed:
        return []
    lines = ["TAKEN FOR GRANTED   (you did not say; --set changes any of them)"]
    for one in sizing.assumed:
        lines += _assumed(one, style)
    return lines


def _assumed(one: Assumed, style: Style) -> list[str]:
    head = "  " + style.letters(one.field).ljust(_FIELD) + style.letters(one.text)
    source = style.letters(source_words(one))
    column = 2 + _FIELD + _VALUE
    if len(head) < column:
        return wrap(source, column, head.ljust(column))
    lines = wrap(style.letters(one.text), 2 + _FIELD, f"  {one.field:<{_FIELD}}")
    return lines + wrap(source, column)


def source_words(one: Assumed) -> str:
    """Return the source, and that it is only remembered or chosen where that is so."""
    if one.how in ("read", "computed", "our choice") or one.how in one.source:
        return one.source
    return f"{one.source} ({one.how})"


def not_known(sizing: Sizing, style: Style) -> list[str]:
    """Return what is not known, each with what to ask or test; then the other motors' gaps."""
    lines = []
    for text in gap_texts(sizing):
        lines += wrap(style.words(text), 4, "  ")
    return ["NOT KNOWN", *lines] if lines else []


def gap_texts(sizing: Sizing) -> list[str]:
    """Return the same, a paragraph each."""
    told = half_known_texts(sizing.design)
    told += [_gap(sizing, finding) for finding in sizing.unknown]
    for result in sizing.motors:
        usable = result.verdict in (Answer.FINE, Answer.MARGINAL)
        if usable and result is not sizing.chosen and result.unknown:
            told.append(_of_motor(result))
    return list(dict.fromkeys(told))


def half_known_texts(design: Design) -> list[str]:
    """Return every number that is known only so far, and that its middle was taken."""
    return [
        f"{path} is known only as {design.origin[path].text}; its middle was taken. "
        "turnercalc tolerance tells what the rest does."
        for path in design.half_known
    ]


def _of_motor(result: MotorResult) -> str:
    questions = ", ".join(in_short(finding) for finding in result.unknown)
    return f"Motor {result.motor.id}: {questions}."


def _gap(sizing: Sizing, finding: Finding) -> str:
    """Return one gap and what to ask or test, with whose it is."""
    text = finding.text.removeprefix("Not known: ")
    own = sizing.chosen is not None and finding in sizing.chosen.findings
    if own and sizing.chosen is not None:
        text = f"Motor {sizing.chosen.motor.id}: {text[0].lower()}{text[1:]}"
    return f"{text} {finding.ask}".strip()


def remarks(sizing: Sizing, style: Style) -> list[str]:
    """Return what was understood although it is not written as it should be."""
    lines = []
    for text in remark_texts(sizing):
        lines += wrap(style.letters(text), 4, "  ")
    return ["READ ALL THE SAME", *lines] if lines else []


def remark_texts(sizing: Sizing) -> list[str]:
    """Return the same, a paragraph each."""
    return [
        (f"Line {', '.join(str(n) for n in note.lines)}: " if note.lines else "") + note.text
        for note in sizing.design.notes
    ]
