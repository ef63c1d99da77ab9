"""Weight classes of the egg trade, as labels for a size of hens' eggs."""

from __future__ import annotations

from turnercalc.tables import Row, table

OUNCE = 0.028349523125  # kg, exact by definition (international avoirdupois pound, 1959)
DOZEN = 12


def us_class(mass: float) -> str:
    """Return the US weight class of an egg [kg]: Jumbo, Extra Large ... Peewee.

    The classes are made for dozens: an egg counts here as its dozen would if all were like it.
    Lighter than Peewee is ``below Peewee``.
    """
    return _class("US", mass)


def eu_class(mass: float) -> str:
    """Return the EU weight class of an egg [kg]: XL, L, M or S."""
    return _class("EU", mass)


def us_minimum(name: str) -> float:
    """Return the average mass of an egg [kg] of a dozen that just makes its US class."""
    return _minimum(table("weight_classes").row(f"US {name}"))


def _class(system: str, mass: float) -> str:
    lightest = ""
    for row in table("weight_classes").rows:  # heaviest class first
        if row.text("system") != system:
            continue
        lightest = row.text("label")
        # A hair of tolerance, so that 30 oz a dozen worked out in grams still makes its class.
        if mass >= _minimum(row) * (1 - 1e-9):
            return lightest
    return f"below {lightest}"


def _minimum(row: Row) -> float:
    per_dozen = row.maybe("minimum_per_dozen_oz")
    if per_dozen is not None:
        return per_dozen * OUNCE / DOZEN
    return row.si("minimum")
