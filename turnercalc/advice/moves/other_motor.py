"""Take another motor of the same file."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the best other motor of the file, where the design names one that is not enough."""
    have = sizing.design["motor"].have
    if have is None or sizing.chosen is None:
        return
    others = [result for result in sizing.motors if result is not sizing.chosen]
    good = [result for result in others if result.verdict is Answer.FINE]
    for result in good[:1]:
        name = result.motor.id
        yield Proposal("other_motor", {"motor.have": name}, f"Take your motor {name} instead.")
