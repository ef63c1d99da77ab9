"""A slot beside the holes of its arm, and the tie bar that passes it: by hand from the lengths."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc.design import read_design
from turnercalc.findings import Answer, Finding
from turnercalc.parts.slots import from_line
from turnercalc.sizing import size

CUPBOARD = Path(__file__).parents[2] / "examples" / "tool-cupboard-rack.toml"
#: Two trays whose arms point right, the slot along the lower one.
TWO = {
    "trays.count": "2",
    "trays.pitch": "150 mm",
    "box.height": "600 mm",
    "arm.points": "right",
    "crank.across": "150 mm right of pivot",
    "crank.height": "0 mm below pivot",
    "crank.radius": "100 mm",
}


@cache
def _found(settings: tuple[tuple[str, str], ...]) -> dict[str, Finding]:
    sizing = size(read_design(CUPBOARD, dict(settings)))
    return {finding.id: finding for finding in sizing.findings}


def found(settings: dict[str, str]) -> dict[str, Finding]:
    return _found(tuple(sorted(settings.items())))


def test_what_the_slot_leaves_beside_the_pivot() -> None:
    # The crank pin comes within 130 - 87 mm of the pivot; the slot ends 2 mm further, is 19.2 mm
    # wide and round there, and the pivot's hole is one of 8 mm.
    one = found({})["slot_wall"]
    assert one.answer is Answer.FINE
    assert one.value == pytest.approx(130 - 87 - 2 - 19.2 / 2 - 8 / 2)
    # A longer crank comes nearer to the pivot.
    near = found({"crank.radius": "110 mm"})["slot_wall"]
    assert near.answer is Answer.MARGINAL
    assert near.value == pytest.approx(130 - 110 - 2 - 19.2 / 2 - 8 / 2)
    assert "pivot" in near.text


def test_a_pin_of_the_tie_bar_in_the_way_of_the_crank_pin() -> None:
    # The slot reaches from 50 to 250 mm: an arm pin at 130 mm stands in the middle of it.
    inside = found({**TWO, "arm.length": "130 mm"})
    assert inside["slot_wall"].answer is Answer.NO
    assert inside["slot_wall"].value == pytest.approx(-(19.2 + 8) / 2)
    assert "arm pin" in inside["slot_wall"].text
    assert inside["slot_layers"].answer is Answer.NOTE
    # Beyond its far end, at 250 + 2 mm, both are clear.
    beyond = found({**TWO, "arm.length": "300 mm"})
    assert beyond["slot_wall"].value == pytest.approx(300 - 250 - 2 - (19.2 + 8) / 2)
    assert "slot_layers" not in beyond


def test_where_there_is_no_slot_nothing_is_said() -> None:
    rack = CUPBOARD.with_name("larder-rack.toml")
    ids = {finding.id for finding in size(read_design(rack)).findings}
    assert not ids & {"slot_wall", "slot_layers"}


def test_the_distance_from_a_line_between_two_ends() -> None:
    start, end = (np.zeros(3), np.zeros(3)), (np.full(3, 4.0), np.zeros(3))
    apart = from_line(np.array([2.0, -3.0, 7.0]), np.array([1.5, 4.0, -4.0]), start, end)
    assert apart == pytest.approx([1.5, 5.0, 5.0])
