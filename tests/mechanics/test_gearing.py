"""Gear trains: power in is power out plus loss, whichever side drives."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics import gearing, teeth

SHARE = st.floats(0.3, 1.0)
RATIO = st.floats(0.2, 100.0)


@given(st.floats(0, 50), RATIO, SHARE)
def test_motor_driving_loses_power_once(load: float, ratio: float, efficiency: float) -> None:
    motor = gearing.torque_before_stage(load, ratio, efficiency, np.nan)
    # turning the motor side once turns the load side 1/ratio
    assert motor * efficiency == pytest.approx(load / ratio)
    assert gearing.torque_after_stage(motor, ratio, efficiency) == pytest.approx(load)


@given(st.floats(-50, 0, exclude_max=True), RATIO, SHARE)
def test_load_driving_loses_the_same_friction(load: float, ratio: float, eta: float) -> None:
    # The rule eta_back = 2 - 1/eta says: the friction torque is the same either way.
    back = gearing.back_driven_efficiency(eta)
    hindering = gearing.torque_before_stage(-load, ratio, eta, back)
    helping = gearing.torque_before_stage(load, ratio, eta, back)
    friction = hindering - (-load / ratio)
    assert helping == pytest.approx(load / ratio + friction, rel=1e-9, abs=1e-12)


def test_a_stage_that_holds_makes_the_motor_push_a_helping_load() -> None:
    assert gearing.torque_before_stage(-5.0, 10.0, 0.4, gearing.back_driven_efficiency(0.4)) > 0
    assert gearing.torque_before_stage(-5.0, 10.0, 0.8, gearing.back_driven_efficiency(0.8)) < 0


@pytest.mark.parametrize(("eta", "back"), [(0.9, 0.889), (0.7, 0.571), (0.5, 0.0)])
def test_usual_back_driven_figures(eta: float, back: float) -> None:
    # from memory, with the loss counted out: of 1/eta put in, 1/eta - 1 is lost
    assert 1 - (1 / eta - 1) == pytest.approx(back, abs=6e-4)
    assert gearing.back_driven_efficiency(eta) == pytest.approx(back, abs=6e-4)


@given(st.lists(st.tuples(st.integers(8, 40), st.integers(8, 90)), min_size=1, max_size=4))
def test_train_is_stage_after_stage(stages: list[tuple[int, int]]) -> None:
    speed = 1000.0
    for driving, driven in stages:
        speed = speed * driving / driven
    ratio = gearing.train_ratio(*zip(*stages, strict=True))
    assert gearing.ratio_for_speed(1000.0, speed) == pytest.approx(ratio)
    assert gearing.train_ratio(20, 40) == 2.0


def test_many_trains_at_once() -> None:
    many = gearing.train_ratio([[10, 12], [20, 24]], [[30, 36], [20, 48]])
    np.testing.assert_allclose(many, [9.0, 2.0])
    np.testing.assert_allclose(gearing.train_efficiency([[0.9, 0.9], [1.0, 0.5]]), [0.81, 0.5])


@given(st.floats(-5, 5), st.floats(-5, 5), st.integers(12, 40), st.integers(5, 30))
def test_epicyclic_pitch_lines_do_not_slip(
    carrier: float, ring: float, sun_teeth: int, planet_teeth: int
) -> None:
    ring_teeth = sun_teeth + 2 * planet_teeth
    sun, planet = gearing.epicyclic_speeds(carrier, ring, sun_teeth, ring_teeth)
    # speeds of the teeth in units of half a module, at sun's and ring's mesh
    centre = carrier * (sun_teeth + planet_teeth)
    assert sun * sun_teeth == pytest.approx(centre - planet * planet_teeth, abs=1e-9)
    assert ring * ring_teeth == pytest.approx(centre + planet * planet_teeth, abs=1e-9)


def test_planetary_stage() -> None:
    # ring 72, sun 12: 1 + 72/12 = 7, and the same through the speeds with the ring held
    assert gearing.planetary_ratio(12, 72) == 7
    sun, _ = gearing.epicyclic_speeds(1.0, 0.0, 12, 72)
    assert sun == pytest.approx(7.0)


@given(st.floats(0.001, 5), st.floats(0.01, 2), st.floats(0.1, 30))
def test_reflected_inertia_keeps_the_energy(inertia: float, ratio: float, speed: float) -> None:
    there = inertia * (ratio * speed) ** 2 / 2
    assert gearing.reflected_inertia(inertia, ratio) * speed**2 / 2 == pytest.approx(there)
    assert gearing.reflected_mass(inertia, ratio) * speed**2 / 2 == pytest.approx(there)


def test_row_of_shafts_pays_every_drive_on_the_way() -> None:
    # worked back from the far end, drive by drive
    torques, eta = [0.02, 0.03, 0.04, 0.05], 0.9
    head = 0.0
    for torque in reversed(torques):
        head = torque + head / eta
    assert gearing.chained_shafts_torque(torques, eta) == pytest.approx(head)
    assert gearing.chained_shafts_torque(0.02, eta) == pytest.approx(0.02)
    many = gearing.chained_shafts_torque([torques, torques], [0.9, 1.0])
    np.testing.assert_allclose(many, [head, sum(torques)])


def test_a_load_that_turns_the_other_way_has_no_ratio() -> None:
    assert np.isnan(gearing.ratio_for_speed(10.0, -1.0))
    assert np.isnan(gearing.ratio_for_speed(10.0, 0.0))


def test_sizes_by_definition() -> None:
    # 20 teeth of 2 mm pitch: circumference 40 mm; module 1, 20 and 60 teeth
    assert teeth.belt_pitch_diameter(20, 2.0) == pytest.approx(12.732, abs=6e-4)
    assert teeth.spur_pitch_diameter(0.8, 25) == pytest.approx(20.0)
    assert teeth.spur_centre_distance(1.0, 20, 60) == 40.0


@pytest.mark.parametrize(("pressure_deg", "least"), [(14.5, 32), (20, 17), (25, 12)])
def test_least_teeth(pressure_deg: float, least: int) -> None:
    # gear cutters' rule, from memory: 32, 17 (18 strictly) and 12 teeth
    assert teeth.least_teeth_without_undercut(np.radians(pressure_deg)) == pytest.approx(
        least, abs=0.9
    )


@pytest.mark.parametrize("z", [9, 15, 38])
def test_sprocket_pins_stand_a_pitch_apart(z: int) -> None:
    radius = teeth.sprocket_pitch_diameter(z, 6.35) / 2
    assert radius * abs(np.exp(2j * np.pi / z) - 1) == pytest.approx(6.35)


def test_open_belt_round_two_pulleys() -> None:
    # walked along: the straight runs touch both circles square to their radii
    d1, d2, c = 0.02, 0.06, 0.2
    lean = np.arcsin((d2 - d1) / 2 / c)
    touch = [d / 2 * np.exp(1j * (np.pi / 2 + lean)) + at for d, at in ((d1, 0), (d2, c))]
    straight = abs(touch[1] - touch[0])
    arcs = d1 / 2 * (np.pi - 2 * lean) + d2 / 2 * (np.pi + 2 * lean)
    assert teeth.open_belt_length(d1, d2, c) == pytest.approx(2 * straight + arcs)
    assert teeth.teeth_in_mesh(20, d1, d2, c) == pytest.approx(20 * (np.pi - 2 * lean) / 2 / np.pi)
    assert teeth.teeth_in_mesh(20, d1, d2, c) + teeth.teeth_in_mesh(60, d2, d1, c) / 3 == (
        pytest.approx(20.0)
    )
    assert np.isnan(teeth.open_belt_length(0.02, 0.6, 0.2))
