"""Give every egg on the bars its place: cross stops that fit, no more than there is room for."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.sizing import Sizing

PLAY = 0.006  # m, 3 mm at each end of the longest egg


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield stops that leave the longest egg free, with fewer eggs where the bars are too short."""
    bars = sizing.design.get("bars")
    if bars is None or sizing.reason.id != "cross_stops":
        return
    spacing = sizing.ingredients.lot.largest.length + PLAY
    fit = int(bars.length / spacing)
    text = millimetres(spacing)
    settings = {"bars.stop_spacing": text}
    say = f"Set the cross stops {text} apart"
    if fit < bars.eggs_per_lane:
        settings["bars.eggs_per_lane"] = f"{fit}"
        say += f", for {fit} eggs in a lane"
    if fit:
        yield Proposal("stops_that_fit", settings, f"{say}.")
