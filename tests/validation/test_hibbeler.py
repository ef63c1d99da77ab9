"""Hibbeler and Gupta, Engineering Mechanics: Statics and Dynamics, examples 8.2 and 8.6.

Read in the FOSSEE textbook companion and recomputed.
"""

import numpy as np
import pytest

from turnercalc.mechanics.friction import slip_angle
from turnercalc.mechanics.rolling import dragging_push


def test_8_2_slide_angle() -> None:
    # slides at 25 degrees: coefficient 0.466
    assert np.degrees(slip_angle(0.466)) == pytest.approx(25.0, abs=0.03)


def test_8_6_pipe_pushed_up_a_slope() -> None:
    # 100 kg pipe, 20 degree slope, 0.15 on the ground, 0.4 at the pusher: it slides on the
    # ground and does not turn. NA = 1084.5 N, FA = FB = 162.7 N, P = 498.2 N
    push, ground, rubbing = dragging_push(100 * 9.81, np.radians(20), 0.15)
    assert ground == pytest.approx(1084.5, abs=0.1)
    assert rubbing == pytest.approx(162.7, abs=0.06)
    assert push == pytest.approx(498.2, abs=0.06)
    # the pusher could rub with 199.3 N, so it does not slip there first
    assert 0.4 * push == pytest.approx(199.3, abs=0.06)
    assert rubbing < 0.4 * push
