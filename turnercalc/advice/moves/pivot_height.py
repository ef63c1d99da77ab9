"""Move the pivots up or down on the trays: the strongest lever on a top-heavy or low-slung rack."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, from_pivot, millimetres
from turnercalc.sizing import Sizing

STEPS = (-0.020, -0.010, 0.010, 0.020)  # m, up is +


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield pivots a few millimetres higher or lower on the trays."""
    trays = sizing.design.get("trays")
    if trays is None:
        return
    for step in STEPS:
        places = {
            f"trays.{name}": from_pivot(getattr(trays, name) - step)
            for name in ("egg_floor", "balance", "underside")
        }
        way = "higher" if step > 0 else "lower"
        yield Proposal(
            "move_pivots",
            places,
            f"Drill the tray pivots {millimetres(abs(step))} {way} on the trays.",
        )
