"""Promise to fill and empty in mirror pairs about the middle."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

PROMISE = "in mirror pairs"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the promise, where eggs come and go in any order and the turner knows it."""
    middle = sizing.kind.measured_from.named
    for name in sizing.kind.sections:
        section = sizing.design.get(name)
        if getattr(section, "filled", None) == "in any order":
            yield Proposal(
                "fill_in_mirror_pairs",
                {f"{name}.filled": PROMISE},
                f"Fill and empty rows in mirror pairs about {middle}.",
            )
