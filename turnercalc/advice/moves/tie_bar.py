"""Make the tie bar lighter: it hangs on the arms and pulls one side down."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield a tie bar of half the weight."""
    bar = sizing.design.get("tie_bar")
    if bar is not None and bar.weight > 0.02:
        text = f"{round(500 * bar.weight):g} g"
        yield Proposal(
            "lighter_tie_bar", {"tie_bar.weight": text}, f"Make the tie bar half as heavy, {text}."
        )
