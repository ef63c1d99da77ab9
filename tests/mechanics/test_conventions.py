"""What every function of mechanics promises: scalar == vector, NaN in NaN out, units told."""

import importlib
import inspect
import pkgutil
import re

import numpy as np
import pytest

import turnercalc.mechanics

# One workable set of arguments per function, in SI. A function with an array axis of its own
# (stations, steps, places along a path) is in PATHS below instead.
EXAMPLES = {
    "ac_motor.synchronous_speed": (4, 50),
    "ac_motor.slip": (157.08, 150.0),
    "ac_motor.speed_at_slip": (157.08, 0.04),
    "ac_motor.induction_speed_at_torque": (157.08, 150.0, 2.0, 1.1),
    "ac_motor.speed_ratio_of_frequency": (50, 60),
    "ac_motor.efficiency": (2.0, 12.0),
    "balance.gravity_torque": (0.1, -0.4, 0.6),
    "balance.contiguous_moment": (0.06, 0.15, 12, 5),
    "balance.contiguous_eccentricity": (0.15, 12, 5),
    "balance.counterweight_mass": (0.06, 0.2),
    "balance.two_plane_split": (0.5, 0.1, 0.0, 0.6),
    "beams.round_second_moment": (0.01, 0.006),
    "beams.rectangle_second_moment": (0.02, 0.003),
    "beams.bending_stress": (12.0, 4.9e-10, 0.005),
    "beams.uniform_load_moment": (100.0, 1.0),
    "beams.uniform_load_sag": (100.0, 1.0, 200e9, 4.9e-10),
    "beams.central_load_moment": (100.0, 1.0),
    "beams.central_load_sag": (100.0, 1.0, 200e9, 4.9e-10),
    "beams.fixed_uniform_load_moment": (100.0, 1.0),
    "beams.fixed_uniform_load_sag": (100.0, 1.0, 200e9, 4.9e-10),
    "beams.fixed_central_load_moment": (100.0, 1.0),
    "beams.fixed_central_load_sag": (100.0, 1.0, 200e9, 4.9e-10),
    "beams.overhang_moment": (40.0, 0.03),
    "beams.overhang_sag": (40.0, 0.03, 200e9, 4.9e-10),
    "buckling.radius_of_gyration": (4.9e-10, 7.85e-5),
    "buckling.transition_slenderness": (200e9, 250e6),
    "buckling.euler_load": (200e9, 4.9e-10, 0.5, 1.0),
    "buckling.johnson_load": (200e9, 4.9e-10, 7.85e-5, 0.1, 250e6, 1.0),
    "buckling.buckling_load": (200e9, 4.9e-10, 7.85e-5, 0.4, 250e6, 1.0),
    "dc_motor.torque_at_speed": (2.0, 1.0, 0.4),
    "dc_motor.speed_at_torque": (2.0, 1.0, 0.4),
    "dc_motor.stall_torque_from_rated": (0.5, 0.7, 1.0),
    "dc_motor.largest_power": (2.0, 1.0),
    "dc_motor.current_at_torque": (0.4, 2.0, 0.1, 3.0),
    "dc_motor.efficiency_at_current": (0.5, 0.1, 3.0),
    "dc_motor.best_efficiency": (0.1, 3.0),
    "dc_motor.winding_heat": (0.5, 4.0),
    "dc_motor.hot_resistance": (4.0, 80.0),
    "dc_motor.line_at_voltage": (2.0, 1.0, 11.0, 12.0),
    "dc_motor.line_at_switching_duty": (2.0, 1.0, 0.6, 0.1, 3.0),
    "friction.friction_circle_radius": (0.004, 0.3),
    "friction.journal_torque": (80.0, 0.004, 0.3),
    "friction.slip_angle": (0.4,),
    "friction.tip_angle": (0.1, 0.3),
    "friction.push_along_incline": (10.0, 0.4, 0.2),
    "friction.level_push_up_incline": (10.0, 0.4, 0.2),
    "friction.thrust_torque_even_pressure": (30.0, 0.02, 0.008, 0.15),
    "friction.thrust_torque_even_wear": (30.0, 0.02, 0.008, 0.15),
    "friction.rolling_bearing_torque": (100.0, 0.008, 0.0015),
    "friction.rolling_resistance": (100.0, 0.0005, 0.02),
    "friction.seal_torque": (100.0, 0.008, 0.4),
    "friction.capstan_ratio": (3.0, 0.3),
    "friction.belt_slip_torque": (10.0, 0.02, 3.0, 0.3),
    "gearing.planetary_ratio": (12, 72),
    "gearing.epicyclic_speeds": (1.0, 0.2, 32, 72),
    "gearing.back_driven_efficiency": (0.8,),
    "gearing.torque_before_stage": (3.0, 4.0, 0.8, 0.75),
    "gearing.torque_after_stage": (3.0, 4.0, 0.8),
    "gearing.reflected_inertia": (3.0, 0.1),
    "gearing.reflected_mass": (3.0, 0.01),
    "gearing.ratio_for_speed": (10.0, 2.0),
    "linear_actuator.eye_distance": (0.2, 0.06, 1.2),
    "linear_actuator.actuator_moment_arm": (0.2, 0.06, 1.2),
    "linear_actuator.actuator_moment_arm_rate": (0.2, 0.06, 1.2),
    "linear_actuator.angle_at_length": (0.2, 0.06, 0.19),
    "linear_actuator.actuator_stroke": (0.2, 0.06, 0.8, 2.3),
    "linear_actuator.actuator_force": (10.0, 0.2, 0.06, 1.2),
    "motion.driven_speed": (0.5, 2.0),
    "motion.driven_acceleration": (0.5, 0.2, 2.0, 0.1),
    "motion.swinging_acceleration": (0.3, 2.0, 1.0),
    "motion.moving_pin_acceleration": (0.1, 0.2, 0.3, 0.4, 2.0, 1.0),
    "pins.pin_shear_stress": (800.0, 0.008, 1.0),
    "pins.pin_bearing_pressure": (800.0, 0.008, 0.006),
    "pins.hole_tear_out_stress": (800.0, 0.01, 0.006),
    "pushing.contact_angle": (0.022, 0.02, 0.004),
    "pushing.climb_angle": (0.022, 0.0127, 0.0005),
    "pushing.mesh_rolling_radius": (0.022, 0.0127, 0.0005),
    "pushing.mesh_drop": (0.022, 0.0127, 0.0005),
    "pushing.pushed": (0.6, 0.0225, 0.001, 0.3, 0.1, 0.1, 0.02, 0.0005),
    "pushing.dragged": (0.6, 0.0225, 0.001, 0.3),
    "pushing.grid_stroke": (3.14, 0.0225, 0.004),
    "pushing.turn_by_grid": (0.07, 0.0225, 0.004),
    "rolling.creepage": (2.0, 20.0, 0.5, 0.001, 0.3),
    "rolling.nest_angle": (0.022, 0.008, 0.036),
    "rolling.nest_height": (0.022, 0.008, 0.036),
    "rolling.nest_force": (0.6, 0.64),
    "rolling.leaning_nest_forces": (0.6, 0.64, 0.1),
    "rolling.egg_turn_ratio": (0.022, 0.008),
    "rolling.rolling_loss_at_bar": (0.4, 0.001, 0.022, 0.008),
    "rolling.nest_slip_torque": (0.6, 0.022, 0.64, 0.3),
    "rolling.lopsided_torque_at_bar": (0.6, 0.001, 0.022, 0.008, 1.0),
    "rolling.roll_angle": (0.09, 0.0225),
    "rolling.rolling_push": (0.6, 0.0225, 0.001, 0.3),
    "rolling.floor_force_under_push": (0.6, 0.03, 0.3),
    "rolling.dragging_push": (0.6, 0.1, 0.3),
    "rolling.runner_pin": (0.3, 0.05, 0.2, 0.4),
    "screws.screw_lead_angle": (0.007, 0.002),
    "screws.screw_raise_torque": (100.0, 0.007, 0.002, 0.15, 0.26),
    "screws.screw_lower_torque": (100.0, 0.007, 0.002, 0.15, 0.26),
    "screws.collar_torque": (100.0, 0.01, 0.1),
    "screws.screw_efficiency": (100.0, 0.002, 0.087),
    "screws.screw_thread_efficiency": (0.007, 0.002, 0.15, 0.26),
    "screws.screw_back_driven_efficiency": (0.007, 0.008, 0.15, 0.26),
    "screws.friction_angle_of": (0.4, 0.1),
    "screws.thread_back_efficiency": (0.4, 0.1),
    "slider_crank.close_slider": (0.05, 0.15, 0.01, 0.7, 1),
    "slider_crank.slider_limits": (0.05, 0.15, 0.01),
    "slider_crank.slider_stroke": (0.05, 0.15, 0.01),
    "slider_crank.slider_time_ratio": (0.05, 0.15, 0.01),
    "slider_crank.crank_angles_at": (0.05, 0.15, 0.01, 0.16),
    "slider_crank.slider_shaft_torque": (30.0, 0.04),
    "slotted_lever.block_distance": (0.12, 0.3, 0.7),
    "slotted_lever.lever_angle": (0.12, 0.3, 0.7),
    "slotted_lever.lever_rate": (0.12, 0.3, 0.7),
    "slotted_lever.lever_second": (0.12, 0.3, 0.7),
    "slotted_lever.slip_rate": (0.12, 0.3, 0.7),
    "slotted_lever.lever_swing": (0.12, 0.3),
    "slotted_lever.crank_for_swing": (0.3, 1.2),
    "slotted_lever.lever_end_angles": (0.12, 0.3),
    "slotted_lever.lever_time_ratio": (0.12, 0.3),
    "slotted_lever.lever_fastest_rates": (0.12, 0.3),
    "slotted_lever.lever_stroke": (0.5, 0.12, 0.3),
    "slotted_lever.whitworth_time_ratio": (0.3, 0.12),
    "springs.extension_spring_force": (0.15, 0.1, 200.0, 2.0),
    "springs.extension_spring_energy": (0.15, 0.1, 200.0, 2.0),
    "springs.extension_spring_torque": (0.2, 0.06, 1.2, 0.1, 200.0, 2.0),
    "springs.torsion_spring_torque": (0.6, 0.1, 2.0),
    "springs.torsion_spring_energy": (0.6, 0.1, 2.0),
    "synthesis.inline_crank_rocker": (0.1, 1.5, 0.4),
    "synthesis.least_transmission_angle": (0.04, 0.12, 0.08, 0.1),
    "synthesis.crank_rocker_limits": (0.04, 0.12, 0.08, 0.1),
    "synthesis.imbalance_of_time_ratio": (1.2,),
    "synthesis.crank_rocker_for": (0.04, 0.12, 1.0, 0.2),
    "teeth.spur_pitch_diameter": (0.001, 20),
    "teeth.spur_centre_distance": (0.001, 20, 60),
    "teeth.least_teeth_without_undercut": (0.349,),
    "teeth.belt_pitch_diameter": (20, 0.002),
    "teeth.sprocket_pitch_diameter": (20, 0.00635),
    "teeth.chain_length_in_pitches": (17, 51, 0.00952, 0.3),
    "teeth.open_belt_length": (0.02, 0.06, 0.2),
    "teeth.teeth_in_mesh": (20, 0.02, 0.06, 0.2),
    "thermal.cyclic_duration_factor": (60, 540),
    "thermal.intermittent_overload_bound": (0.25,),
    "thermal.short_time_overload": (60.0, 900.0, 0.4),
    "thermal.intermittent_overload": (60.0, 300.0, 900.0, 1800.0, 0.4),
    "thermal.ambient_factor": (50.0, 60.0, 40.0),
    "thermal.dew_point": (37.5, 0.6),
    "thermal.steady_rise": (10.0, 1.2),
    "torsion.round_polar_moment": (0.01, 0.006),
    "torsion.torsion_stress": (1.0, 0.008, 0.002),
    "torsion.shaft_twist": (1.0, 0.5, 79e9, 0.008, 0.002),
    "torsion.largest_shear_stress": (30e6, 10e6),
    "torsion.von_mises_stress": (30e6, 10e6),
    "worm.worm_lead_angle": (2, 0.013, 0.05),
    "worm.worm_driving_efficiency": (0.165, 0.05, 0.25),
    "worm.wheel_driving_efficiency": (0.165, 0.05, 0.25),
    "worm.worm_sliding_speed": (100.0, 0.02, 0.165),
    "yokes.yoke_position": (0.02, 1.0),
    "yokes.yoke_rate": (0.02, 1.0),
    "yokes.yoke_second": (0.02, 1.0),
    "yokes.eccentric_lift": (0.01, 2.0),
    "yokes.eccentric_shaft_torque": (30.0, 0.01, 2.0, 0.03, 0.1),
}
# These answer yes or no, or with a word; NaN cannot come out of them (tested with their topic).
ANSWERS = {
    "rolling.drags",
    "screws.screw_holds",
    "thermal.duty_type",
    "worm.worm_holds",
}
# These use an axis of their own; tested with their topic.
PATHS = {
    "balance.mass_moment",
    "balance.station_moment",
    "gearing.chained_shafts_torque",
    "gearing.train_efficiency",
    "gearing.train_ratio",
    "motion.rms_of_ramps",
    "motion.rms_of_steps",
    "motion.share_of_time_beyond",
    "motion.time_along",
    "motion.times_along",
    "synthesis.best_crank_rocker",
    "synthesis.chebyshev_points",
    "synthesis.freudenstein_crank_rocker",
    "thermal.transmittance",
}
# Arguments that rightly do not matter at the example's values, by position: a helping load
# never meets eta, a hindering one never meets eta_back.
SILENT = {"gearing.torque_before_stage": {3}}


# Tools of the others, the loop with its own tests, and an iteration that takes functions.
APART = {"numeric", "constants", "four_bar", "settling"}


def public_functions():
    for module in pkgutil.iter_modules(turnercalc.mechanics.__path__):
        if module.name in APART:
            continue
        loaded = importlib.import_module(f"turnercalc.mechanics.{module.name}")
        for name, function in inspect.getmembers(loaded, inspect.isfunction):
            if function.__module__ == loaded.__name__ and not name.startswith("_"):
                yield f"{module.name}.{name}", function


FUNCTIONS = dict(public_functions())


def parts(result):
    return result if isinstance(result, tuple) else (result,)


def test_every_function_is_listed_here():
    assert set(FUNCTIONS) == set(EXAMPLES) | ANSWERS | PATHS


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_float_gives_a_float_and_a_vector_gives_the_same(name):
    function, example = FUNCTIONS[name], EXAMPLES[name]
    single = parts(function(*example))
    several = parts(function(*[np.full((2, 3), value, dtype=float) for value in example]))
    for one, many in zip(single, several, strict=True):
        assert isinstance(one, np.float64)
        assert np.isfinite(one), "the example must be a case that works"
        assert many.shape == (2, 3)
        # broadcast loops may use other machine instructions than scalars: last digits only
        np.testing.assert_allclose(many, one, rtol=1e-14)


@pytest.mark.parametrize("name", EXAMPLES)
def test_arguments_broadcast(name):
    function, example = FUNCTIONS[name], EXAMPLES[name]
    count = len(example)
    grid = [
        np.reshape([value, value * (1 + 1e-3)], [2 if axis == n else 1 for axis in range(count)])
        for n, value in enumerate(map(float, example))
    ]
    for array in parts(function(*grid)):
        assert all(size in (1, 2) for size in array.shape)
        assert np.isfinite(array.flat[0])


@pytest.mark.parametrize("name", EXAMPLES)
def test_nan_in_gives_nan_out(name):
    function, example = FUNCTIONS[name], EXAMPLES[name]
    for position in range(len(example)):
        if position in SILENT.get(name, ()):
            continue
        spoiled = list(map(float, example))
        spoiled[position] = np.nan
        results = parts(function(*spoiled))
        assert any(np.isnan(result) for result in results), f"argument {position}"


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_argument_is_told_with_its_unit(name):
    function = FUNCTIONS[name]
    text = inspect.getdoc(function)
    section = text.split("Parameters\n----------\n")[1].split("\nReturns\n")[0]
    told = {}
    for block in re.split(r"\n(?=\S)", section.rstrip()):
        names, _, meaning = block.partition(" : ")
        for argument in names.split(","):
            told[argument.strip()] = meaning
    assert set(told) == set(inspect.signature(function).parameters)
    for argument, meaning in told.items():
        assert re.search(r"\[[^]]+\]|\+1", meaning), f"{argument} has no unit"
