"""What files say of eggs that lie and roll, whatever rolls them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Annotated, ClassVar

from pydantic import Field

from turnercalc.fields import Choice, Context, Given, LengthRange, Section
from turnercalc.findings import Assumed
from turnercalc.tables.assuming import assumed_default
from turnercalc.turners.heavy_sides import IN_LINE, SCATTERED

ALONG = "on the side, along the axis"
#: Other words for it, as people see it who have bars before them.
ALONG_TOO: Mapping[str, str] = MappingProxyType(
    {"on the side, along the bars": ALONG, "along the bars": ALONG, "along": ALONG}
)


class LopsidedEggs(Section):
    """[eggs]: how far from its axis the middle of an egg lies, and on which side."""

    extends: ClassVar[bool] = True

    off_centre: Annotated[
        LengthRange | None,
        Field(
            description="Centre of mass from the axis an egg turns on", examples=["0.5 to 1.5 mm"]
        ),
    ] = None
    heavy_sides: Annotated[
        str | None,
        Choice(
            IN_LINE,
            SCATTERED,
            help="How the heavy sides of the eggs stand: in line is the hardest there is",
        ),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield the guess for lopsided eggs, and that their heavy sides stand in line."""
        del context
        for name in ("off_centre", "heavy_sides"):
            if given.get(name) is None:
                yield assumed_default(f"eggs.{name}")
