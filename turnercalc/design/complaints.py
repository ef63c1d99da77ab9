"""Complaints as a builder reads them, 80 columns wide."""

from __future__ import annotations

import re
import textwrap

from turnercalc.errors import Complaint, DesignError

WIDTH = 80
_INDENT = 12
_BARE_VALUE = re.compile(r"\[.*|[-+]?\d+(\.\d+)?|true|false")
_MOST_OFFERED = 4


def complaint_text(error: DesignError) -> str:
    """Return all complaints of a design file as text for the screen.

    Parameters
    ----------
    error : DesignError
        As `read_design` raises it.

    Returns
    -------
    str
        The headline, one paragraph for each complaint, and how much was understood.
    """
    parts = [wrapped(str(error), 0)]
    parts += [one_complaint(complaint) for complaint in error.complaints]
    if error.understood:
        lines = "line was" if error.understood == 1 else "lines were"
        parts.append(f"The other {error.understood} {lines} understood.")
    return "\n\n".join(parts) + "\n"


def one_complaint(complaint: Complaint) -> str:
    """Return one complaint as an indented paragraph."""
    read = complaint.read or complaint.field
    place = f"line {complaint.line}"
    if complaint.line is None:
        place = "setting" if read.startswith("--set") else "missing"
    head = f"  {place:<{_INDENT - 2}}" + textwrap.shorten(read, WIDTH - _INDENT, placeholder=" ...")
    head = head if read else "  the file"
    body = [wrapped(sentence, _INDENT) for sentence in complaint.message.splitlines()]
    return "\n".join([head.rstrip(), *body, *_offer(complaint)])


def answer_complaint(message: str, accepted: tuple[str, ...]) -> str:
    """Return what is wrong with an answer that was typed at a question."""
    lines = [wrapped(sentence, 2) for sentence in message.splitlines()]
    if accepted:
        lines.append(wrapped(f"Answer like   {'   or   '.join(accepted[:_MOST_OFFERED])}", 2))
    return "\n".join(lines)


def offered(complaint: Complaint) -> tuple[str, ...]:
    """Return the whole lines a complaint offers instead.

    `Complaint.accepted` holds values where the complaint is about a field, and whole lines where it
    is about a line that is no field.
    """
    if not complaint.field:
        return complaint.accepted
    name = complaint.field.rpartition(".")[2]
    if complaint.read.startswith("--set"):
        name = f"--set {complaint.field}"
        return tuple(f"{name}={quoted(value, always=True)}" for value in complaint.accepted)
    return tuple(f"{name} = {quoted(value)}" for value in complaint.accepted)


def quoted(value: str, *, always: bool = False) -> str:
    """Return a value as it stands in a file: between quote marks, unless it is a number or list."""
    if _BARE_VALUE.fullmatch(value) and not always:
        return value
    return f"'{value}'" if '"' in value else f'"{value}"'


def _offer(complaint: Complaint) -> list[str]:
    lines = offered(complaint)
    if not lines:
        return []
    margin = " " * _INDENT
    together = margin + "Write   " + "   or   ".join(lines)
    if len(lines) <= _MOST_OFFERED and len(together) <= WIDTH:
        return [together]
    return [margin + "Write one of" if len(lines) > 1 else margin + "Write"] + [
        wrapped(line, _INDENT + 2) for line in lines
    ]


def wrapped(text: str, indent: int) -> str:
    """Return a text in lines of `WIDTH` columns, indented."""
    margin = " " * indent
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=margin,
        subsequent_indent=margin,
        break_long_words=False,
        break_on_hyphens=False,
    )
