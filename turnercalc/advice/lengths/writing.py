"""Lengths as a design file says them."""

from __future__ import annotations

from typing import Any

from turnercalc.design import Design
from turnercalc.design.writer import schema_of
from turnercalc.fields import field_info, to_text


def setting_of(design: Design, path: str, value: Any, system: str = "metric") -> str:
    """Return the text of any field of a design that holds one number, in SI, or one thing."""
    section, _, name = path.rpartition(".")
    model = schema_of(design).sections[section.partition(".")[0]]
    return to_text(value, field_info(model, name).kind, system)


def quantity_of(design: Design, path: str) -> str:
    """Return the kind of quantity that a field holds, a kind of `turnercalc.units`; or empty."""
    section, _, name = path.rpartition(".")
    model = schema_of(design).sections[section.partition(".")[0]]
    return field_info(model, name).phrase.quantity or ""
