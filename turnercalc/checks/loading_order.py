"""In which order to fill the shelves, so that the drum is never more one-sided than it has to."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum, shelf_words
from turnercalc.checks.wording import newton_metres
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.turners.drum_loads import loading_order, order_moments

ID = "loading_order"
TITLE = "Filling order"
FIELDS = ("drum.filled",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the order of filling that keeps the imbalance least, and how large it then gets."""
    drum = on_drum(evidence)
    if drum is None:
        return
    order = loading_order(drum.shelves, 1.0, drum.empty_in_shelves)
    shelf = drum.eggs_per_shelf * drum.egg_mass * float(drum.shelf_radius) * STANDARD_GRAVITY
    most = shelf * float(order_moments(order, 1.0, drum.empty_in_shelves).max())
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=f"Fill shelf after shelf in the order {shelf_words(order)}, and empty them the other "
        f"way round: never more than {newton_metres(most)} one-sided.",
        value=most,
        unit="N·m",
        reason="Opposite shelves, or shelves spread evenly, balance each other.",
        source="sum of the arrows of the filled shelves, over every order",
        fields=FIELDS,
    )
