"""A word, a check, a limit, a motor class, a field or a formula, explained on one page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from difflib import get_close_matches
from functools import partial
from typing import TYPE_CHECKING

from turnercalc.derivations import topics
from turnercalc.errors import UnknownNameError
from turnercalc.handover.glossary import WORDS
from turnercalc.handover.layout import wrap
from turnercalc.handover.word import Word
from turnercalc.registry import plain
from turnercalc.tables import Default, Limit, Row, defaults, limit, table

if TYPE_CHECKING:
    from turnercalc.design import Design

Page = Callable[[], str]


def explain(words: str, design: Design | None = None, *, ascii_only: bool = False) -> str:
    """Return a page about whatever the words name.

    Parameters
    ----------
    words : str
        A word of the trade, a check, a limit, a class of motor, a field of the design file or a
        formula, spelt any way.
    design : Design, optional
        For a formula: whose numbers to put in.
    ascii_only : bool
        For a formula: leave out signs that a bare terminal does not have.

    Raises
    ------
    UnknownNameError
        Nothing has this name; the message names the nearest.
    """
    wanted = plain(words)
    pages = _pages(design, ascii_only)
    if wanted in pages:
        return "\n\n".join(page() for page in pages[wanted])
    checked = _check_pages(wanted)
    if checked:
        return "\n\n".join(checked)
    alike = sorted({name for name in pages if wanted and wanted in name.split()})
    near = get_close_matches(wanted, pages, n=3, cutoff=0.6) or alike[:4]
    hint = f"Nearest: {', '.join(near)}. " if near else ""
    raise UnknownNameError(
        f'There is nothing called "{words.strip()}" to explain. {hint}'
        "The whole list: turnercalc explain"
    )


def contents() -> str:
    """Return everything there is to explain, as a page."""
    lines = ["There is something to say about each of these.", ""]
    for title, names in (
        ("WORDS", [word.name for word in WORDS]),
        (
            "FORMULAS   (--design my.toml puts your numbers in)",
            [_spoken(topic) for topic in topics()],
        ),
        ("LIMITS of the checks", [_spoken(row.text("id")) for row in table("limits").rows]),
        ("MOTORS", [_spoken(row.text("id")) for row in table("motor_classes").rows]),
    ):
        lines += [title, *wrap(", ".join(names) + ".", 2), ""]
    lines += wrap("Any field of a design file too, such as link.pin_play.")
    return "\n".join(lines)


def _pages(design: Design | None, ascii_only: bool) -> dict[str, list[Page]]:
    """Return every name that can be explained and what makes its pages.

    A word that is also the name of a check or a field has both pages. Other names of a motor
    class count only where nothing is called so itself.
    """
    pages: dict[str, list[Page]] = {}

    def offer(name: str, page: Page) -> None:
        pages.setdefault(plain(name), []).append(page)

    for name, page in _words():
        offer(name, page)
    for name in _formula_names():
        offer(name, partial(_formula_page, name, design, ascii_only))
    for row in table("limits").rows:
        offer(row.text("id"), partial(limit_page, limit(row.text("id"))))
    for default in defaults():
        offer(default.field, partial(field_page, default))
    for row in table("motor_classes").rows:
        offer(row.text("id"), partial(motor_class_page, row))
    for name, page in _other_names():
        if plain(name) not in pages:
            offer(name, page)
    return pages


def _words() -> Iterator[tuple[str, Page]]:
    """Yield every word of the glossary under each of its names."""
    for word in WORDS:
        for name in (word.name, *word.also):
            yield name, partial(word_page, word)


def _formula_names() -> Iterator[str]:
    """Yield the topics and then the names of the formulas under them."""
    for topic, formulas in topics().items():
        yield from (topic, *formulas)


def _other_names() -> Iterator[tuple[str, Page]]:
    """Yield every other name that people use, and its page."""
    for row in table("motor_classes").rows:
        for name in (row.text("name"), *row.text("aliases").split(";")):
            yield name, partial(motor_class_page, row)


def _check_pages(wanted: str) -> list[str]:
    """Return the pages of the checks whose label on the page is meant; none if there are none."""
    from turnercalc import checks  # with all that they need: only where nothing else is meant

    limits = {row.text("id") for row in table("limits").rows}
    pages = []
    for title, asked in checks.questions().items():
        if plain(title) != wanted:
            continue
        for id_, question in asked:
            lines = [title.upper(), "", *wrap(f"This line of the page answers: {question}", 2)]
            pages.append("\n".join(lines))
            if id_ in limits:
                pages.append(limit_page(limit(id_)))
    return pages


def word_page(word: Word) -> str:
    """Return the page of one word."""
    lines = [word.name.upper(), "", *wrap(word.text, 2)]
    if word.also:
        lines += ["", *wrap(", ".join(word.also) + ".", 2 + len("Also said: "), "  Also said: ")]
    if word.see:
        lines += ["", *wrap(", ".join(word.see) + ".", 2 + len("See: "), "  See: ")]
    return "\n".join(lines)


def limit_page(found: Limit) -> str:
    """Return the page of one limit: where fine ends, where no begins, why, and who says so."""
    unit = f" {_unit_word(found.unit)}" if found.unit else ""
    lines = [_spoken(found.id).upper(), ""]
    if found.fine is not None:
        lines.append(f"  Fine   {found.sense} {found.fine:g}{unit}")
    if found.no is not None:
        side = "below" if found.sense == "at least" else "above"
        lines.append(f"  No     {side} {found.no:g}{unit}")
    if found.fine is not None and found.no is not None and found.fine != found.no:
        lines.append("  Marginal in between")
    lines += ["", *wrap(found.reason, 2), "", *_source(found.source, found.how)]
    return "\n".join(lines)


def field_page(default: Default) -> str:
    """Return the page of one field of the design file: what is taken where it is left out."""
    said = {
        "value": "If you leave it out this is taken, and said so:",
        "rule": "If you leave it out this is taken, and said so:",
        "unknown": "If you leave it out it stays unknown:",
        "required": "It has to be said; there is no default:",
    }[default.kind]
    lines = [default.field, "", *wrap(f"{said} {default.text}.", 2), ""]
    lines += _source(default.source, default.how)
    section = default.field.split(".")[0]
    lines += ["", *wrap(f"It stands in the [{section}] part of a design file.", 2)]
    return "\n".join(lines)


def motor_class_page(row: Row) -> str:
    """Return the page of one class of motor: what counts of its listed figures, and its habits."""
    share = row.maybe("share_that_counts")
    lines = [row.text("name").upper(), "", *wrap(row.text("note"), 2), ""]
    if share is not None:
        lines += wrap(
            f"Of a listed {row.text('counted_figure')} torque {share:.0%} counts where no rated "
            "torque is listed.",
            2,
        )
    lines += wrap(f"Which way it starts: {row.text('start_direction')}.", 2)
    lines += wrap(f"Holds when off: {row.text('holds_when_off')}.", 2)
    low, high = row.maybe("speed_low_rpm"), row.maybe("speed_high_rpm")
    if low is not None and high is not None:
        lines += wrap(f"Usual speeds: {low:g} to {high:g} rpm.", 2)
    low, high = row.maybe("torque_low_Nm"), row.maybe("torque_high_Nm")
    if low is not None and high is not None:
        lines += wrap(f"Usual torques: {low:g} to {high:g} N·m.", 2)
    lines += ["", *_source(row.source, row.how)]
    return "\n".join(lines)


def _formula_page(name: str, design: Design | None, ascii_only: bool) -> str:
    # SymPy is loaded here and nowhere else in the running program.
    from turnercalc.handover.formulas import formula_page

    return formula_page(name, design, ascii_only=ascii_only)


def _source(source: str, how: str) -> list[str]:
    remark = "" if how in source else f" ({how})"
    return wrap(f"{source}{remark}", 2 + len("Source: "), "  Source: ")


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _unit_word(unit: str) -> str:
    return {"deg": "degrees", "degC": "°C", "g0": "g", "count": "", "ratio": ""}.get(unit, unit)
