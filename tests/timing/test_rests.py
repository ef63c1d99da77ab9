"""The share of the day at the ends: a rest on the threshold is a rest beyond it."""

import numpy as np
import pytest

from turnercalc.timing.rests import share_beyond

MOVE = np.linspace(-1.0, 1.0, 201)


@pytest.mark.parametrize(("rest", "share"), [(1.0, 1.0), (0.9996, 1.0), (0.99, 0.0)])
def test_a_rest_on_the_threshold_counts(rest: float, share: float) -> None:
    speed = np.full(201, 1.0)
    found = share_beyond(MOVE * rest, MOVE, speed, (-rest, rest), 1.0, interval=2e6)
    assert found == pytest.approx(share, abs=2e-6)
