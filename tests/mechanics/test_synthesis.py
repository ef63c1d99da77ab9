"""Synthesis: whatever comes out is put together and asked whether it does what was wanted."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turnercalc.mechanics import synthesis
from turnercalc.mechanics.four_bar import close_loop

SWING = st.floats(np.radians(20), np.radians(110))


@given(SWING, st.floats(1.0, 6.0))
def test_inline_linkage_rests_where_it_should(swing: float, link_share: float) -> None:
    bars = synthesis.inline_crank_rocker(1.0, swing, link_share)
    # the arm pin's two ends and the crank centre on one line, b + a and b - a away
    ends = np.exp(1j * np.array([0.0, swing]))
    chord = (ends[1] - ends[0]) / abs(ends[1] - ends[0])
    centre = ends[0] + (bars.link + bars.crank) * chord
    assert abs(centre) == pytest.approx(bars.ground)
    assert abs(centre - ends[1]) == pytest.approx(bars.link - bars.crank, abs=1e-12)
    assert bars.crank**2 + bars.ground**2 == pytest.approx(bars.link**2 + bars.arm**2)


@pytest.mark.parametrize(
    ("swing_deg", "crank", "angles", "ground"),
    # crank over arm, least link-to-arm angle for links of 1, 2, 3, 4, 6 arms, ground for 4;
    # recomputed here on the closed loop at both places where the crank lies on the ground line
    [
        (60, 0.5000, [48.6, 57.0, 58.6, 59.2, 59.7], 4.0927),
        (80, 0.6428, [35.9, 46.5, 48.4, 49.1, 49.6], 4.0727),
        (90, 0.7071, [30.0, 41.4, 43.4, 44.1, 44.6], 4.0620),
        (100, 0.7660, [24.4, 36.4, 38.4, 39.1, 39.6], 4.0513),
    ],
)
def test_table_of_inline_linkages(
    swing_deg: float, crank: float, angles: list[float], ground: float
) -> None:
    links = np.array([1.0, 2.0, 3.0, 4.0, 6.0])
    bars = synthesis.inline_crank_rocker(1.0, np.radians(swing_deg), links)
    np.testing.assert_allclose(bars.crank, crank, atol=6e-5)
    assert bars.ground[3] == pytest.approx(ground, abs=6e-5)
    closed = close_loop(
        bars.crank, bars.link, bars.arm, -bars.ground, 0.0, np.array([[0.0], [np.pi]]), -1.0
    )
    arm, link = np.exp(1j * closed.arm_angle), closed.link_x + 1j * closed.link_y
    between = np.degrees(np.arcsin(np.abs((arm * np.conj(link)).imag) / links))
    np.testing.assert_allclose(between.min(axis=0), angles, atol=0.06)
    ours = np.degrees(synthesis.least_transmission_angle(*bars))
    np.testing.assert_allclose(ours, between.min(axis=0), atol=1e-7)


@given(SWING, st.floats(-0.4, 0.4), st.floats(0.05, 0.9))
def test_general_linkage_by_its_own_limits(swing: float, alpha: float, crank: float) -> None:
    bars = synthesis.crank_rocker_for(crank, 1.0, swing, alpha)
    assume(np.isfinite(bars.link))
    found, ratio = synthesis.crank_rocker_limits(*bars)
    assert found == pytest.approx(swing, rel=1e-6)
    wanted = (np.pi + abs(alpha)) / (np.pi - abs(alpha))
    assert ratio == pytest.approx(wanted, rel=1e-6)
    turn = np.linspace(0, 2 * np.pi, 361)
    loop = close_loop(bars.crank, bars.link, bars.arm, -1.0, 0.0, turn, -1.0)
    assert np.isfinite(loop.arm_angle).all(), "the crank must go round"


def test_without_imbalance_it_is_the_inline_one() -> None:
    inline = synthesis.inline_crank_rocker(1.0, 1.2, 3.0)
    general = synthesis.crank_rocker_for(inline.crank, inline.ground, 1.2, 0.0)
    np.testing.assert_allclose(general, inline, rtol=1e-12)


def test_wishes_that_cannot_be_met() -> None:
    assert np.isnan(synthesis.inline_crank_rocker(1.0, np.pi, 3.0)).all()
    assert np.isnan(synthesis.inline_crank_rocker(1.0, 1.2, 0.5)).all(), "link under crank"
    assert np.isnan(synthesis.crank_rocker_for(0.99, 1.0, 1.2, 0.3)).all()
    assert np.isnan(synthesis.best_crank_rocker(1.0, 3.1, 5.0)).all()
    assert np.isnan(synthesis.imbalance_of_time_ratio(-1.0))
    assert np.isnan(synthesis.crank_rocker_limits(50.0, 30.0, 40.0, 60.0)).all()


def test_too_few_pairs_are_refused() -> None:
    with pytest.raises(ValueError, match="three or more input angles"):
        synthesis.freudenstein_crank_rocker([0.1, 0.2], [0.3, 0.4])
    with pytest.raises(ValueError, match="as many output angles"):
        synthesis.freudenstein_crank_rocker([0.1, 0.2, 0.3], [0.3, 0.4])


def test_many_three_position_problems_at_once() -> None:
    theta = np.radians([[35.0, 67.5, 100.0], [40.0, 80.0, 120.0]])
    phi = np.radians([[91.2, 101.8, 117.2], [70.0, 85.0, 110.0]])
    together = synthesis.freudenstein_crank_rocker(theta, phi, 2.0)
    for i in range(2):
        one = synthesis.freudenstein_crank_rocker(theta[i], phi[i], 2.0)
        np.testing.assert_allclose([x[i] for x in together], one, rtol=1e-9)


def test_chebyshev_points_on_many_ranges() -> None:
    points = synthesis.chebyshev_points([0.0, 1.0], [1.0, 3.0], 4)
    assert points.shape == (2, 4)
    # between neighbours the polynomial through the points is never larger than at the ends
    x = np.linspace(0, 1, 1001)
    wiggle = np.abs(np.prod(x[:, None] - points[0], axis=1))
    assert wiggle.max() == pytest.approx(wiggle[0], rel=1e-9)
