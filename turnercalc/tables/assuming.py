"""From a row of the defaults table to something taken for granted."""

from __future__ import annotations

from turnercalc.findings import Assumed
from turnercalc.tables import default


def assumed_default(field: str) -> Assumed:
    """Return the constant default of a field path."""
    row = default(field)
    return Assumed(field, row.text, row.source, row.how)


def assumed_by_rule(field: str, text: str) -> Assumed:
    """Return a default worked out from other fields, with the rule that the table names."""
    row = default(field)
    return Assumed(field, text, f"{row.text}: {row.source}", row.how)
