"""Lengths as a design file says them."""

from __future__ import annotations

from turnercalc.design import Design
from turnercalc.design.writer import schema_of
from turnercalc.fields import field_info, to_text

#: Kinds of field that say a place, by the end of the path, where no design is at hand.
PLACES = {"across": "across from pivot", "height": "height from pivot"}


def setting(path: str, value: float, system: str = "metric") -> str:
    """Return a length of crank, link, arm or motor place as text [m]."""
    return to_text(value, PLACES.get(path.rpartition(".")[2], "length"), system)


def setting_of(design: Design, path: str, value: float, system: str = "metric") -> str:
    """Return the text of any field of a design that holds one number, in SI."""
    section, _, name = path.rpartition(".")
    model = schema_of(design).sections[section.partition(".")[0]]
    return to_text(value, field_info(model, name).kind, system)
