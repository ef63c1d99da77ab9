"""Power screws: lead screws of actuators and clamps, square, Acme and trapezoidal threads.

`half_flank_angle` is half the thread angle: 0 for a square thread, 14.5 degrees for Acme,
15 degrees for metric trapezoidal.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Mask, Numeric, arrays, divide_or_nan, nan_unless


def screw_lead_angle(mean_diameter: Numeric, lead: Numeric) -> Array:
    """Return the lead angle of a screw on its mean diameter.

    Parameters
    ----------
    mean_diameter : numeric
        Mean thread diameter. [m]
    lead : numeric
        Travel per turn: starts x pitch. [m]

    Returns
    -------
    Array
        atan(lead/(π diameter)). [rad]
    """
    d, L = arrays(mean_diameter, lead)
    return np.arctan2(L, np.pi * d)


def screw_raise_torque(
    force: Numeric,
    mean_diameter: Numeric,
    lead: Numeric,
    friction: Numeric,
    half_flank_angle: Numeric = 0.0,
) -> Array:
    """Return the thread torque that moves a screw against its load.

    Parameters
    ----------
    force : numeric
        Axial load F. [N]
    mean_diameter : numeric
        Mean thread diameter d. [m]
    lead : numeric
        Travel per turn L. [m]
    friction : numeric
        Friction coefficient f of the thread. [-]
    half_flank_angle : numeric
        Half thread angle. [rad]

    Returns
    -------
    Array
        (F d/2)(L + π f d sec a)/(π d - f L sec a), collar not included. [N·m] NaN where the
        thread is so steep and rough that no torque moves it.

    References
    ----------
    Shigley's Mechanical Engineering Design, equations 8-1 and 8-5.
    """
    f_axial, d, L, f, a = arrays(force, mean_diameter, lead, friction, half_flank_angle)
    f_sec = f / np.cos(a)
    below = np.pi * d - f_sec * L
    return nan_unless(below > 0.0, f_axial * d / 2.0 * divide_or_nan(L + np.pi * f_sec * d, below))


def screw_lower_torque(
    force: Numeric,
    mean_diameter: Numeric,
    lead: Numeric,
    friction: Numeric,
    half_flank_angle: Numeric = 0.0,
) -> Array:
    """Return the thread torque that moves a screw with its load.

    Parameters
    ----------
    force : numeric
        Axial load F. [N]
    mean_diameter : numeric
        Mean thread diameter d. [m]
    lead : numeric
        Travel per turn L. [m]
    friction : numeric
        Friction coefficient f of the thread. [-]
    half_flank_angle : numeric
        Half thread angle. [rad]

    Returns
    -------
    Array
        (F d/2)(π f d sec a - L)/(π d + f L sec a), collar not included; negative where the
        load runs the screw by itself. [N·m]
    """
    f_axial, d, L, f, a = arrays(force, mean_diameter, lead, friction, half_flank_angle)
    f_sec = f / np.cos(a)
    return f_axial * d / 2.0 * divide_or_nan(np.pi * f_sec * d - L, np.pi * d + f_sec * L)


def collar_torque(force: Numeric, collar_diameter: Numeric, friction: Numeric) -> Array:
    """Return the friction torque of the thrust collar of a screw.

    Parameters
    ----------
    force : numeric
        Axial load. [N]
    collar_diameter : numeric
        Mean diameter of the collar. [m]
    friction : numeric
        Friction coefficient of the collar. [-]

    Returns
    -------
    Array
        F f d/2. [N·m]
    """
    f_axial, d, f = arrays(force, collar_diameter, friction)
    return f_axial * f * d / 2.0


def screw_efficiency(force: Numeric, lead: Numeric, torque: Numeric) -> Array:
    """Return the share of a screw's work that reaches the load.

    Parameters
    ----------
    force : numeric
        Axial load. [N]
    lead : numeric
        Travel per turn. [m]
    torque : numeric
        Whole torque, thread and collar. [N·m]

    Returns
    -------
    Array
        F L/(2π T). [-]
    """
    f_axial, L, t = arrays(force, lead, torque)
    return divide_or_nan(f_axial * L, 2.0 * np.pi * t)


def screw_thread_efficiency(
    mean_diameter: Numeric, lead: Numeric, friction: Numeric, half_flank_angle: Numeric = 0.0
) -> Array:
    """Return the efficiency of the thread alone with the screw driving.

    Parameters
    ----------
    mean_diameter, lead : numeric
        Mean thread diameter; travel per turn. [m]
    friction : numeric
        Friction coefficient of the thread. [-]
    half_flank_angle : numeric
        Half thread angle. [rad]

    Returns
    -------
    Array
        tan l/tan(l + p), l the lead angle and p = atan(f sec a). [-] NaN where the thread
        cannot be driven at all.
    """
    d, lead_, f, a = arrays(mean_diameter, lead, friction, half_flank_angle)
    L = screw_lead_angle(d, lead_)
    p = np.arctan(f / np.cos(a))
    return nan_unless(L + p < np.pi / 2.0, divide_or_nan(np.tan(L), np.tan(L + p)))


def screw_back_driven_efficiency(
    mean_diameter: Numeric, lead: Numeric, friction: Numeric, half_flank_angle: Numeric = 0.0
) -> Array:
    """Return the efficiency of the thread alone with the load driving the screw.

    Parameters
    ----------
    mean_diameter, lead : numeric
        Mean thread diameter; travel per turn. [m]
    friction : numeric
        Friction coefficient of the thread. [-]
    half_flank_angle : numeric
        Half thread angle. [rad]

    Returns
    -------
    Array
        tan(l - p)/tan l, l the lead angle and p = atan(f sec a). [-] Zero or less: the screw
        holds its load.
    """
    d, lead_, f, a = arrays(mean_diameter, lead, friction, half_flank_angle)
    L = screw_lead_angle(d, lead_)
    p = np.arctan(f / np.cos(a))
    return divide_or_nan(np.tan(L - p), np.tan(L))


def friction_angle_of(efficiency: Numeric, lead_angle: Numeric) -> Array:
    """Return the friction angle of a thread whose efficiency with the screw driving is known.

    Parameters
    ----------
    efficiency : numeric
        tan l/tan(l + p), l the lead angle. [-]
    lead_angle : numeric
        Of the thread, above 0 and below π/2. [rad]

    Returns
    -------
    Array
        p = atan(tan l/efficiency) - l. [rad] The same p stands for a worm, as the angle whose
        tangent is its friction over the cosine of its pressure angle.
    """
    eta, lead = arrays(efficiency, lead_angle)
    return np.arctan(divide_or_nan(np.tan(lead), eta)) - lead


def thread_back_efficiency(efficiency: Numeric, lead_angle: Numeric) -> Array:
    """Return the efficiency with the load driving, of a worm or screw that is known by its other.

    Parameters
    ----------
    efficiency : numeric
        With the worm or screw driving. [-]
    lead_angle : numeric
        Of the thread. [rad]

    Returns
    -------
    Array
        tan(l - p)/tan l, p the friction angle. [-] Zero or less: it holds its load.
    """
    eta, lead = arrays(efficiency, lead_angle)
    return divide_or_nan(np.tan(lead - friction_angle_of(eta, lead)), np.tan(lead))


def screw_holds(
    mean_diameter: Numeric, lead: Numeric, friction: Numeric, half_flank_angle: Numeric = 0.0
) -> Mask:
    """Say whether a load cannot run the screw (self-locking), collar not counted.

    Parameters
    ----------
    mean_diameter, lead : numeric
        Mean thread diameter; travel per turn. [m]
    friction : numeric
        Friction coefficient of the thread at rest. [-]
    half_flank_angle : numeric
        Half thread angle. [rad]

    Returns
    -------
    Mask
        True where π f d sec a >= L. False for NaN.
    """
    d, L, f, a = arrays(mean_diameter, lead, friction, half_flank_angle)
    return np.asarray(np.pi * f * d / np.cos(a) >= L)[()]
