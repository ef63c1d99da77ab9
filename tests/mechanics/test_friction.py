"""Friction: bodies cut free and balanced, faces and belts integrated piece by piece."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics import friction

COEFFICIENT = st.floats(0.0, 1.2)


@given(st.floats(0.1, 500), st.floats(0.001, 0.02), COEFFICIENT)
def test_journal_reaction_is_normal_and_friction_together(
    force: float, radius: float, coefficient: float
) -> None:
    # at the contact the normal force N and the friction f N make up the pin's force
    normal = force / np.hypot(1.0, coefficient)
    torque = coefficient * normal * radius
    assert friction.journal_torque(force, radius, coefficient) == pytest.approx(torque)
    assert friction.journal_torque(-force, radius, coefficient) == pytest.approx(torque)
    assert friction.friction_circle_radius(radius, coefficient) * force == pytest.approx(torque)


@given(st.floats(1, 100), st.floats(0, 1.2), COEFFICIENT)
def test_push_along_a_slope_balances(weight: float, slope: float, coefficient: float) -> None:
    push = friction.push_along_incline(weight, slope, coefficient)
    normal = weight * np.cos(slope)
    assert push == pytest.approx(weight * np.sin(slope) + coefficient * normal)
    # at the slip angle nothing is needed to hold it
    angle = friction.slip_angle(coefficient)
    held = friction.push_along_incline(weight, angle, -coefficient)
    assert held == pytest.approx(0.0, abs=1e-12 * weight)


@given(st.floats(1, 100), st.floats(0, 0.7), st.floats(0.0, 0.8))
def test_level_push_balances(weight: float, slope: float, coefficient: float) -> None:
    push = friction.level_push_up_incline(weight, slope, coefficient)
    normal = weight * np.cos(slope) + push * np.sin(slope)
    along = push * np.cos(slope) - weight * np.sin(slope)
    assert along == pytest.approx(coefficient * normal, abs=1e-9 * weight)


def test_no_level_push_moves_it_up_a_steep_rough_slope() -> None:
    assert np.isnan(friction.level_push_up_incline(10, np.radians(60), 0.6))


def test_tip_angle_puts_the_weight_over_the_edge() -> None:
    angle = friction.tip_angle(0.12, 0.3)
    centre = (-0.12 + 0.3j) * np.exp(-1j * angle)
    assert centre.real == pytest.approx(0.0, abs=1e-15)


@given(st.floats(0.002, 0.03), st.floats(0.0, 0.95), st.floats(0.05, 0.5))
def test_thrust_faces_ring_by_ring(outer: float, share: float, coefficient: float) -> None:
    inner = share * outer
    edges = np.linspace(inner, outer, 20001)
    radius, width = (edges[1:] + edges[:-1]) / 2, np.diff(edges)
    for pressure, formula in (
        (np.ones_like(radius), friction.thrust_torque_even_pressure),
        (1.0 / radius, friction.thrust_torque_even_wear),
    ):
        force = np.sum(pressure * 2 * np.pi * radius * width)
        torque = np.sum(coefficient * pressure * 2 * np.pi * radius**2 * width)
        assert formula(force, outer, inner, coefficient) == pytest.approx(torque, rel=1e-6)


@given(st.floats(0.1, 9.0), st.floats(0.05, 0.6))
def test_capstan_piece_by_piece(wrap: float, coefficient: float) -> None:
    # each small piece of wrap adds f T dphi; 20000 pieces leave an error of first order
    pieces = 20000
    tight = (1 + coefficient * wrap / pieces) ** pieces
    assert friction.capstan_ratio(wrap, coefficient) == pytest.approx(tight, rel=1e-3)
    slip = friction.belt_slip_torque(10.0, 0.02, wrap, coefficient)
    assert slip == pytest.approx((tight - 1) * 10.0 * 0.02, rel=2e-3)


def test_negative_wrap_is_nothing() -> None:
    assert np.isnan(friction.capstan_ratio(-1.0, 0.3))


def test_rolling_resistance_pays_for_the_arm() -> None:
    # over one turn the floor's force, ahead by the arm, does N x arm x 2 pi of work
    level = friction.rolling_resistance(100.0, 0.0005, 0.02)
    assert level * 2 * np.pi * 0.02 == pytest.approx(100.0 * 0.0005 * 2 * np.pi)


def test_seal_drag() -> None:
    # 8 mm shaft, 0.1 N/mm, 0.4: the lip is 25.13 mm long, presses 2.513 N and rubs at 4 mm
    by_hand = 0.4 * (0.1e3 * np.pi * 0.008) * 0.004
    assert friction.seal_torque(100.0, 0.008, 0.4) == pytest.approx(by_hand)
    assert by_hand == pytest.approx(4.0e-3, abs=6e-5)
