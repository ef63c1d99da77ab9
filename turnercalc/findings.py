"""Findings: the answer to one question about a design or a motor."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Answer(StrEnum):
    """The five answers a question can have. Unknown is an answer of its own."""

    FINE = "fine"
    MARGINAL = "marginal"
    NO = "no"
    UNKNOWN = "unknown"
    NOTE = "note"


#: How bad an answer is, over all questions about a design.
SEVERITY = {
    Answer.NOTE: 0,
    Answer.FINE: 0,
    Answer.UNKNOWN: 1,
    Answer.MARGINAL: 2,
    Answer.NO: 3,
}


@dataclass(frozen=True)
class Finding:
    """The answer to one question, with what it rests on.

    Attributes
    ----------
    id : str
        Stable name for scripts, such as ``link_to_arm``.
    title : str
        The question in a few words, for people.
    answer : Answer
        fine, marginal, no, unknown or note.
    text : str
        One or two sentences with the figures, for people.
    value : float or None
        The figure judged, in `unit`.
    unit : str
        Symbol of the unit of value and limits (mm, kg, N, N·m, deg, s, rpm, W, degC, g0 or empty).
    limit_fine, limit_no : float or None
        Where fine ends and where no begins.
    reason : str
        Why the limit stands where it does.
    source : str
        Where the limit comes from ("from memory" and "common practice, no source" included).
    fields : tuple of str
        Field paths of the design that decide the answer.
    ask : str
        For an unknown: what to ask the seller or how to measure it.
    caps_verdict : bool
        False where an unknown or a marginal answer is told but does not lower the verdict.
    """

    id: str
    title: str
    answer: Answer
    text: str
    value: float | None = None
    unit: str = ""
    limit_fine: float | None = None
    limit_no: float | None = None
    reason: str = ""
    source: str = ""
    fields: tuple[str, ...] = ()
    ask: str = ""
    caps_verdict: bool = True


@dataclass(frozen=True)
class Assumed:
    """One thing the builder did not say and that was taken for granted.

    Attributes
    ----------
    field : str
        Field path such as ``pivots.friction``.
    text : str
        The value as it would stand in the file; ``--set`` takes it.
    source : str
        Where the value comes from.
    how : str
        ``read``, ``from memory``, ``computed``, ``common practice, no source`` or ``our choice``.
    """

    field: str
    text: str
    source: str
    how: str = "our choice"


def worst(answers: list[Answer] | tuple[Answer, ...]) -> Answer:
    """Return the verdict over several answers: fine, marginal or no.

    An unknown caps the verdict at marginal; a note never lowers it.
    """
    severity = max((SEVERITY[a] for a in answers), default=0)
    return (Answer.FINE, Answer.MARGINAL, Answer.MARGINAL, Answer.NO)[severity]
