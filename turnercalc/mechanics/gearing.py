"""Trains of gears, chains and belts: speeds, torques, losses both ways, what the motor feels.

A *ratio* is turns of the motor side per turn of the load side, so more than 1 slows down.
Efficiencies are shares of power (0 to 1) with the motor driving.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, choose, divide_or_nan, nan_unless


def train_ratio(driving_teeth: Numeric, driven_teeth: Numeric) -> Array:
    """Return the ratio of a whole train, stage after stage along the last axis.

    Parameters
    ----------
    driving_teeth, driven_teeth : numeric
        Teeth (or pitch diameters) of the driving and the driven wheel of each stage. [-]

    Returns
    -------
    Array
        Product of driven over driving: input turns per output turn. [-]
    """
    driving, driven = arrays(driving_teeth, driven_teeth)
    whole: Array = np.prod(np.atleast_1d(divide_or_nan(driven, driving)), axis=-1)
    return whole


def train_efficiency(stage_efficiencies: Numeric) -> Array:
    """Return the efficiency of stages one after another, along the last axis.

    Parameters
    ----------
    stage_efficiencies : numeric
        Efficiency of each stage with the motor driving. [-]

    Returns
    -------
    Array
        Their product. [-]
    """
    (each,) = arrays(stage_efficiencies)
    whole: Array = np.prod(np.atleast_1d(each), axis=-1)
    return whole


def planetary_ratio(sun_teeth: Numeric, ring_teeth: Numeric) -> Array:
    """Return the ratio of a planetary stage: sun driving, ring held, carrier driven.

    Parameters
    ----------
    sun_teeth, ring_teeth : numeric
        Teeth of the sun and of the ring. [-]

    Returns
    -------
    Array
        1 + ring/sun. [-]
    """
    sun, ring = arrays(sun_teeth, ring_teeth)
    return 1.0 + divide_or_nan(ring, sun)


def epicyclic_speeds(
    carrier_speed: Numeric, ring_speed: Numeric, sun_teeth: Numeric, ring_teeth: Numeric
) -> tuple[Array, Array]:
    """Return the speeds of sun and planet for given speeds of carrier and ring.

    Parameters
    ----------
    carrier_speed, ring_speed : numeric
        Turning speeds, anticlockwise positive. [rad/s]
    sun_teeth, ring_teeth : numeric
        Teeth of the sun (external) and of the ring (internal). [-]

    Returns
    -------
    tuple of Array
        (sun, planet). [rad/s] The planet has (ring - sun)/2 teeth; NaN where that is zero.

    Notes
    -----
    Seen from the carrier the wheels turn as fixed wheels do (Willis):
    (sun - carrier)/(ring - carrier) = -ring teeth/sun teeth.
    """
    carrier, ring, z_sun, z_ring = arrays(carrier_speed, ring_speed, sun_teeth, ring_teeth)
    ring_seen_from_carrier = ring - carrier
    sun = carrier - ring_seen_from_carrier * divide_or_nan(z_ring, z_sun)
    planet = carrier + ring_seen_from_carrier * divide_or_nan(2.0 * z_ring, z_ring - z_sun)
    return sun, planet


def back_driven_efficiency(efficiency: Numeric) -> Array:
    """Return the efficiency with the load driving, of a stage whose loss grows with the load.

    Parameters
    ----------
    efficiency : numeric
        Efficiency with the motor driving. [-]

    Returns
    -------
    Array
        2 - 1/efficiency. [-] Zero or less (efficiency 0.5 or less): the load cannot drive the
        stage, and the motor has to push although the load would help.

    Notes
    -----
    With the same friction torque at the load, T (1/eta - 1), taken off instead of added:
    T - T (1/eta - 1). Screws and worms have exact forms in `screws` and `worm`; common
    practice elsewhere, from memory.
    """
    (eta,) = arrays(efficiency)
    return 2.0 - divide_or_nan(1.0, eta)


def torque_before_stage(
    load_torque: Numeric, ratio: Numeric, efficiency: Numeric, back_efficiency: Numeric
) -> Array:
    """Return the torque at the motor side of a stage, whichever side drives.

    Parameters
    ----------
    load_torque : numeric
        Torque at the load side, as the motor feels it: positive = the motor pushes. [N·m]
    ratio : numeric
        Turns of the motor side per turn of the load side. [-]
    efficiency : numeric
        Efficiency with the motor driving. [-]
    back_efficiency : numeric
        Efficiency with the load driving; may be negative (the stage holds its load). [-]

    Returns
    -------
    Array
        load/(ratio eta) where the load hinders, load eta_back/ratio where it helps; a negative
        eta_back turns a helping load into one the motor has to push. [N·m]
    """
    torque, n, eta, eta_back = arrays(load_torque, ratio, efficiency, back_efficiency)
    return choose(
        torque >= 0.0,
        divide_or_nan(torque, n * eta),
        divide_or_nan(torque * eta_back, n),
    )


def torque_after_stage(motor_torque: Numeric, ratio: Numeric, efficiency: Numeric) -> Array:
    """Return the torque a driving motor gives at the load side of a stage.

    Parameters
    ----------
    motor_torque : numeric
        Torque at the motor side, zero or more. [N·m]
    ratio : numeric
        Turns of the motor side per turn of the load side. [-]
    efficiency : numeric
        Efficiency with the motor driving. [-]

    Returns
    -------
    Array
        torque x ratio x efficiency. [N·m]
    """
    torque, n, eta = arrays(motor_torque, ratio, efficiency)
    return torque * n * eta


def reflected_inertia(inertia: Numeric, speed_ratio: Numeric) -> Array:
    """Return a turning part's inertia as the motor feels it.

    Parameters
    ----------
    inertia : numeric
        Moment of inertia of the part. [kg·m²]
    speed_ratio : numeric
        Speed of the part over speed of the motor. [-]

    Returns
    -------
    Array
        inertia x ratio². [kg·m²]
    """
    j, n = arrays(inertia, speed_ratio)
    return j * n**2


def reflected_mass(mass: Numeric, metres_per_radian: Numeric) -> Array:
    """Return the inertia a straight-moving mass puts on the motor.

    Parameters
    ----------
    mass : numeric
        Mass of the part. [kg]
    metres_per_radian : numeric
        Travel of the mass per radian of the motor. [m/rad]

    Returns
    -------
    Array
        mass x travel². [kg·m²]
    """
    m, travel = arrays(mass, metres_per_radian)
    return m * travel**2


def chained_shafts_torque(shaft_torques: Numeric, efficiency: Numeric) -> Array:
    """Return the torque at the head of a row of equal shafts, each driving the next one to one.

    Parameters
    ----------
    shaft_torques : numeric
        Torque each shaft needs for itself, nearest the motor first, along the last axis. [N·m]
    efficiency : numeric
        Efficiency of one shaft-to-shaft drive, the motor driving. [-]

    Returns
    -------
    Array
        Sum of T_j/eta^j, j = 0 for the driven shaft itself: the far shafts' torque passes
        through every drive on the way. [N·m]
    """
    torques, eta = arrays(shaft_torques, efficiency)
    passed = np.arange(torques.shape[-1] if torques.ndim else 1)
    head: Array = np.sum(np.atleast_1d(torques) / eta[..., np.newaxis] ** passed, axis=-1)
    return head


def ratio_for_speed(motor_speed: Numeric, load_speed: Numeric) -> Array:
    """Return the ratio that turns a motor speed into a wanted load speed.

    Parameters
    ----------
    motor_speed, load_speed : numeric
        Turning speeds in the same sense. [rad/s]

    Returns
    -------
    Array
        motor speed / load speed. [-] NaN for a load that stands still or opposite senses.
    """
    motor, load = arrays(motor_speed, load_speed)
    ratio = divide_or_nan(motor, load)
    return nan_unless(ratio > 0.0, ratio)
