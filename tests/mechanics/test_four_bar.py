"""The crank-link-arm loop: it closes, its derivatives are those of its angle, it never pretends."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics.four_bar import both_branches, close_loop, follow_loop

TURN = np.linspace(0.0, 2.0 * np.pi, 721)


@st.composite
def crank_rockers(draw: st.DrawFn) -> tuple[float, float, float, float, float]:
    """Lengths whose crank goes round with at least a tenth of itself in hand."""
    crank = draw(st.floats(0.02, 0.06))
    arm = draw(st.floats(1.2, 3.0)) * crank
    ground = draw(st.floats(2.5, 6.0)) * crank
    shortest = max(ground + crank - arm, arm - (ground - crank)) + 0.1 * crank
    longest = arm + ground - crank - 0.1 * crank
    link = shortest + draw(st.floats(0.0, 1.0)) * (longest - shortest)
    where = draw(st.floats(-np.pi, np.pi))
    return crank, link, arm, ground * np.cos(where), ground * np.sin(where)


@given(crank_rockers(), st.sampled_from([1.0, -1.0]))
def test_the_link_keeps_its_length(lengths: tuple[float, ...], branch: float) -> None:
    crank, link, arm, across, height = lengths
    loop = close_loop(*lengths, TURN, branch)
    pin = np.array([across + crank * np.cos(TURN), height + crank * np.sin(TURN)])
    end = arm * np.array([np.cos(loop.arm_angle), np.sin(loop.arm_angle)])
    np.testing.assert_allclose(np.hypot(*(end - pin)), link, rtol=1e-9)
    np.testing.assert_allclose([loop.link_x, loop.link_y], end - pin, atol=1e-12)


@given(crank_rockers(), st.sampled_from([1.0, -1.0]), st.floats(0, 2 * np.pi))
def test_derivatives_are_those_of_the_angle(
    lengths: tuple[float, ...], branch: float, angle: float
) -> None:
    step = 1e-5
    loop = close_loop(*lengths, angle + step * np.array([-1.0, 0.0, 1.0]), branch)
    arm = np.unwrap(loop.arm_angle)
    assert (arm[2] - arm[0]) / (2 * step) == pytest.approx(loop.arm_rate[1], rel=1e-5, abs=1e-6)
    second = (loop.arm_rate[2] - loop.arm_rate[0]) / (2 * step)
    assert second == pytest.approx(loop.arm_second[1], rel=1e-4, abs=1e-5)


@given(crank_rockers(), st.sampled_from([1.0, -1.0]))
def test_the_branch_is_kept_all_the_way_round(lengths: tuple[float, ...], branch: float) -> None:
    _, _, arm, _, _ = lengths
    loop = close_loop(*lengths, TURN, branch)
    end_x, end_y = arm * np.cos(loop.arm_angle), arm * np.sin(loop.arm_angle)
    pin_x, pin_y = end_x - loop.link_x, end_y - loop.link_y
    assert np.all(np.sign(pin_x * end_y - pin_y * end_x) == branch)


@given(crank_rockers(), st.sampled_from([1.0, -1.0]), st.floats(-np.pi, np.pi))
def test_following_is_closing_without_the_second_derivative(
    lengths: tuple[float, ...], branch: float, zero: float
) -> None:
    angle, rate = follow_loop(*lengths, TURN, branch, zero)
    loop = close_loop(*lengths, TURN, branch, zero)
    np.testing.assert_array_equal(angle, loop.arm_angle)
    np.testing.assert_allclose(rate, loop.arm_rate, rtol=1e-12)


@given(crank_rockers(), st.floats(-np.pi, np.pi))
def test_both_branches_are_those_of_the_closed_loop(
    lengths: tuple[float, ...], zero: float
) -> None:
    for branch, angle in zip((1.0, -1.0), both_branches(*lengths, TURN, zero), strict=True):
        loop = close_loop(*lengths, TURN, branch, zero)
        np.testing.assert_allclose(np.exp(1j * angle), np.exp(1j * loop.arm_angle), atol=1e-7)
        assert np.abs(angle).max() <= np.pi + 1e-12


@given(crank_rockers())
def test_mirrored_linkage_gives_the_mirrored_motion(lengths: tuple[float, ...]) -> None:
    crank, link, arm, across, height = lengths
    one = close_loop(crank, link, arm, across, height, TURN, 1.0)
    other = close_loop(crank, link, arm, -across, height, np.pi - TURN, -1.0)
    np.testing.assert_allclose(np.cos(other.arm_angle), -np.cos(one.arm_angle), atol=1e-9)
    np.testing.assert_allclose(np.sin(other.arm_angle), np.sin(one.arm_angle), atol=1e-9)
    np.testing.assert_allclose(other.arm_rate, one.arm_rate, atol=1e-9)


@pytest.mark.parametrize("missing", [1e-3, 1e-6])
def test_a_link_too_short_by_a_millimetre_gives_nan_and_one_longer_closes(missing: float) -> None:
    # Farthest crank pin from the pivot: ground + crank = 0.25; the arm reaches 0.07.
    crank, arm, ground = 0.05, 0.07, 0.20
    limit = ground + crank - arm
    farthest = np.array([0.0])
    short = close_loop(crank, limit - missing, arm, ground, 0.0, farthest, 1.0)
    enough = close_loop(crank, limit + missing, arm, ground, 0.0, farthest, 1.0)
    assert np.isnan(short.arm_angle).all()
    assert np.isnan(short.arm_rate).all()
    assert np.isfinite(enough.arm_angle).all()


@pytest.mark.parametrize("missing", [1e-3, 1e-6])
def test_a_link_too_long_by_a_millimetre_gives_nan_and_one_shorter_closes(missing: float) -> None:
    # Nearest crank pin to the pivot: ground - crank = 0.15; arm + 0.15 is the longest link.
    crank, arm, ground = 0.05, 0.07, 0.20
    limit = arm + ground - crank
    nearest = np.array([np.pi])
    assert np.isnan(close_loop(crank, limit + missing, arm, ground, 0, nearest, 1.0).arm_angle)
    assert np.isfinite(close_loop(crank, limit - missing, arm, ground, 0, nearest, 1.0).arm_angle)


def test_one_design_at_a_time_equals_many_at_once() -> None:
    crank = np.array([0.04, 0.045, 0.05])[:, None]
    many = close_loop(crank, 0.2, 0.07, 0.05, -0.2, TURN, 1.0)
    for i, one in enumerate(crank[:, 0]):
        single = close_loop(one, 0.2, 0.07, 0.05, -0.2, TURN, 1.0)
        for a, b in zip(many, single, strict=True):
            np.testing.assert_allclose(a[i], b, rtol=1e-12)


def test_nan_in_gives_nan_out() -> None:
    assert np.isnan(close_loop(0.05, 0.2, 0.07, 0.05, -0.2, np.nan, 1.0).arm_angle)
