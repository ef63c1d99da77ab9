"""What a builder said reaches the objects that are computed."""

from __future__ import annotations

import pytest

from turnercalc.building import build, gather
from turnercalc.design import read_design
from turnercalc.design.starter import starter_text

RACK = read_design(starter_text("rack"))


def test_the_eggs_that_were_measured_are_the_eggs_that_are_computed() -> None:
    lot = gather(RACK).lot
    assert (lot.typical.length, lot.typical.breadth) == pytest.approx((0.058, 0.044))
    assert (lot.largest.length, lot.largest.breadth) == pytest.approx((0.062, 0.0465))
    assert (lot.smallest.length, lot.smallest.breadth) == pytest.approx((0.054, 0.041))
    assert lot.typical.mass == pytest.approx(0.725 / 12)


def test_a_longer_egg_stands_higher() -> None:
    longer = RACK.replace({"eggs.typical": "61 x 44 mm"})
    assert gather(longer).seating.centre_height > gather(RACK).seating.centre_height + 0.0005


@pytest.mark.parametrize(
    ("held", "lie", "sizes"),
    [
        ("round holes", "big end up", {"eggs.hole": "36 mm"}),
        ("foam cups", "big end up", {"eggs.cup_depth": "20 mm"}),
        ("troughs", "on the side, along the axis", {"eggs.trough_angle": "80 deg"}),
        ("foam and net", "big end up", {}),
    ],
)
def test_every_way_of_holding_can_be_built(held: str, lie: str, sizes: dict[str, str]) -> None:
    design = RACK.replace({"eggs.held_by": held, "eggs.lie": lie, **sizes})
    assert build(design).ingredients.seating.centre_height > 0.01
