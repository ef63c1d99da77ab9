"""Worm gears: lead angle, losses both ways, when the wheel cannot drive the worm.

Friction here is the sliding coefficient between worm and wheel. It is low at speed and high
near standstill: use the low end to ask whether a worm holds, the high end to ask whether it
starts.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Mask, Numeric, arrays, divide_or_nan


def worm_lead_angle(starts: Numeric, axial_pitch: Numeric, worm_diameter: Numeric) -> Array:
    """Return the lead angle of a worm on its pitch cylinder.

    Parameters
    ----------
    starts : numeric
        Number of threads. [-]
    axial_pitch : numeric
        Thread to thread along the axis. [m]
    worm_diameter : numeric
        Pitch diameter of the worm. [m]

    Returns
    -------
    Array
        atan(starts x pitch/(π diameter)). [rad]
    """
    z, p, d = arrays(starts, axial_pitch, worm_diameter)
    return np.arctan2(z * p, np.pi * d)


def worm_driving_efficiency(
    lead_angle: Numeric, friction: Numeric, normal_pressure_angle: Numeric
) -> Array:
    """Return the efficiency with the worm driving.

    Parameters
    ----------
    lead_angle : numeric
        Lead angle of the worm, above 0 and below π/2. [rad]
    friction : numeric
        Sliding friction coefficient. [-]
    normal_pressure_angle : numeric
        Pressure angle square to the thread. [rad]

    Returns
    -------
    Array
        (cos a - f tan l)/(cos a + f cot l). [-] Zero or less: too steep to turn at all.

    References
    ----------
    Shigley's Mechanical Engineering Design, worm gearing, equation 13-46 (from memory).
    """
    lead, f, alpha = arrays(lead_angle, friction, normal_pressure_angle)
    cosine, slope = np.cos(alpha), np.tan(lead)
    return divide_or_nan((cosine - f * slope) * slope, cosine * slope + f)


def wheel_driving_efficiency(
    lead_angle: Numeric, friction: Numeric, normal_pressure_angle: Numeric
) -> Array:
    """Return the efficiency with the wheel driving the worm.

    Parameters
    ----------
    lead_angle : numeric
        Lead angle of the worm, above 0 and below π/2. [rad]
    friction : numeric
        Sliding friction coefficient. [-]
    normal_pressure_angle : numeric
        Pressure angle square to the thread. [rad]

    Returns
    -------
    Array
        (cos a - f cot l)/(cos a + f tan l). [-] Zero or less: the worm holds its load.
    """
    lead, f, alpha = arrays(lead_angle, friction, normal_pressure_angle)
    cosine, slope = np.cos(alpha), np.tan(lead)
    return divide_or_nan(cosine * slope - f, (cosine + f * slope) * slope)


def worm_holds(lead_angle: Numeric, friction: Numeric, normal_pressure_angle: Numeric) -> Mask:
    """Say whether the wheel cannot drive the worm (self-locking).

    Parameters
    ----------
    lead_angle : numeric
        Lead angle of the worm. [rad]
    friction : numeric
        Sliding friction coefficient at rest. [-]
    normal_pressure_angle : numeric
        Pressure angle square to the thread. [rad]

    Returns
    -------
    Mask
        True where f >= cos a tan l. False for NaN. Shaking can still walk a worm that holds.
    """
    lead, f, alpha = arrays(lead_angle, friction, normal_pressure_angle)
    return np.asarray(f >= np.cos(alpha) * np.tan(lead))[()]


def worm_sliding_speed(worm_speed: Numeric, worm_diameter: Numeric, lead_angle: Numeric) -> Array:
    """Return the sliding speed between worm and wheel.

    Parameters
    ----------
    worm_speed : numeric
        Turning speed of the worm. [rad/s]
    worm_diameter : numeric
        Pitch diameter of the worm. [m]
    lead_angle : numeric
        Lead angle of the worm. [rad]

    Returns
    -------
    Array
        Rim speed of the worm / cos(lead angle). [m/s]
    """
    speed, d, lead = arrays(worm_speed, worm_diameter, lead_angle)
    return np.abs(speed) * d / (2.0 * np.cos(lead))
