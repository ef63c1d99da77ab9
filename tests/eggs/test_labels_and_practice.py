"""Weight classes at their edges, and what counts as turning."""

import math

import pytest

from turnercalc.eggs.classes import eu_class, us_class
from turnercalc.eggs.practice import (
    dwells_at_ends,
    evidence,
    is_turn,
    quiet_days,
    tilt_limit,
    turns_until,
)

DEG = math.pi / 180


def test_lighter_than_the_lightest_class():
    assert us_class(0.030) == "below Peewee"
    assert eu_class(0.010) == "S"


def test_heavier_than_the_heaviest_class():
    assert us_class(0.090) == "Jumbo"
    assert eu_class(0.090) == "XL"


@pytest.mark.parametrize(
    ("stations", "turning"),
    # Buhr 1989, Poultry Sci. 68:1603: eggs put back to the middle at once hatched worse
    [
        ((45, -45), True),
        ((45, 0, -45, 0), False),  # out to a side and back to level each time
        ((45, 0), False),
        ((45,), False),
        ((50, -38), True),
        ((45, 20), False),
    ],
)
def test_eggs_must_rest_at_both_ends(stations, turning):
    assert dwells_at_ends(tuple(s * DEG for s in stations), 35 * DEG) is turning


def test_only_a_real_change_of_sides_is_a_turn():
    assert is_turn(90 * DEG)
    assert is_turn(60 * DEG)
    assert not is_turn(40 * DEG)


def test_often_means_ninety_six():
    assert tilt_limit(95).id == "tilt_each_side"
    assert tilt_limit(96).id == "tilt_each_side_often"


def test_half_a_day_is_half_the_turns():
    assert turns_until(0.5, 24) == 12
    assert turns_until(15, 24) == 360
    assert quiet_days(17, 15) == 2


def test_evidence_by_topic():
    assert all(found.topic == "angle" for found in evidence("angle"))
    assert len(evidence()) > len(evidence("angle")) > 5
