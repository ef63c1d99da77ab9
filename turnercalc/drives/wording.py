"""How a drive speaks of its parts, so that nobody above it has to ask which drive it is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Wording:
    """The words for what moves the turner.

    Attributes
    ----------
    shaft : str
        What the motor turns or pushes, where a torque or force is told: ``at the crank``.
    ways : tuple of str
        Both directions, as heads and records say them.
    moving : str
        That it moves in a direction, without that: ``turning``, ``as the rod goes``.
    head : str
        What its position is called: column heads say it.
    bar : str
        The bar between drive and turner; empty where there is none.
    parts : str
        All that needs room beside the turner.
    goes_through : str
        That it gets through its whole cycle, as the beginning of a sentence.
    stays : str
        That it does not.
    set_by : str
        What must not be off, so that it gets through.
    ends_set_by : str
        What decides how alike both ends are.
    squarer : str
        What makes the bar stand more square to the arm.
    at_rest : str
        Why it holds at its ends, or that it does not by itself.
    can_rest : bool
        Whether it has rest points at all.
    play, pins, lengths : tuple of str
        Field paths: of its play, of what makes friction in it, of what sets its angles.
    """

    shaft: str = "the crank"
    ways: tuple[str, str] = ("anticlockwise", "clockwise")
    moving: str = "turning"
    head: str = "crank"
    bar: str = "link"
    parts: str = "crank and link"
    goes_through: str = "The crank goes all the way"
    stays: str = "the crank does not go all the way"
    set_by: str = "the link or the motor's place"
    ends_set_by: str = "Link length and the place of the shaft"
    squarer: str = "A longer link or a crank nearer under the arm's end helps."
    at_rest: str = "At a rest point crank and link are in line, and no weight can turn the crank."
    can_rest: bool = True
    play: tuple[str, ...] = ("link.pin_play",)
    pins: tuple[str, ...] = ("link.pin_diameter",)
    lengths: tuple[str, ...] = ("link.length",)


CRANK_AND_LINK = Wording()


def why_not(wording: Wording) -> tuple[str, ...]:
    """Return in words why a design does not go through, in the order of `drives.base.Passing`."""
    bar = wording.bar or "drive"
    return (
        "",
        f"the {bar} is too short",
        f"the {bar} is too long",
        "the drive does not go through",
        f"no {bar} of any length would do",
    )


def wording_of(drive: object) -> Wording:
    """Return a drive's own words, its attribute ``wording``; those of a crank where it has none."""
    found = getattr(drive, "wording", CRANK_AND_LINK)
    assert isinstance(found, Wording)
    return found
