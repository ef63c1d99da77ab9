"""Whether it stays where it stops with the motor off."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import newton_metres
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.motors import Demand

ID = "holding"
TITLE = "Holds"
FIELDS = ("motor.stopped_by",)
#: Less than this, at the motor's shaft, is held by any gearbox [N·m or N].
NOTHING = 5e-3


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what the parked trays ask of the resting motor; the motor's own check judges it."""
    demand = evidence.demand
    if demand is None:
        return
    place = "the rod" if demand.linear else "the motor's shaft"
    anywhere = demand.stopped_by == "timer"
    parked = demand.holding_anywhere if anywhere else demand.holding_torque
    if parked < NOTHING:
        where = "wherever it stops" if anywhere else "at both ends"
        how = "on its rest point" if evidence.ends.rests and not anywhere else "by friction"
        if not evidence.ends.rests and evidence.stages.holds("low"):
            how = "by the thread between motor and turner"
        text = f"It holds itself {where}, {how}, with the motor off."
        if demand.holding_anywhere >= NOTHING:
            text += (
                f" Stopped half way by a power cut, it pushes back with up to "
                f"{_told(demand, demand.holding_anywhere)} at {place}."
            )
    else:
        where = "wherever the timer stops it" if anywhere else "where it parks"
        text = f"The motor has to hold {_told(demand, parked)} {where}, switched off."
        if evidence.stages.holds("high"):
            text += (
                " The thread between may hold it and may not: shaking lowers its friction, so "
                "nobody should rely on it."
            )
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.FINE if parked < NOTHING else Answer.NOTE,
        text=text,
        value=parked,
        unit="N" if demand.linear else "N·m",
        reason=wording_of(evidence.drive).at_rest,
        source="statics of the linkage, with the least friction",
        fields=FIELDS,
    )


def _told(demand: Demand, load: float) -> str:
    """Return what is to be held, as a torque or as a force."""
    return units.show(load, "force") if demand.linear else newton_metres(load)
