"""Round things before a bar: every force balance done a second way, and the limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics import pushing, rolling

EGGS = st.fixed_dictionaries(
    {
        "weight": st.floats(0.05, 2.0),
        "radius": st.floats(0.01, 0.05),
        "rolling_arm": st.floats(0.0, 0.003),
        "bar_friction": st.floats(0.0, 0.6),
        "contact": st.floats(-0.4, 0.4),
        "climb": st.floats(0.0, 0.4),
        "slope": st.floats(-0.5, 0.5),
        "hinders": st.floats(-0.01, 0.01),
    }
)


@given(EGGS)
def test_forces_and_moments_about_the_middle_are_in_balance(egg: dict[str, float]) -> None:
    found = pushing.pushed(**egg)
    if np.isnan(found.push):
        return
    r, d, a, b = egg["radius"], egg["contact"], egg["climb"], egg["slope"]
    w, arm = egg["weight"], egg["rolling_arm"]
    bar = complex(found.push, -found.lift)  # on the thing, along and away from the floor
    holding = found.push - w * np.sin(b)
    floor = complex(-holding, found.floor)
    weight = complex(-w * np.sin(b), -w * np.cos(b))
    assert bar + floor + weight == pytest.approx(0, abs=1e-9 * max(1.0, abs(bar)))
    # where they act, from the middle; the floor's resultant is shifted ahead by the rolling arm
    behind = -1.0 if found.push >= 0.0 else 1.0
    touches = complex(behind * r * np.cos(d), r * np.sin(d))
    foot = complex(r * np.sin(a) + arm, -r * np.cos(a))

    def clockwise(place: complex, force: complex) -> float:
        return place.imag * force.real - place.real * force.imag

    about_middle = clockwise(touches, bar) + clockwise(foot, floor)
    assert about_middle == pytest.approx(egg["hinders"], abs=1e-9 * max(1.0, abs(bar)))
    # friction at the bar is at its limit, against the surface that slides along it
    inward = touches / -r
    normal = (bar * inward.conjugate()).real
    along = abs((bar * inward.conjugate()).imag)
    assert normal >= -1e-12
    assert along == pytest.approx(egg["bar_friction"] * normal, abs=1e-9 * max(1.0, normal))
    assert found.rub == pytest.approx(along, abs=1e-9 * max(1.0, along))


@given(st.floats(0.05, 2.0), st.floats(0.01, 0.05), st.floats(1e-5, 0.003), st.floats(0.0, 0.9))
def test_a_bar_at_middle_height_pushes_as_the_short_formula_says(
    weight: float, radius: float, arm: float, mu: float
) -> None:
    found = pushing.pushed(weight, radius, arm, mu)
    short = rolling.rolling_push(weight, radius, arm, mu)
    assert found.push == pytest.approx(short, rel=1e-9, nan_ok=True)
    floor = rolling.floor_force_under_push(weight, short, mu)
    assert found.floor == pytest.approx(floor, rel=1e-9, nan_ok=True)
    if not np.isnan(short):
        for grip in (0.5 * found.grip, 1.5 * found.grip):
            assert rolling.drags(short, floor, grip) == (grip < found.grip)


def test_an_egg_before_a_bar_by_hand() -> None:
    # W = 0.6 N, R = 20 mm, f = 1 mm, mu = 0.25: P = 0.6/(20 x 0.75 - 0.25) = 0.0407 N.
    found = pushing.pushed(0.6, 0.020, 0.001, 0.25)
    assert found.push == pytest.approx(0.6 / 14.75)
    assert found.lift == pytest.approx(0.25 * 0.6 / 14.75)
    assert found.floor == pytest.approx(0.6 + 0.15 / 14.75)


def test_jamming_begins_where_rubbing_takes_all_of_the_push() -> None:
    # R (1 - mu) = mu f: at mu = R/(R + f), from below.
    limit = 0.020 / 0.021
    assert np.isfinite(pushing.pushed(0.6, 0.020, 0.001, limit - 1e-6).push)
    assert np.isnan(pushing.pushed(0.6, 0.020, 0.001, limit + 1e-6).push)
    # A bar that presses down jams sooner, one that lifts later.
    for contact, jams in ((0.3, True), (-0.3, False)):
        found = pushing.pushed(0.6, 0.020, 0.001, limit - 1e-6, contact)
        assert np.isnan(found.push) == jams


def test_a_bar_25_degrees_too_high_presses_half_as_hard_again() -> None:
    # the figure that the limits table gives for its 25 degrees, at a friction of 0.3
    level = pushing.pushed(0.6, 0.022, 0.001, 0.3).rub
    high = pushing.pushed(0.6, 0.022, 0.001, 0.3, np.radians(25.0)).rub
    assert high / level == pytest.approx(1.5, abs=0.06)


def test_a_steep_floor_makes_the_bar_hold_back() -> None:
    # Down a slope without friction the bar in front bears the weight's share along it.
    found = pushing.pushed(0.6, 0.022, 0.0, 0.0, 0.0, 0.0, -0.3)
    assert found.push == pytest.approx(-0.6 * np.sin(0.3))
    assert found.floor == pytest.approx(0.6 * np.cos(0.3))
    # The front of the egg goes down along it: it is rubbed up, and its weight on the floor less.
    rubbed = pushing.pushed(0.6, 0.022, 0.0, 0.4, 0.0, 0.0, -0.3)
    assert rubbed.lift < 0.0
    assert rubbed.floor < found.floor
    assert abs(rubbed.push) < abs(found.push)


@pytest.mark.parametrize(
    ("pitch", "angle", "drop"),
    # worked here from the right-angled triangle: radius 22, wire 1 mm
    [(12.7, 16.40, 0.915), (6.35, 8.11, 0.225)],
)
def test_nests_of_a_mesh(pitch: float, angle: float, drop: float) -> None:
    big = 22.5
    assert np.degrees(np.arctan2(pitch / 2, np.sqrt(big**2 - (pitch / 2) ** 2))) == pytest.approx(
        angle, abs=0.01
    )
    assert np.degrees(pushing.climb_angle(22.0, pitch, 0.5)) == pytest.approx(angle, abs=0.01)
    assert pushing.mesh_drop(22.0, pitch, 0.5) == pytest.approx(drop, abs=2e-3)
    assert np.isnan(pushing.mesh_drop(22.0, 46.0, 0.5))


@given(st.floats(0.01, 0.05), st.floats(0.001, 0.9), st.floats(0.0, 0.3))
def test_fine_wires_roll_like_a_board(radius: float, share: float, wire: float) -> None:
    pitch = 0.02 * share * radius
    rolls = pushing.mesh_rolling_radius(radius, pitch, 0.0)
    assert rolls == pytest.approx(radius, rel=1e-4)
    thick = pushing.mesh_rolling_radius(radius, pitch, wire * radius)
    assert thick == pytest.approx(radius * (1 + wire), rel=1e-4)


@given(st.floats(0.1, 10.0), st.floats(0.01, 0.05), st.floats(0.0, 0.01))
def test_stroke_and_turn_undo_one_another(turn: float, radius: float, play: float) -> None:
    stroke = pushing.grid_stroke(turn, radius, play)
    assert pushing.turn_by_grid(stroke, radius, play) == pytest.approx(turn, rel=1e-9, abs=1e-12)
    assert pushing.turn_by_grid(0.5 * play, radius, play) == 0.0


@given(st.floats(0.1, 2.0), st.floats(0.01, 0.05), st.floats(0.0, 0.002), st.floats(0.2, 0.9))
def test_a_dragged_egg_is_in_balance_without_turning(
    weight: float, radius: float, arm: float, mu: float
) -> None:
    push, lift = pushing.dragged(weight, radius, arm, mu)
    floor = weight + lift
    assert push == pytest.approx(mu * floor)
    if lift > 0.0:
        assert push * radius == pytest.approx(floor * arm + lift * radius)
