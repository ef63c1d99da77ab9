"""One word of this trade, as the glossary explains it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Word:
    """One word and what is meant by it.

    Attributes
    ----------
    name : str
        The word.
    text : str
        What it means, for a builder.
    also : tuple of str
        Other words people use for it.
    see : tuple of str
        Words that belong to it.
    """

    name: str
    text: str
    also: tuple[str, ...] = ()
    see: tuple[str, ...] = ()
