"""What is wrong with a filling that a builder gives place by place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence


def wrong_filling(
    field: str,
    eggs: Sequence[int],
    count: int,
    room: int,
    place: str,
    places: str = "",
    *,
    shown_to: int = 60,
) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Yield eggs for places that there are not, or more of them than one holds.

    Parameters
    ----------
    field : str
        Of the load's section.
    eggs : sequence of int
        In every place, as given.
    count, room : int
        How many places there are, and how many eggs go into one.
    place, places : str
        What a place is called, and several of them where that is not an s more.
    shown_to : int
        With more places than this no example is written out.

    Yields
    ------
    (field, what is wrong, examples of what would be accepted)
    """
    example = (str([room] * count),) if count <= shown_to else ()
    if len(eggs) != count:
        message = (
            f"The number of {places or place + 's'} is {count}, and eggs for {len(eggs)} are given."
        )
        yield field, message, example
    elif not all(0 <= inside <= room for inside in eggs):
        yield field, f"A {place} holds 0 to {room} eggs.", example
