"""Shares of the day near the ends and near level."""

import numpy as np
import pytest

from turnercalc.timing.rests import share_beyond

POSITION = np.linspace(0.0, np.pi, 181)
TILT = np.radians(-45.0) * np.cos(POSITION)
EVEN = np.full(181, np.pi / 60.0)  # one move in 60 s
LEVEL = np.radians(40.0)


# |45 cos x| is under 40 degrees for all but acos(8/9) at either end: 1 - 2 acos(8/9)/pi = 0.697
# of the move (arithmetic).
def test_ends_count_for_the_rest_and_the_move_for_its_share() -> None:
    under = 1.0 - 2.0 * np.arccos(40.0 / 45.0) / np.pi
    ends = (np.radians(-45.0), np.radians(45.0))
    found = share_beyond(TILT, POSITION, EVEN, ends, LEVEL, 3600.0)
    assert found == pytest.approx(1.0 - under * 60.0 / 3600.0, abs=1e-4)


# Tilted to one side and put back to level at once, then to the other side and back: the cycle
# that hatched worse in every position of the eggs (Buhr 1989, Poultry Sci. 68:1603).
def test_a_cycle_that_parks_in_the_middle_spends_the_day_there() -> None:
    assert share_beyond(TILT, POSITION, EVEN, (0.0, 0.0), LEVEL, 3600.0) < 0.01


def test_one_park_on_each_side_and_one_in_the_middle_is_two_thirds() -> None:
    rests = (np.radians(-45.0), 0.0, np.radians(45.0))
    quick = np.full(181, 1e6)
    found = share_beyond(TILT, POSITION, quick, rests, LEVEL, 3600.0)
    assert found == pytest.approx(2.0 / 3.0)


def test_a_move_that_never_ends_leaves_no_share() -> None:
    stands = EVEN.copy()
    stands[90] = 0.0
    assert np.isnan(share_beyond(TILT, POSITION, stands, (0.8,), LEVEL, 3600.0))
    assert np.isnan(share_beyond(TILT, POSITION, EVEN, (0.8,), LEVEL, 30.0))
