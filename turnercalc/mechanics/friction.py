"""Dry friction: journals, faces, inclines, bearings, rolling and wrapped belts.

Coefficients are plain ratios (`friction`), never angles. Torques and forces of friction are
given as magnitudes; the caller knows which way things move.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arrays,
    divide_or_nan,
    nan_unless,
)


def friction_circle_radius(radius: Numeric, friction: Numeric) -> Array:
    """Return the radius of the circle a journal's reaction stays tangent to while it turns.

    Parameters
    ----------
    radius : numeric
        Radius of the journal (pin, shaft). [m]
    friction : numeric
        Friction coefficient. [-]

    Returns
    -------
    Array
        radius x sin(atan friction). [m] Books often write radius x friction, which is the same
        for small coefficients; at 0.45 it is 10 % too much.
    """
    r, f = arrays(radius, friction)
    return r * np.sin(np.arctan(f))


def journal_torque(force: Numeric, radius: Numeric, friction: Numeric) -> Array:
    """Return the friction torque of a dry journal in its hole.

    Parameters
    ----------
    force : numeric
        Resultant force on the pin, friction included. [N]
    radius : numeric
        Radius of the pin. [m]
    friction : numeric
        Friction coefficient. [-]

    Returns
    -------
    Array
        abs(force) x radius x sin(atan friction). [N·m]

    References
    ----------
    Beer and Johnston, Vector Mechanics: Statics, section 8.3A (journal bearings).
    """
    return np.abs(arrays(force)[0]) * friction_circle_radius(radius, friction)


def slip_angle(friction: Numeric) -> Array:
    """Return the slope at which a thing begins to slide (the friction angle).

    Parameters
    ----------
    friction : numeric
        Static friction coefficient. [-]

    Returns
    -------
    Array
        atan(friction). [rad]
    """
    (f,) = arrays(friction)
    return np.arctan(f)


def tip_angle(half_base: Numeric, height: Numeric) -> Array:
    """Return the slope at which a standing thing tips over its lower edge.

    Parameters
    ----------
    half_base : numeric
        From the edge it tips over to below the centre of mass, along the base. [m]
    height : numeric
        Centre of mass above the base. [m]

    Returns
    -------
    Array
        atan(half base/height). [rad]
    """
    b, h = arrays(half_base, height)
    return np.arctan2(b, h)


def push_along_incline(weight: Numeric, slope: Numeric, friction: Numeric) -> Array:
    """Return the push along a slope that moves a sliding thing up it.

    Parameters
    ----------
    weight : numeric
        Weight of the thing. [N]
    slope : numeric
        Slope above the level. [rad]
    friction : numeric
        Friction coefficient; negative for holding it from sliding down. [-]

    Returns
    -------
    Array
        W (sin slope + f cos slope); below zero in the holding case: it stays by itself. [N]
    """
    w, beta, f = arrays(weight, slope, friction)
    return w * (np.sin(beta) + f * np.cos(beta))


def level_push_up_incline(weight: Numeric, slope: Numeric, friction: Numeric) -> Array:
    """Return the level push that moves a sliding thing up a slope.

    Parameters
    ----------
    weight : numeric
        Weight of the thing. [N]
    slope : numeric
        Slope above the level. [rad]
    friction : numeric
        Friction coefficient; negative for holding it from sliding down. [-]

    Returns
    -------
    Array
        W tan(slope + atan f). [N] NaN where slope and friction angle reach a right angle
        together: no level push of any size moves it.
    """
    w, beta, f = arrays(weight, slope, friction)
    steep = beta + np.arctan(f)
    return w * nan_unless(np.abs(steep) < np.pi / 2.0, np.tan(steep))


def thrust_torque_even_pressure(
    force: Numeric, outer_radius: Numeric, inner_radius: Numeric, friction: Numeric
) -> Array:
    """Return the friction torque of a new flat thrust face (pressure the same everywhere).

    Parameters
    ----------
    force : numeric
        Axial force. [N]
    outer_radius, inner_radius : numeric
        Radii of the ring that carries; inner 0 for a full disc. [m]
    friction : numeric
        Friction coefficient. [-]

    Returns
    -------
    Array
        (2/3) f F (R³ - r³)/(R² - r²). [N·m]
    """
    w, big, small, f = arrays(force, outer_radius, inner_radius, friction)
    # the quotient of differences, divided out so that a thin ring keeps its digits
    radius = (big**2 + big * small + small**2) / (big + small)
    return 2.0 / 3.0 * f * np.abs(w) * radius


def thrust_torque_even_wear(
    force: Numeric, outer_radius: Numeric, inner_radius: Numeric, friction: Numeric
) -> Array:
    """Return the friction torque of a run-in flat thrust face (wear the same everywhere).

    Parameters
    ----------
    force : numeric
        Axial force. [N]
    outer_radius, inner_radius : numeric
        Radii of the ring that carries. [m]
    friction : numeric
        Friction coefficient. [-]

    Returns
    -------
    Array
        f F (R + r)/2. [N·m]
    """
    w, big, small, f = arrays(force, outer_radius, inner_radius, friction)
    return f * np.abs(w) * (big + small) / 2.0


def rolling_bearing_torque(force: Numeric, bore: Numeric, friction: Numeric) -> Array:
    """Return the running torque of a ball or roller bearing, seals not included.

    Parameters
    ----------
    force : numeric
        Load on the bearing. [N]
    bore : numeric
        Bore diameter. [m]
    friction : numeric
        Bearing maker's coefficient, about 0.001 to 0.003. [-]

    Returns
    -------
    Array
        F f bore/2. [N·m] Up to twice as much at the start.
    """
    w, d, f = arrays(force, bore, friction)
    return np.abs(w) * f * d / 2.0


def rolling_resistance(force: Numeric, rolling_arm: Numeric, radius: Numeric) -> Array:
    """Return the level force that keeps a wheel rolling.

    Parameters
    ----------
    force : numeric
        Load on the wheel. [N]
    rolling_arm : numeric
        How far ahead of the centre the floor presses. [m]
    radius : numeric
        Radius of the wheel. [m]

    Returns
    -------
    Array
        F arm/radius. [N]
    """
    w, arm, r = arrays(force, rolling_arm, radius)
    return np.abs(w) * divide_or_nan(arm, r)


def seal_torque(line_load: Numeric, diameter: Numeric, friction: Numeric) -> Array:
    """Return the drag of a lip seal on its shaft.

    Parameters
    ----------
    line_load : numeric
        Pressing force per length of lip. [N/m]
    diameter : numeric
        Shaft diameter. [m]
    friction : numeric
        Friction coefficient. [-]

    Returns
    -------
    Array
        f q π d (d/2). [N·m] An estimate: no handbook gives better without the seal's maker.
    """
    q, d, f = arrays(line_load, diameter, friction)
    return f * q * np.pi * d**2 / 2.0


def capstan_ratio(wrap_angle: Numeric, friction: Numeric) -> Array:
    """Return tight side over slack side of a flat belt or cord about to slip.

    Parameters
    ----------
    wrap_angle : numeric
        Angle of contact, zero or more. [rad]
    friction : numeric
        Friction coefficient. [-]

    Returns
    -------
    Array
        exp(f wrap). [-]
    """
    wrap, f = arrays(wrap_angle, friction)
    return np.exp(f * nan_unless(wrap >= 0.0, wrap))


def belt_slip_torque(
    slack_tension: Numeric, radius: Numeric, wrap_angle: Numeric, friction: Numeric
) -> Array:
    """Return the torque at which a flat or round belt begins to slip on its pulley.

    Parameters
    ----------
    slack_tension : numeric
        Tension of the slack side. [N]
    radius : numeric
        Pulley radius. [m]
    wrap_angle : numeric
        Angle of contact. [rad]
    friction : numeric
        Friction coefficient; for a belt in a V groove divide by sin(half groove angle). [-]

    Returns
    -------
    Array
        tension x (exp(f wrap) - 1) x radius. [N·m]
    """
    tension, r = arrays(slack_tension, radius)
    return tension * (capstan_ratio(wrap_angle, friction) - 1.0) * r
