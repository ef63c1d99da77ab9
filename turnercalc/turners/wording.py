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
    from_middle : str
        What has to stand behind an amount that is measured from the middle.
    high, low : str
        What is said behind an amount above and below it.
    away, back : str
        On its way from the middle, and to it.
    sign : str
        What a positive figure of the coordinate means.
    falling : str
        What happens then, and what to do about it.
    sides : tuple of str
        In a word each, where it is above and below the middle.
    keys : tuple of str
        The same for records: what stands before the unit of either end, counted as positive.
    lever : str
        What the angle of a link is told against: the arm, or the square to a slide.
    astray : str
        What a link does that stands too flat to it.
    falls : bool
        Whether weight moves it by itself once nothing holds it.
    middle_counts : bool
        Whether eggs that rest in the middle are as good as not turned; else only how far one
        rest is from the next counts.
    anywhere : bool
        Whether it may stand anywhere, because only how far it goes in a move counts.
    """

    coordinate: str = "tilt"
    moving: str = "full trays"
    middle: str = "level"
    from_middle: str = ""
    high: str = "left side down"
    low: str = "right side down"
    away: str = "going down"
    back: str = "coming up"
    sign: str = "left side down"
    falling: str = "loaded trays swing down by themselves. Prop them"
    sides: tuple[str, str] = ("left", "right")
    keys: tuple[str, str] = ("left_down", "right_down")
    lever: str = "arm"
    astray: str = "pushes at the {origin} more than it turns the arm"
    falls: bool = True
    middle_counts: bool = True
    anywhere: bool = False


TILTING = Wording()


def wording_of(turner: object) -> Wording:
    """Return a turner's own words, its attribute ``wording``; those of a tray where it has none."""
    found = getattr(turner, "wording", TILTING)
    assert isinstance(found, Wording)
    return found
