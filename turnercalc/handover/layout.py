"""Lines of 80 columns: wrapped text, labelled lines, answers at the right edge, tables."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence

WIDTH = 80

# A setting must survive being copied, and a figure stays with its unit: no place to break there.
_SETTING = re.compile(r"""(?:--set\s+)?[\w.\[\]]+=(?:"[^"]*"|'[^']*')""")
_UNITS = "N·m|N.m|kgf·cm|kgf.cm|ozf·in|ozf.in|lbf·in|lbf.in|mm/s|mm|kg|rpm|min|deg|°C|Hz|[NVAWgsh%]"
_FIGURE = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w·]))")
_GLUE = "\x00"


def wrap(text: str, indent: int = 0, first: str | None = None, width: int = WIDTH) -> list[str]:
    """Return text in lines; settings and figures with their units stay unbroken.

    Parameters
    ----------
    text : str
        One paragraph.
    indent : int
        Blanks before every line.
    first : str, optional
        What stands before the first line in place of the blanks.
    width : int
        Longest line.
    """
    glued = _SETTING.sub(lambda match: match.group().replace(" ", _GLUE), text)
    glued = _FIGURE.sub(_GLUE, glued)
    lines = textwrap.wrap(
        glued,
        width,
        initial_indent=" " * indent if first is None else first,
        subsequent_indent=" " * indent,
        break_on_hyphens=False,
        break_long_words=False,
    ) or [(first or "").rstrip()]
    return [line.replace(_GLUE, " ") for line in lines]


def labelled(label: str, text: str, *, margin: int, column: int) -> list[str]:
    """Return a label at `margin` and its text in lines from `column` on."""
    head = " " * margin + label
    if len(head) >= column:
        return [*wrap(label, margin), *wrap(text, column)]
    return wrap(text, column, head.ljust(column))


def answered(label: str, text: str, answer: str, *, margin: int = 2, column: int = 18) -> list[str]:
    """Return a labelled text with the answer at the right edge of its first line."""
    room = WIDTH - max(len(answer), 8) - 2
    lines = []
    head = " " * margin + label
    if len(head) >= column and len(head) + 2 + len(text) <= room:
        lines = [f"{head}  {text}".rstrip()]
    elif len(head) >= column:
        # A long label gets lines of its own, and the answer stands beside the first.
        lines = [*wrap(label, margin, width=room), *wrap(text, column, width=room)]
    else:
        lines = wrap(text, column, head.ljust(column), width=room)
    lines[0] = lines[0].ljust(WIDTH - max(len(answer), 8)) + answer
    return [line.rstrip() for line in lines]


def table(rows: Sequence[Sequence[str]], *, margin: int = 2, gap: int = 2) -> list[str]:
    """Return rows in columns, the first to the left and the others to the right."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    lines = []
    for row in rows:
        cells = [row[0].ljust(widths[0])]
        cells += [cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)]
        lines.append((" " * margin + (" " * gap).join(cells)).rstrip())
    return lines


def ending_in_words(rows: Sequence[Sequence[str]], right: Sequence[int], longest: int) -> list[str]:
    """Return rows in columns of which the last holds words, in lines of their own where long.

    Parameters
    ----------
    rows : sequence of sequence of str
    right : sequence of int
        Columns whose cells stand to the right.
    longest : int
        A longer first cell has a line of its own.
    """
    heads = [row[0] if len(row[0]) <= longest else "" for row in rows]
    cells = [(head, *row[1:-1]) for head, row in zip(heads, rows, strict=True)]
    widths = [max(len(row[at]) for row in cells) for at in range(len(cells[0]))]
    lines = []
    for row, own in zip(rows, cells, strict=True):
        lines += wrap(row[0], 2) if not own[0] and row[0] else []
        placed = [
            cell.rjust(width) if at in right else cell.ljust(width)
            for at, (cell, width) in enumerate(zip(own, widths, strict=True))
        ]
        first = f"  {'  '.join(placed)}  "
        lines += wrap(row[-1], len(first), first)
    return lines


def section(title: str, remark: str = "") -> str:
    """Return the heading of a section, with a remark after it or at the right edge."""
    if not remark:
        return title
    gap = WIDTH - len(title) - len(remark)
    return f"{title}{' ' * max(gap, 2)}{remark}"
