"""Make the cells wider where the largest egg hardly fits."""

from collections.abc import Iterator
from math import ceil

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.checks.fit import ID
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield cells with just the play that is wanted around the largest egg."""
    fit = next((one for one in sizing.findings if one.id == ID), None)
    room = sizing.design["eggs"].cell_room
    if fit is None or fit.answer is Answer.FINE or room is None:
        return
    if fit.value is None or fit.limit_fine is None:
        return
    # In half millimetres, as they can be marked; rounded first, so that 49.0000001 stays 49.
    missing = fit.limit_fine - fit.value
    wanted = 0.5 * ceil(round(2.0 * (1e3 * room + missing), 6))
    text = millimetres(1e-3 * wanted)
    yield Proposal("wider_cells", {"eggs.cell_room": text}, f"Make the cells {text} wide.")
