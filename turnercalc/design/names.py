"""Names in a design file: what was meant by a name that does not exist."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from turnercalc.design.prereader import fold

# Words builders use for a section or field that is called something else here.
_ALSO_CALLED = {
    "rod": "link",
    "con_rod": "link",
    "conrod": "link",
    "push_rod": "link",
    "pushrod": "link",
    "connecting_rod": "link",
    "disc": "crank",
    "disk": "crank",
    "cam": "crank",
    "lever": "arm",
    "horn": "arm",
    "pivot": "pivots",
    "axles": "pivots",
    "bearings": "pivots",
    "tray": "trays",
    "shelves": "trays",
    "racks": "trays",
    "egg": "eggs",
    "species": "kind",
    "incubator": "box",
    "cabinet": "box",
    "gearmotor": "motor",
    "gear": "gearing",
    "gears": "gearing",
    "stage": "gearing",
    "stages": "gearing",
    "load": "loads",
    "title": "name",
    "mechanism": "turner",
    "mass": "weight",
    "angle": "tilt",
    "spacing": "pitch",
    "distance": "pitch",
    "centre_distance": "pitch",
    "center_distance": "pitch",
}


def exact(name: str, known: Iterable[str]) -> str | None:
    """Return the known name that `name` is, apart from case, spaces, hyphens and underscores."""
    wanted = _squeezed(name)
    return next((candidate for candidate in known if _squeezed(candidate) == wanted), None)


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Return the known name that was most likely meant, or None where nothing comes near."""
    names = list(known)
    other_word = _ALSO_CALLED.get(fold(name))
    if other_word in names:
        return other_word
    squeezed = {_squeezed(candidate): candidate for candidate in names}
    close = get_close_matches(_squeezed(name), squeezed, n=1, cutoff=0.65)
    if close:
        return squeezed[close[0]]
    return _by_word(fold(name), names)


def _by_word(name: str, names: list[str]) -> str | None:
    """Return the only known name that shares a whole word: ``motor_supply`` gives ``supply``."""
    words = set(name.split("_"))
    sharing = [candidate for candidate in names if words & set(candidate.split("_"))]
    return sharing[0] if len(sharing) == 1 else None


def _squeezed(name: str) -> str:
    return fold(name).replace("_", "")
