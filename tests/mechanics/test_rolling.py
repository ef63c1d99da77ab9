"""Eggs on bars, along a floor and pins on runners: statics and geometry done a second way."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turnercalc.mechanics import rolling

NESTS = st.tuples(st.floats(0.012, 0.035), st.floats(0.004, 0.015), st.floats(0.02, 0.99)).map(
    lambda n: (n[0], n[1], 2 * (n[0] + n[1]) * n[2])
)


def test_three_four_five_nest() -> None:
    # egg 22, bars 8, gap 20 (centres 36): the triangle 18, 24, 30
    assert np.degrees(rolling.nest_angle(22, 8, 36)) == pytest.approx(36.87, abs=0.006)
    assert rolling.nest_height(22, 8, 36) == pytest.approx(24.0, rel=1e-12)
    assert rolling.nest_force(1.0, rolling.nest_angle(22, 8, 36)) == pytest.approx(0.625, rel=1e-12)
    assert rolling.egg_turn_ratio(22, 8) == pytest.approx(0.3636, abs=6e-5)


@pytest.mark.parametrize(
    ("egg", "bar", "gap", "angle", "force"),
    # worked here from the triangle of centres
    [(22.5, 10, 25, 43.81, 0.693), (20, 10, 20, 41.81, 0.671)],
)
def test_other_nests(egg: float, bar: float, gap: float, angle: float, force: float) -> None:
    half = bar + gap / 2
    height = np.sqrt((egg + bar) ** 2 - half**2)
    assert np.degrees(np.arctan2(half, height)) == pytest.approx(angle, abs=0.006)
    nest = rolling.nest_angle(egg, bar, 2 * half)
    assert np.degrees(nest) == pytest.approx(angle, abs=0.006)
    assert rolling.nest_force(1.0, nest) == pytest.approx(force, abs=6e-4)
    assert rolling.nest_force(1.0, nest) == pytest.approx((egg + bar) / height / 2)


@given(NESTS)
def test_egg_touches_both_bars(nest: tuple[float, float, float]) -> None:
    egg, bar, spacing = nest
    height = rolling.nest_height(*nest)
    assert np.hypot(spacing / 2, height) == pytest.approx(egg + bar)
    assert np.tan(rolling.nest_angle(*nest)) == pytest.approx(spacing / 2 / height, rel=1e-6)


@pytest.mark.parametrize("spacing", [0.060, 0.0601, 0.08])
def test_an_egg_that_drops_through_has_no_nest(spacing: float) -> None:
    assert np.isnan(rolling.nest_angle(0.022, 0.008, spacing))
    assert np.isnan(rolling.nest_height(0.022, 0.008, spacing))
    assert np.isfinite(rolling.nest_angle(0.022, 0.008, 0.0599))


@given(st.floats(0.1, 2.0), st.floats(0.05, 1.5), st.floats(-1.0, 1.0))
def test_leaning_nest_balances(weight: float, nest: float, share: float) -> None:
    lean = share * nest
    left, right = rolling.leaning_nest_forces(weight, nest, lean)
    # the bars stand at -nest and +nest from straight down; the frame turns them by the lean
    push = left * 1j * np.exp(1j * (lean - nest)) + right * 1j * np.exp(1j * (lean + nest))
    assert push == pytest.approx(1j * weight, abs=1e-9)
    assert left >= -1e-12
    assert right >= -1e-12
    level = rolling.leaning_nest_forces(weight, nest, 0.0)
    assert level[0] == pytest.approx(rolling.nest_force(weight, nest))


def test_an_egg_leaves_a_frame_that_leans_beyond_its_nest() -> None:
    assert np.isnan(rolling.leaning_nest_forces(0.6, 0.6, 0.601)).all()
    assert np.isnan(rolling.leaning_nest_forces(0.6, 0.6, -0.601)).all()


@given(st.floats(0.1, 1.4), st.floats(0.01, 1.0))
def test_slipping_in_a_nest_balances(nest: float, coefficient: float) -> None:
    assume(coefficient <= np.tan(nest))
    # normal forces along the contact radii, friction square to them, both turning one way
    one, two = 1j * np.exp(-1j * nest), 1j * np.exp(1j * nest)
    forces = np.array([one * (1 + 1j * coefficient), two * (1 + 1j * coefficient)])
    sides = np.linalg.solve([forces.real, forces.imag], [0.0, 1.0])
    torque = coefficient * sides.sum()
    assert rolling.nest_slip_torque(1.0, 1.0, nest, coefficient) == pytest.approx(torque, rel=1e-6)
    assert np.all(sides >= -1e-9)


@given(NESTS, st.floats(0.1, 1.0), st.floats(0.0001, 0.002))
def test_rolling_loss_is_paid_by_the_bar(
    nest: tuple[float, float, float], force: float, arm: float
) -> None:
    # Bar and egg turn against each other; the contact eats force x arm x relative turn.
    egg, bar, _ = nest
    bar_turn = 1.0
    egg_turn = -bar_turn * rolling.egg_turn_ratio(egg, bar)
    eaten = force * arm * abs(bar_turn - egg_turn)
    assert rolling.rolling_loss_at_bar(force, arm, egg, bar) * bar_turn == pytest.approx(eaten)


@given(st.floats(0.0, 0.003), st.floats(-3, 3))
def test_lopsided_egg_by_virtual_work(off_centre: float, phase: float) -> None:
    # the heavy side rises by e (1 - cos phase) while the bar turns R/r times the phase
    egg, bar, weight, step = 0.022, 0.008, 0.6, 1e-5
    around = phase + step * np.array([-1, 1])
    energy = -weight * off_centre * np.cos(around)
    bar_turn = 2 * step * egg / bar
    torque = rolling.lopsided_torque_at_bar(weight, off_centre, egg, bar, phase)
    assert torque == pytest.approx(np.diff(energy)[0] / bar_turn, abs=1e-9)


@given(st.floats(0.012, 0.035), st.floats(0.0, 0.003), st.floats(0.0, 0.8))
def test_pushed_egg_balances(radius: float, arm: float, bar_friction: float) -> None:
    weight = 0.6
    push = rolling.rolling_push(weight, radius, arm, bar_friction)
    assume(np.isfinite(push))
    floor = rolling.floor_force_under_push(weight, push, bar_friction)
    # forces up: floor against weight and the bar's rubbing down; moments about the centre
    assert floor - weight - bar_friction * push == pytest.approx(0.0, abs=1e-12)
    moments = push * radius - floor * arm - bar_friction * push * radius
    assert moments == pytest.approx(0.0, abs=1e-9)


def test_pushed_egg_jams_before_the_bar_grips_as_hard_as_it_pushes() -> None:
    assert np.isnan(rolling.rolling_push(0.6, 0.02, 0.001, 1.0))
    assert np.isnan(rolling.rolling_push(0.6, 0.02, 0.001, 0.96))
    assert rolling.rolling_push(0.6, 0.02, 0.001, 0.95) > 0.6 * 0.001 / 0.02 * 100


def test_dragging_instead_of_rolling() -> None:
    assert rolling.drags(0.4, 0.7, 0.5)
    assert not rolling.drags(0.3, 0.7, 0.5)
    assert rolling.drags(np.nan, 0.7, 0.5), "a jammed egg does not roll"
    np.testing.assert_array_equal(rolling.drags([0.4, 0.3], 0.7, 0.5), [True, False])


@given(st.floats(0, 0.8), st.floats(0.01, 0.9))
def test_dragged_up_a_slope_balances(slope: float, coefficient: float) -> None:
    push, floor, rubbing = rolling.dragging_push(1.0, slope, coefficient)
    along = push - rubbing - np.sin(slope)
    across = floor - rubbing - np.cos(slope)
    assert along == pytest.approx(0.0, abs=1e-12)
    assert across == pytest.approx(0.0, abs=1e-12)
    assert rubbing == pytest.approx(coefficient * floor)


def test_roll_angle() -> None:
    # 90 mm with a radius of 22.5: 229 degrees; half a turn takes pi R
    assert np.degrees(rolling.roll_angle(90, 22.5)) == pytest.approx(229.2, abs=0.06)
    assert rolling.roll_angle(np.pi * 22.5, 22.5) == pytest.approx(np.pi)


RUNNERS = st.tuples(
    st.floats(0.1, 0.6), st.floats(-0.3, 0.3), st.floats(0.0, 0.5), st.floats(-0.8, 0.8)
)


@given(RUNNERS)
def test_a_runner_rolls_about_its_contact(runner: tuple[float, float, float, float]) -> None:
    # without slip the contact stands still, so every point moves square to its line to it
    radius, _, _, roll = runner
    pin = rolling.runner_pin(*runner)
    contact = -radius * roll
    from_contact = (pin.x - contact) + 1j * pin.y
    assert pin.x_rate + 1j * pin.y_rate == pytest.approx(1j * from_contact, abs=1e-12)


@given(RUNNERS)
def test_runner_derivatives(runner: tuple[float, float, float, float]) -> None:
    radius, across, height, roll = runner
    step = 1e-5
    near = rolling.runner_pin(radius, across, height, roll + step * np.array([-1, 1]))
    pin = rolling.runner_pin(*runner)
    for value, slope in (("x", "x_rate"), ("y", "y_rate"), ("x_rate", "x_second")):
        change = np.diff(getattr(near, value))[0] / (2 * step)
        assert getattr(pin, slope) == pytest.approx(change, abs=1e-8)
    change = np.diff(near.y_rate)[0] / (2 * step)
    assert pin.y_second == pytest.approx(change, abs=1e-8)


def test_level_runner_has_the_pin_where_it_was_put() -> None:
    pin = rolling.runner_pin(0.3, 0.05, 0.2, 0.0)
    assert (pin.x, pin.y) == pytest.approx((0.05, 0.2))


CREEP = {"press": 40.0, "friction": 0.35, "half_width": 0.002, "radius": 0.16}


def test_creepage_by_hand() -> None:
    # Carter's creep: (0.35 x 2/160)(1 - sqrt(1 - 7/14)) = 0.004375 x 0.29289
    assert rolling.creepage(7.0, **CREEP) == pytest.approx(1.28140e-3, rel=1e-5)
    assert rolling.creepage(-7.0, **CREEP) == pytest.approx(1.28140e-3, rel=1e-5)


def test_a_contact_without_push_does_not_creep_and_one_that_slides_has_no_creep() -> None:
    assert rolling.creepage(0.0, **CREEP) == 0.0
    assert rolling.creepage(14.0, **CREEP) == pytest.approx(0.35 * 0.002 / 0.16)
    assert np.isnan(rolling.creepage(14.01, **CREEP))
    assert np.isnan(rolling.creepage(1.0, **(CREEP | {"press": -1.0})))


@given(st.floats(0.1, 1.0), st.floats(1e-4, 5e-3))
def test_a_small_push_creeps_as_if_friction_were_endless(friction: float, half: float) -> None:
    # a T/(2 R N) to first order, whatever the friction
    numbers = CREEP | {"friction": friction, "half_width": half}
    small = rolling.creepage(1e-3, **numbers)
    assert small == pytest.approx(half * 1e-3 / (2 * 0.16 * 40.0), rel=1e-3)
