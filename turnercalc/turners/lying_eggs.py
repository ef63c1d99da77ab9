"""What files say of eggs that lie and roll, whatever rolls them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Annotated, Any, ClassVar

from pydantic import Field

from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields import Choice, LengthRange, Phrase, Section
from turnercalc.findings import Assumed
from turnercalc.tables import table
from turnercalc.tables.assuming import assumed_default
from turnercalc.turners.heavy_sides import IN_LINE, SCATTERED

ALONG = "on the side, along the axis"
#: Other words for it, as people see it who have bars before them.
ALONG_TOO: Mapping[str, str] = MappingProxyType(
    {"on the side, along the bars": ALONG, "along the bars": ALONG, "along": ALONG}
)


def table_words(name: str, kind: str, example: str, question: str) -> Phrase:
    """Return the phrase of a word that a table knows; it stays as the builder wrote it."""

    def read(text: str) -> str:
        try:
            table(name).row(text)
        except UnknownNameError as error:
            raise UnitError(str(error), text=text, choices=(example,)) from None
        return text.strip()

    return Phrase(kind, read, lambda value, _system, _digits: str(value), example, question)


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
    def assume(
        cls, given: Mapping[str, Any], context: Mapping[str, Mapping[str, Any]]
    ) -> Iterable[Assumed]:
        """Yield the guess for lopsided eggs, and that their heavy sides stand in line."""
        del context
        for name in ("off_centre", "heavy_sides"):
            if given.get(name) is None:
                yield assumed_default(f"eggs.{name}")
