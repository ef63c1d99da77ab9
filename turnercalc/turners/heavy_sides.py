"""How the heavy sides of rolling eggs may stand: words of files, and an axis of load cases."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

#: What a file says of them, hardest first.
IN_LINE, SCATTERED = "in line", "scattered"
#: How they stand half way through a move, along the last axis of a load's cells: all to the left,
#: all to the right, or scattered with what is left over to the left or to the right. Heavy sides
#: to the left hinder eggs that roll to the right, and bars that turn anticlockwise.
PHASES = ("left", "right", "scattered left", "scattered right")
PHASES_OF: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {IN_LINE: PHASES[:2], SCATTERED: PHASES[2:]}
)
