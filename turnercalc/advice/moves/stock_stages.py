"""Put as many stages behind the motor as it takes, in teeth that shops keep."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.drives.wording import wording_of
from turnercalc.sizing import Sizing

KIND = "chain"
#: What a stage loses is made up by a ratio so much larger for each stage.
LOSS = 1.08
#: Ratios are tried from what is needed to so many times that.
ROOM = 1.3


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the stock train nearest above the ratio that makes the motor strong enough."""
    from turnercalc.advice.gears import nearest_trains

    chosen = sizing.chosen
    if chosen is None or not chosen.times_enough or sizing.drive.position_unit != "rad":
        return
    lacking = float(sizing.design["motor"].safety_factor) / chosen.times_enough
    if lacking <= 1.0:
        return
    at = wording_of(sizing.drive).shaft
    for stages in (1, 2):
        needed = lacking * LOSS**stages
        trains = nearest_trains(needed * ROOM**0.5, KIND, stages=stages, count=4)
        enough = [train for train in trains if needed <= train.ratio <= needed * ROOM]
        for train in enough[:1]:
            pairs = " and ".join(f"{a}-to-{b}" for a, b in train.pairs)
            what = f"a {pairs} tooth chain" if stages == 1 else f"{pairs} tooth chains"
            yield Proposal(
                "add_stage" if stages == 1 else "stock_stages",
                train.settings(len(sizing.stages.stages) + 1),
                f"Put {what} between the motor and {at}.",
                parts=stages,
            )
