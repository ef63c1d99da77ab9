"""Screws and worms are wedges: torque against the wedge's own statics, efficiency both ways."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics import screws, worm

THREADS = st.tuples(st.floats(0.005, 0.03), st.floats(0.001, 0.02), st.floats(0.02, 0.4))


@given(THREADS, st.floats(10, 5000))
def test_a_square_screw_is_a_wedge(thread: tuple[float, float, float], force: float) -> None:
    diameter, lead, friction = thread
    slope = np.arctan(lead / (np.pi * diameter))
    angle = np.arctan(friction)
    up = screws.screw_raise_torque(force, diameter, lead, friction)
    down = screws.screw_lower_torque(force, diameter, lead, friction)
    # the equal sign wears thin only where the angles cancel
    assert up == pytest.approx(force * np.tan(slope + angle) * diameter / 2, rel=1e-9)
    assert down == pytest.approx(
        force * np.tan(angle - slope) * diameter / 2, rel=1e-9, abs=1e-9 * force
    )


@given(THREADS, st.sampled_from([0.0, np.radians(14.5), np.radians(15)]))
def test_efficiency_is_work_out_over_work_in(
    thread: tuple[float, float, float], flank: float
) -> None:
    diameter, lead, friction = thread
    torque = screws.screw_raise_torque(1.0, diameter, lead, friction, flank)
    whole = screws.screw_efficiency(1.0, lead, torque)
    assert screws.screw_thread_efficiency(diameter, lead, friction, flank) == pytest.approx(whole)


@given(THREADS, st.sampled_from([0.0, np.radians(15)]))
def test_back_driven_work(thread: tuple[float, float, float], flank: float) -> None:
    # The load sinks by the lead and turns the screw once against a braking torque.
    diameter, lead, friction = thread
    braking = -screws.screw_lower_torque(1.0, diameter, lead, friction, flank)
    back = screws.screw_back_driven_efficiency(diameter, lead, friction, flank)
    assert back == pytest.approx(2 * np.pi * braking / lead, rel=1e-9, abs=1e-9)
    assert bool(screws.screw_holds(diameter, lead, friction, flank)) == (braking <= 0)


@given(THREADS)
def test_screws_meet_the_rule_of_equal_loss_when_flat(thread: tuple[float, float, float]) -> None:
    # eta_back = 2 - 1/eta is what remains for small angles; the exact one is never below it
    eta = screws.screw_thread_efficiency(*thread)
    back = screws.screw_back_driven_efficiency(*thread)
    assert back >= 2 - 1 / eta - 1e-12


@pytest.mark.parametrize(
    ("lead", "up", "down", "efficiency"),
    # 8 mm trapezoidal screws (mean 7 mm), 100 N, 0.15: one start of 2 mm, four of 2 mm; worked
    # here as wedges with the flank's coefficient 0.15/cos 15
    [(0.002, 0.0874, 0.0222, 0.364), (0.008, 0.1926, -0.0691, 0.661)],
)
def test_common_lead_screws(lead: float, up: float, down: float, efficiency: float) -> None:
    flank = np.radians(15)
    slope, angle = np.arctan(lead / (np.pi * 0.007)), np.arctan(0.15 / np.cos(flank))
    assert 100 * np.tan(slope + angle) * 0.0035 == pytest.approx(up, abs=6e-5)
    assert 100 * np.tan(angle - slope) * 0.0035 == pytest.approx(down, abs=6e-5)
    thread = (0.007, lead, 0.15, flank)
    assert screws.screw_raise_torque(100, *thread) == pytest.approx(up, abs=6e-5)
    assert screws.screw_lower_torque(100, *thread) == pytest.approx(down, abs=6e-5)
    assert screws.screw_thread_efficiency(*thread) == pytest.approx(efficiency, abs=6e-4)
    assert bool(screws.screw_holds(*thread)) == (down > 0)


def test_a_thread_too_steep_to_drive_is_nan() -> None:
    # lead angle above the complement of the friction angle
    assert np.isnan(screws.screw_raise_torque(100, 0.005, 0.05, 0.5))
    assert np.isnan(screws.screw_thread_efficiency(0.005, 0.05, 0.5))


WORMS = st.tuples(
    st.floats(np.radians(1), np.radians(40)), st.floats(0.01, 0.3), st.floats(0.1, 0.5)
)


@given(WORMS)
def test_worm_from_the_forces_on_one_tooth(gear: tuple[float, float, float]) -> None:
    # Unit normal force on the thread; friction along it. Tangential force on the worm and axial
    # force (tangential on the wheel), and the work of each over one turn.
    lead, friction, pressure = gear
    worm_pull = np.cos(pressure) * np.sin(lead) + friction * np.cos(lead)
    wheel_pull = np.cos(pressure) * np.cos(lead) - friction * np.sin(lead)
    put_in, got_out = worm_pull, wheel_pull * np.tan(lead)
    assert worm.worm_driving_efficiency(*gear) == pytest.approx(got_out / put_in, rel=1e-9)
    # wheel driving: friction the other way round
    worm_pull = np.cos(pressure) * np.sin(lead) - friction * np.cos(lead)
    wheel_pull = np.cos(pressure) * np.cos(lead) + friction * np.sin(lead)
    back = worm_pull / (wheel_pull * np.tan(lead))
    assert worm.wheel_driving_efficiency(*gear) == pytest.approx(back, rel=1e-9, abs=1e-9)
    assert bool(worm.worm_holds(*gear)) == (worm_pull <= 0)


def test_a_worm_without_pressure_angle_is_a_square_screw() -> None:
    lead = worm.worm_lead_angle(2, 0.004, 0.03)
    assert lead == pytest.approx(screws.screw_lead_angle(0.03, 0.008))
    assert worm.worm_driving_efficiency(lead, 0.08, 0.0) == pytest.approx(
        screws.screw_thread_efficiency(0.03, 0.008, 0.08)
    )


def test_sliding_speed_is_rim_and_axial_speed_together() -> None:
    rim, lead = 100.0 * 0.01, 0.165
    assert worm.worm_sliding_speed(100.0, 0.02, lead) == pytest.approx(
        np.hypot(rim, rim * np.tan(lead))
    )


def test_unknown_friction_does_not_hold() -> None:
    assert not worm.worm_holds(0.05, np.nan, 0.25)
    assert not screws.screw_holds(0.007, 0.002, np.nan)
