"""Published linkage syntheses, each closed with the loop solver afterwards.

S. Goessner, crank-rocker lecture notes and library (repository goessner/crocker, read);
R. Salati and A. Wickenheiser, machine design coursework (repository
RobertSalati/machine-design-1, relation and inputs read); ME 3751 lecture 12, three rocker
positions, after Kinzel (repository haijunsu-osu/rocker_synthesis_4bar, inputs read); a
university Mathcad sheet on a slider-crank (first page read; its lengths are inferred from its
results).
"""

import numpy as np
import pytest

from turnercalc.mechanics.four_bar import Loop, close_loop
from turnercalc.mechanics.slider_crank import close_slider
from turnercalc.mechanics.synthesis import (
    FourBar,
    best_crank_rocker,
    chebyshev_points,
    crank_rocker_for,
    crank_rocker_limits,
    freudenstein_crank_rocker,
    imbalance_of_time_ratio,
    inline_crank_rocker,
    least_transmission_angle,
)

TURN = np.arange(7200) * 2 * np.pi / 7200


def over_a_turn(bars: FourBar, branch: float = -1.0) -> Loop:
    """Close the loop with the arm's pivot at the origin and the crank centre left of it."""
    return close_loop(bars.crank, bars.link, bars.arm, -bars.ground, 0.0, TURN, branch)


def swing_of(bars: FourBar) -> float:
    """Swing from the loop itself, with the ends sharpened by a parabola through three points."""
    angle = np.unwrap(over_a_turn(bars).arm_angle)

    def extreme(values: np.ndarray) -> float:
        i = int(np.argmax(values))
        left, top, right = values[i - 1], values[i], values[(i + 1) % len(values)]
        return float(top - (right - left) ** 2 / (8 * (right + left - 2 * top)))

    return extreme(angle) + extreme(-angle)


def least_angle_of(bars: FourBar) -> float:
    """Smallest angle between link and arm over the turn, folded under a right angle."""
    loop = over_a_turn(bars)
    arm = bars.arm * np.exp(1j * loop.arm_angle)
    across = np.abs((arm * np.conj(loop.link_x + 1j * loop.link_y)).imag)
    return float(np.arcsin(np.min(across) / (bars.arm * bars.link)))


def test_goessner_time_ratio() -> None:
    # forth to back as 10 to 9: imbalance 9.5 degrees
    assert np.degrees(imbalance_of_time_ratio(10 / 9)) == pytest.approx(9.5, abs=0.06)


@pytest.mark.parametrize("crank", [0.2, 0.3, 0.35])
@pytest.mark.parametrize("time_ratio", [1.0, 10 / 9, 0.8])
def test_goessner_one_linkage_for_every_crank(crank: float, time_ratio: float) -> None:
    # His result: with the ground, the swing and the time ratio given, every crank length has
    # its own link and arm. Closing the loop must give swing and ratio back.
    bars = crank_rocker_for(crank, 1.0, np.radians(60), imbalance_of_time_ratio(time_ratio))
    assert swing_of(bars) == pytest.approx(np.radians(60), abs=1e-6)
    loop = over_a_turn(bars)
    rising = np.count_nonzero(loop.arm_rate > 0)
    slow = max(rising, len(TURN) - rising) / min(rising, len(TURN) - rising)
    # counted in steps of a twentieth of a degree
    assert slow == pytest.approx(max(time_ratio, 1 / time_ratio), rel=1e-3)
    swing, ratio = crank_rocker_limits(*bars)
    assert swing == pytest.approx(np.radians(60), rel=1e-9)
    assert ratio == pytest.approx(max(time_ratio, 1 / time_ratio), rel=1e-9)


def test_best_of_those_linkages_has_the_best_angle() -> None:
    best = best_crank_rocker(1.0, np.radians(60), 10 / 9)
    others = np.linspace(0.01, 0.99, 500)
    found = crank_rocker_for(others, 1.0, np.radians(60), imbalance_of_time_ratio(10 / 9))
    angle = least_angle_of(best)
    assert angle == pytest.approx(least_transmission_angle(*best), abs=1e-9)
    assert angle >= np.nanmax(least_transmission_angle(*found))


def test_salati_inline_crank_rocker() -> None:
    # swing 45 degrees with a crank of 0.125: arm 0.125/sin 22.5 = 0.3266; with a link of 0.5
    # the ground is 0.584 and the least angle 63.45 degrees (computed; found here on the loop)
    arm = 0.125 / np.sin(np.radians(22.5))
    bars = inline_crank_rocker(arm, np.radians(45), 0.5)
    assert bars.arm == pytest.approx(0.3266, abs=6e-5)
    assert bars.crank == pytest.approx(0.125, rel=1e-12)
    assert bars.ground == pytest.approx(0.584, abs=6e-5)
    assert np.degrees(least_angle_of(bars)) == pytest.approx(63.45, abs=0.006)
    assert least_transmission_angle(*bars) == pytest.approx(least_angle_of(bars), abs=1e-9)
    assert swing_of(bars) == pytest.approx(np.radians(45), abs=1e-6)
    assert crank_rocker_limits(*bars)[1] == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(
    ("crank", "link", "arm", "ground", "swing", "angle"),
    # exact in-line sets of whole numbers (24² + 146² = 144² + 34², 29² + 107² = 103² + 41²);
    # swing and least angle computed here on the loop
    [(24, 144, 34, 146, 89.80, 44.30), (29, 103, 41, 107, 90.03, 42.71)],
)
def test_whole_number_inline_sets(
    crank: float, link: float, arm: float, ground: float, swing: float, angle: float
) -> None:
    bars = FourBar(*map(np.float64, (crank, link, arm, ground)))
    assert np.degrees(swing_of(bars)) == pytest.approx(swing, abs=0.006)
    assert np.degrees(least_angle_of(bars)) == pytest.approx(angle, abs=0.006)
    whole, ratio = crank_rocker_limits(*bars)
    assert whole == pytest.approx(swing_of(bars), abs=1e-6)
    assert ratio == pytest.approx(1.0, abs=1e-12)


def test_kinzel_three_positions() -> None:
    # input 35.02, 67.50, 100.0, output 91.21, 101.79, 117.19 degrees, ground 4.5. The lengths
    # are computed; they must close on all three pairs.
    theta = np.radians([35.02, 67.50, 100.0])
    phi = np.radians([91.21, 101.79, 117.19])
    bars = freudenstein_crank_rocker(theta, phi, 4.5)
    assert bars.crank == pytest.approx(0.3977, abs=6e-4)
    assert bars.link == pytest.approx(4.2011, abs=6e-4)
    assert bars.arm == pytest.approx(0.838, abs=6e-4)
    for one, other in zip(theta, phi, strict=True):
        pin = bars.crank * np.exp(1j * one)
        end = 4.5 + bars.arm * np.exp(1j * other)
        assert abs(end - pin) == pytest.approx(bars.link, rel=1e-9)


def test_freudenstein_by_least_squares() -> None:
    # More pairs than unknowns: pairs taken from a real linkage must give that linkage back.
    bars = FourBar(*map(np.float64, (40.0, 120.0, 80.0, 100.0)))
    theta = chebyshev_points(np.radians(40), np.radians(200), 7)
    phi = close_loop(*bars[:3], -bars.ground, 0.0, theta, -1.0).arm_angle
    again = freudenstein_crank_rocker(theta, phi, 100.0)
    np.testing.assert_allclose(again, bars, rtol=1e-9)


def test_chebyshev_points() -> None:
    # three points on 0 to 1 (from memory): 0.067, 0.5, 0.933
    np.testing.assert_allclose(chebyshev_points(0, 1, 3), [0.067, 0.5, 0.933], atol=6e-4)


def test_mathcad_slider_crank() -> None:
    # crank 10 in, link 20 in, 45 degrees, 1 rad/s: link 159.295 degrees (measured at the
    # slider), 0.378 rad/s, slider 9.744 in/s towards the crank
    slide = close_slider(10.0, 20.0, 0.0, np.radians(45))
    assert np.degrees(slide.link_angle) + 180 == pytest.approx(159.295, abs=6e-4)
    # its link turns against the crank by our sign, as any link does on this part of the turn
    assert abs(slide.link_rate) == pytest.approx(0.378, abs=6e-4)
    assert slide.rate == pytest.approx(-9.744, abs=6e-4)
