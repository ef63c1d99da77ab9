"""Put one more stage behind the motor, so that it turns slower and stronger."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.drives.wording import wording_of
from turnercalc.motors import trains
from turnercalc.sizing import Sizing

KIND = "chain"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield a chain of stock sprockets behind the motor, those that a motor's own line tells."""
    if sizing.chosen is None or sizing.drive.position_unit != "rad":
        return
    at = wording_of(sizing.drive).shaft
    number = len(sizing.stages.stages) + 1
    for (driver, driven), *more in trains(KIND):
        if more:
            continue
        yield Proposal(
            "add_stage",
            {
                f"gearing.{number}.kind": KIND,
                f"gearing.{number}.motor_teeth": str(driver),
                f"gearing.{number}.driven_teeth": str(driven),
            },
            f"Put a {driver}-to-{driven} tooth chain between the motor and {at}.",
        )
