"""Starter files: one commented design for each way of turning, found by looking at the folder."""

from __future__ import annotations

from importlib.resources import files

from turnercalc.design.names import exact, nearest
from turnercalc.design.optional import write_everything
from turnercalc.design.reader import read_design
from turnercalc.errors import UnknownNameError

_FOLDER = files(__package__ or "turnercalc.design").joinpath("starters")


def starter_names() -> tuple[str, ...]:
    """Return the words that may stand behind ``turnercalc start``."""
    names = [item.name for item in _FOLDER.iterdir() if item.name.endswith(".toml")]
    return tuple(sorted(name.removesuffix(".toml") for name in names))


def starter_text(word: str, *, everything: bool = False) -> str:
    """Return a starter file.

    Parameters
    ----------
    word : str
        One of `starter_names`.
    everything : bool
        Whether to list every optional field too, with what is taken for granted without it.

    Raises
    ------
    UnknownNameError
        There is no such starter; the message names the nearest.
    """
    known = starter_names()
    name = exact(word, known)
    if name is None:
        near = nearest(word, known)
        hint = f"Nearest: {near}." if near else f"There are: {', '.join(known)}."
        raise UnknownNameError(f'There is no starter "{word}". {hint}')
    text = _FOLDER.joinpath(f"{name}.toml").read_text(encoding="utf-8")
    return write_everything(read_design(text)) if everything else text
