"""U. C. Jindal, Machine Design, examples 16-1, 18-1 and 30-1.

Read in the FOSSEE textbook companion and recomputed; its 16-2, 16-3 and 28-3 do not reproduce
and are not used.
"""

import numpy as np
import pytest

from turnercalc.mechanics.friction import rolling_bearing_torque
from turnercalc.mechanics.screws import collar_torque, screw_raise_torque
from turnercalc.mechanics.teeth import (
    chain_length_in_pitches,
    open_belt_length,
    sprocket_pitch_diameter,
)


def test_example_16_1_screw_and_collar() -> None:
    # 30 mm outside, pitch 6 mm (mean 27 mm), 20 kN, f = 0.2, collar 0.15 at 12 mm radius:
    # 110.15 N m
    thread = screw_raise_torque(20e3, 0.027, 0.006, 0.2)
    assert thread + collar_torque(20e3, 0.024, 0.15) == pytest.approx(110.15, abs=0.006)


def test_example_18_1_bearing_loss() -> None:
    # 16 kN, 0.0011, bore radius 20 mm, 1440 rpm: 0.352 N m, 53.08 W
    torque = rolling_bearing_torque(16e3, 0.040, 0.0011)
    assert torque == pytest.approx(0.352, abs=0.0006)
    assert torque * 1440 * 2 * np.pi / 60 == pytest.approx(53.08, abs=0.006)


def test_example_30_1_chain_length() -> None:
    # 17 and 51 teeth, pitch 9.52 mm, centres 300 mm. The printed text rounds; 97.95 pitches
    # follows from its data. The exact loop round the pitch circles, chords for arcs left out,
    # is within a tenth of a pitch of it.
    pitches = chain_length_in_pitches(17, 51, 9.52, 300.0)
    assert pitches == pytest.approx(97.95, abs=0.006)
    circles = [sprocket_pitch_diameter(z, 9.52) for z in (17, 51)]
    assert open_belt_length(*circles, 300.0) / 9.52 == pytest.approx(pitches, abs=0.1)
