"""How a turner speaks of its coordinate, so that nobody above it has to ask which turner it is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Wording:
    """The words for where the moving part is.

    Attributes
    ----------
    coordinate : str
        What the coordinate is called: column heads and axes say it.
    moving : str
        What moves, with its eggs in, as a sentence needs it: ``full trays``.
    middle : str
        Where q = 0 is.
    high, low : str
        What is said behind an amount above and below it.
    away, back : str
        On its way from the middle, and to it.
    sign : str
        What a positive figure of the coordinate means.
    falls : bool
        Whether weight moves it by itself once nothing holds it.
    """

    coordinate: str = "tilt"
    moving: str = "full trays"
    middle: str = "level"
    high: str = "left side down"
    low: str = "right side down"
    away: str = "going down"
    back: str = "coming up"
    sign: str = "left side down"
    falls: bool = True


TILTING = Wording()


def wording_of(turner: object) -> Wording:
    """Return a turner's own words, its attribute ``wording``; those of a tray where it has none."""
    found = getattr(turner, "wording", TILTING)
    assert isinstance(found, Wording)
    return found
