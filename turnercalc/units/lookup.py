"""Which unit a spelling stands for, and what an amount of it is in SI."""

from __future__ import annotations

import re
from functools import lru_cache

from turnercalc.errors import UnitError
from turnercalc.units.registry import factor, offset
from turnercalc.units.spellings import MILLI_OR_MEGA, SPELLINGS, Unit, key

_PER = re.compile(r" per | ?/ ?", re.I)


def to_si(amount: float, unit: Unit) -> float:
    """Return an amount of a unit in SI."""
    if unit.inverse:
        if amount == 0.0:
            message = f"0 {unit.symbol} would be endlessly fast."
            raise UnitError(message, text=f"0 {unit.symbol}")
        return factor(unit.definition) / amount
    return amount * factor(unit.definition) + offset(unit.definition)


@lru_cache(maxsize=4096)
def find_unit(spelling: str, kind: str) -> Unit | None:
    """Return the unit of this kind that is spelt so, or None."""
    if spelling == "" and kind not in ("count", "ratio"):
        return None
    spelling = _PER.sub("/", f"{spelling} ").strip(" ,;")
    unit = SPELLINGS[kind].get(key(spelling))
    if unit is not None and spelling.startswith("M") and key(spelling) in MILLI_OR_MEGA:
        milli = "m" + spelling[1:]
        message = (
            f'Is "{spelling}" a thousandth or a million? Small m stands for milli: write {milli}.'
        )
        raise UnitError(message, text=spelling, choices=(f"1 {milli}",))
    return unit
