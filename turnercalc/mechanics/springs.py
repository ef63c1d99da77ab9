"""Springs that balance a tray or bring a lever home: forces, torques, stored energy."""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.linear_actuator import actuator_moment_arm, eye_distance
from turnercalc.mechanics.numeric import Array, Numeric, arrays, choose


def extension_spring_force(
    length: Numeric, free_length: Numeric, stiffness: Numeric, initial_tension: Numeric = 0.0
) -> Array:
    """Return the pull of an extension spring.

    Parameters
    ----------
    length : numeric
        Hook to hook now. [m]
    free_length : numeric
        Hook to hook unloaded. [m]
    stiffness : numeric
        Spring rate k. [N/m]
    initial_tension : numeric
        Pull needed before close-wound coils part. [N]

    Returns
    -------
    Array
        initial tension + k (length - free) while stretched, 0 when slack: it cannot push. [N]
    """
    L, free, k, start = arrays(length, free_length, stiffness, initial_tension)
    stretch = L - free
    return choose(stretch <= 0.0, 0.0 * k, start + k * stretch)


def extension_spring_energy(
    length: Numeric, free_length: Numeric, stiffness: Numeric, initial_tension: Numeric = 0.0
) -> Array:
    """Return the energy an extension spring holds.

    Parameters
    ----------
    length : numeric
        Hook to hook now. [m]
    free_length : numeric
        Hook to hook unloaded. [m]
    stiffness : numeric
        Spring rate k. [N/m]
    initial_tension : numeric
        Pull needed before close-wound coils part. [N]

    Returns
    -------
    Array
        F0 x + k x²/2 of the stretch x, 0 when slack. [J]
    """
    L, free, k, start = arrays(length, free_length, stiffness, initial_tension)
    stretch: Array = np.maximum(L - free, 0.0)
    return start * stretch + k * stretch**2 / 2.0


def extension_spring_torque(
    pivot_to_fixed: Numeric,
    pivot_to_moving: Numeric,
    between: Numeric,
    free_length: Numeric,
    stiffness: Numeric,
    initial_tension: Numeric = 0.0,
) -> Array:
    """Return the torque it takes to open an angle that an extension spring spans.

    Parameters
    ----------
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to the spring's fixed hook; pivot to its moving hook. [m]
    between : numeric
        Angle at the pivot from the fixed to the moving hook, anticlockwise positive. [rad]
    free_length : numeric
        Hook to hook unloaded. [m]
    stiffness : numeric
        Spring rate. [N/m]
    initial_tension : numeric
        Pull needed before close-wound coils part. [N]

    Returns
    -------
    Array
        Pull x moment arm, the slope of the stored energy. [N·m] Positive: it hinders an
        anticlockwise turn of the moving hook.
    """
    length = eye_distance(pivot_to_fixed, pivot_to_moving, between)
    arm = actuator_moment_arm(pivot_to_fixed, pivot_to_moving, between)
    return arm * extension_spring_force(length, free_length, stiffness, initial_tension)


def torsion_spring_torque(angle: Numeric, free_angle: Numeric, stiffness: Numeric) -> Array:
    """Return the torque it takes to turn a torsion spring away from its free angle.

    Parameters
    ----------
    angle, free_angle : numeric
        Angle now and unloaded, anticlockwise positive. [rad]
    stiffness : numeric
        Spring rate. [N·m/rad]

    Returns
    -------
    Array
        k (angle - free), the slope of the stored energy. [N·m]
    """
    q, free, k = arrays(angle, free_angle, stiffness)
    return k * (q - free)


def torsion_spring_energy(angle: Numeric, free_angle: Numeric, stiffness: Numeric) -> Array:
    """Return the energy a torsion spring holds.

    Parameters
    ----------
    angle, free_angle : numeric
        Angle now and unloaded. [rad]
    stiffness : numeric
        Spring rate. [N·m/rad]

    Returns
    -------
    Array
        k (angle - free)²/2. [J]
    """
    q, free, k = arrays(angle, free_angle, stiffness)
    return k * (q - free) ** 2 / 2.0
