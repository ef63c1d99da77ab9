"""What carries a tray from pivot to pivot: a section of the rack that may be left out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated

from pydantic import Field

from turnercalc.fields import Context, Count, Given, Length, Name, Section
from turnercalc.findings import Assumed
from turnercalc.tables.assuming import assumed_by_rule


class Rails(Section):
    """[rails]: the two sides of a tray, or whatever runs from its front pivot to the back one."""

    material: Annotated[Name, Field(description="What they are made of", examples=["softwood"])]
    height: Annotated[Length, Field(description="Of one rail", examples=["30 mm"])]
    thickness: Annotated[Length, Field(description="Of one rail", examples=["18 mm"])]
    count: Annotated[Count | None, Field(description="How many carry a tray", examples=["2"])] = (
        None
    )
    span: Annotated[
        Length | None,
        Field(description="From the front pivot to the back one", examples=["390 mm"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield two rails, as long as the box is deep."""
        if given.get("count") is None:
            yield assumed_by_rule("rails.count", "2")
        depth = context.get("box", {}).get("depth")
        if given.get("span") is None and depth:
            yield assumed_by_rule("rails.span", f"{1e3 * depth:.6g} mm")
