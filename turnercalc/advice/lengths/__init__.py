"""Find lengths: what to make so that it turns as wanted, fits, and can be marked with a rule.

One file for each drive or turner whose lengths can be found, found by looking at the folder. It
offers ``SUITS(design)``, ``find(design, wish)`` and ``FIELDS``, what it looks for, with ``ARM``
where it looks for an arm too. Every suggestion is sized in full; what it promises is read off that
sizing.
"""

from __future__ import annotations

import math
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType

from turnercalc.advice.asked import need_design, spans
from turnercalc.advice.lengths.wish import Lengths, Promise, Suggestion, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.errors import AskedError
from turnercalc.swing import lengths

__all__ = ["Lengths", "Promise", "Suggestion", "Wish", "find_lengths"]


@cache
def finders() -> tuple[ModuleType, ...]:
    """Return every finder, in alphabetical order."""
    modules = (import_module(f"{__name__}.{info.name}") for info in iter_modules(__path__))
    return tuple(module for module in modules if hasattr(module, "SUITS"))


def find_lengths(design: Design, wish: Wish | None = None) -> Lengths:
    """Return sets of lengths for a design, best first, or the reason why there is none.

    Parameters
    ----------
    design : Design
        Its lengths are where the search starts; box, eggs, trays and wanted tilt are kept.
    wish : Wish, optional
        What is allowed of each field, and in what steps lengths can be marked.

    Raises
    ------
    DesignError, CombinationError
        The design cannot be built at all.
    UnknownNameError, AskedError
        The wish names a field that there is not, or its range is none.
    """
    need_design(design)
    wish = wish or Wish()
    spans(design, wish.within, "range")
    for finder in finders():
        if finder.SUITS(design):
            refuse_what_stays(design, wish, finder)
            found: Lengths = finder.find(design, wish)
            return found
    return Lengths(
        (),
        f"For a {design.turner.replace('_', ' ')} with a {design.drive.replace('_', ' ')} there "
        "are no lengths to find.",
    )


def refuse_what_stays(design: Design, wish: Wish, finder: ModuleType) -> None:
    """Refuse a range of a field that is not looked for: it would change nothing, unsaid.

    A length of turner or drive that stays is taken where it lies in its range as it is.
    """
    if not wish.within:
        return
    built = build(design)
    arms = list(built.turner.dimensions.values()) if getattr(finder, "ARM", False) else []
    looked_for = [*finder.FIELDS, *(arms if len(arms) == 1 else ())]
    staying = lengths(built.turner, built.drive)
    for path, (low, high) in wish.within.items():
        if path in looked_for or low - 1e-9 <= staying.get(path, math.nan) <= high + 1e-9:
            continue
        raise AskedError(
            f"{path} stays as the file says it. What is looked for: {', '.join(looked_for)}."
        )
