"""Tables that stand in every handbook: sprockets, toothed pulleys, beams, undercut, bearings.

Sprocket factors: pitch-diameter table of the chain standards (ISO 606, ANSI B29.1). Pulleys:
tables of pitch diameters in timing-belt handbooks. Beams: table of shears, moments and
deflections of the AISC Manual. Undercut: minimum teeth, as in Machinery's Handbook. Bearings:
constant coefficients of friction in general bearing catalogues. All from memory; the figures of
sprockets, pulleys and undercut were recomputed by their definitions.
"""

import numpy as np
import pytest

from turnercalc.mechanics import beams
from turnercalc.mechanics.friction import rolling_bearing_torque
from turnercalc.mechanics.teeth import (
    belt_pitch_diameter,
    least_teeth_without_undercut,
    sprocket_pitch_diameter,
)

INCH = 25.4


@pytest.mark.parametrize(
    ("teeth", "factor"),
    [
        (9, 2.9238),
        (10, 3.2361),
        (12, 3.8637),
        (13, 4.1786),
        (15, 4.8097),
        (17, 5.4422),
        (19, 6.0755),
        (21, 6.7095),
        (23, 7.3439),
        (25, 7.9787),
        (30, 9.5668),
        (38, 12.1096),
        (57, 18.1529),
        (76, 24.1985),
    ],
)
def test_pitch_diameter_of_a_sprocket_for_a_pitch_of_one(teeth: int, factor: float) -> None:
    assert sprocket_pitch_diameter(teeth, 1.0) == pytest.approx(factor, abs=6e-5)


@pytest.mark.parametrize(
    ("teeth", "pitch_mm", "diameter_mm"),
    [
        (10, 5.080, 0.637 * INCH),  # XL
        (20, 5.080, 1.273 * INCH),
        (16, 9.525, 1.910 * INCH),  # L
        (18, 12.70, 2.865 * INCH),  # H
        (20, 2.032, 0.509 * INCH),  # MXL
        (20, 5.0, 31.83),  # HTD 5M, T5
        (16, 2.0, 10.19),  # 2 mm pitch
    ],
)
def test_pitch_diameter_of_a_toothed_pulley(
    teeth: int, pitch_mm: float, diameter_mm: float
) -> None:
    assert belt_pitch_diameter(teeth, pitch_mm) == pytest.approx(diameter_mm, abs=0.015)


# For w = P = L = E = I = 1.
@pytest.mark.parametrize(
    ("found", "printed"),
    [
        (beams.uniform_load_moment(1.0, 1.0), 1 / 8),
        (beams.uniform_load_sag(1.0, 1.0, 1.0, 1.0), 5 / 384),
        (beams.central_load_moment(1.0, 1.0), 1 / 4),
        (beams.central_load_sag(1.0, 1.0, 1.0, 1.0), 1 / 48),
        (beams.fixed_uniform_load_moment(1.0, 1.0), 1 / 12),
        (beams.fixed_uniform_load_sag(1.0, 1.0, 1.0, 1.0), 1 / 384),
        (beams.fixed_central_load_moment(1.0, 1.0), 1 / 8),
        (beams.fixed_central_load_sag(1.0, 1.0, 1.0, 1.0), 1 / 192),
        (beams.overhang_sag(1.0, 1.0, 1.0, 1.0), 1 / 3),
    ],
)
def test_beam_table(found: float, printed: float) -> None:
    assert found == pytest.approx(printed, rel=1e-12)


@pytest.mark.parametrize(("degrees", "teeth"), [(14.5, 32), (20.0, 18), (25.0, 12)])
def test_fewest_teeth_without_undercut(degrees: float, teeth: int) -> None:
    exact = least_teeth_without_undercut(np.radians(degrees))
    assert np.ceil(exact) == teeth


@pytest.mark.parametrize(
    ("coefficient", "milli_newton_metres"),
    # 100 N on a bore of 8 mm, by M = 0.5 mu P d: deep groove, self-aligning, needle with cage
    [(0.0015, 0.6), (0.0010, 0.4), (0.0030, 1.2)],
)
def test_small_rolling_bearings(coefficient: float, milli_newton_metres: float) -> None:
    torque = rolling_bearing_torque(100.0, 0.008, coefficient)
    assert 1e3 * torque == pytest.approx(milli_newton_metres, rel=1e-12)
