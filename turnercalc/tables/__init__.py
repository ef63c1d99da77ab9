"""Tables of the trade and the one reader for them.

Every table is a CSV file in this folder with one row per fact (or per named thing), and every row
says where it comes from (``source``) and how it came to us (``how``). Where one row mixes facts
of different standing, its ``except`` cell names the columns that stand on something else.
Columns that hold a quantity carry its unit as the end of their name (``mass_g``); the reader knows
which columns a table must have and refuses a file whose heads, numbers or order of ranges differ.

`table` gives any table; `limit`, `default`, `friction_pair`, `runner_pair`, `stage_losses`,
`material` and `stock_teeth` give rows typed.
"""

from __future__ import annotations

from turnercalc.tables._columns import HOW
from turnercalc.tables._reader import Row, Table, table, table_names
from turnercalc.tables._typed import (
    Default,
    FrictionPair,
    Limit,
    Material,
    Range3,
    RunnerPair,
    StageLosses,
    default,
    defaults,
    friction_pair,
    limit,
    material,
    runner_pair,
    smooth_teeth,
    stage_losses,
    stock_teeth,
)

__all__ = [
    "HOW",
    "Default",
    "FrictionPair",
    "Limit",
    "Material",
    "Range3",
    "Row",
    "RunnerPair",
    "StageLosses",
    "Table",
    "default",
    "defaults",
    "friction_pair",
    "limit",
    "material",
    "runner_pair",
    "smooth_teeth",
    "stage_losses",
    "stock_teeth",
    "table",
    "table_names",
]
