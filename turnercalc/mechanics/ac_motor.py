"""Mains motors: synchronous speed, slip, and what another line frequency does."""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, divide_or_nan, nan_unless


def synchronous_speed(poles: Numeric, frequency: Numeric) -> Array:
    """Return the speed of the turning field, before any gearbox.

    Parameters
    ----------
    poles : numeric
        Number of poles (not pairs). [-]
    frequency : numeric
        Line frequency. [Hz]

    Returns
    -------
    Array
        4 π f/poles; in turns a minute 120 f/poles. [rad/s]
    """
    p, f = arrays(poles, frequency)
    return divide_or_nan(4.0 * np.pi * f, p)


def slip(field_speed: Numeric, speed: Numeric) -> Array:
    """Return how far an induction motor lags behind its field.

    Parameters
    ----------
    field_speed : numeric
        Synchronous speed. [rad/s]
    speed : numeric
        Rotor speed. [rad/s]

    Returns
    -------
    Array
        (ns - n)/ns. [-]
    """
    ns, n = arrays(field_speed, speed)
    return divide_or_nan(ns - n, ns)


def speed_at_slip(field_speed: Numeric, slip_share: Numeric) -> Array:
    """Return the rotor speed at a slip.

    Parameters
    ----------
    field_speed : numeric
        Synchronous speed. [rad/s]
    slip_share : numeric
        Slip. [-]

    Returns
    -------
    Array
        ns (1 - slip). [rad/s]
    """
    ns, s = arrays(field_speed, slip_share)
    return ns * (1.0 - s)


def induction_speed_at_torque(
    field_speed: Numeric, rated_speed: Numeric, rated_torque: Numeric, torque: Numeric
) -> Array:
    """Return the speed of an induction motor under a torque, near its rated point.

    Parameters
    ----------
    field_speed : numeric
        Synchronous speed at the shaft asked about. [rad/s]
    rated_speed : numeric
        Speed at the rated torque. [rad/s]
    rated_torque : numeric
        Rated torque. [N·m]
    torque : numeric
        Torque asked about; negative where the load drives (it runs above the field). [N·m]

    Returns
    -------
    Array
        Slip in proportion to torque. [rad/s] Good to about the rated torque either way; the
        line bends before the pull-out torque, which is not in it.
    """
    ns, n, rated, t = arrays(field_speed, rated_speed, rated_torque, torque)
    return ns - (ns - n) * divide_or_nan(t, rated)


def speed_ratio_of_frequency(frequency: Numeric, listed_frequency: Numeric) -> Array:
    """Return how much faster a synchronous motor turns on another line frequency.

    Parameters
    ----------
    frequency : numeric
        Line frequency there will be. [Hz]
    listed_frequency : numeric
        Frequency the listing is for. [Hz]

    Returns
    -------
    Array
        frequency/listed. [-] A 60 Hz motor on 50 Hz: 5/6.
    """
    f, listed = arrays(frequency, listed_frequency)
    return divide_or_nan(f, listed)


def efficiency(output_power: Numeric, input_power: Numeric) -> Array:
    """Return output over input; NaN where the output is more than the input.

    Parameters
    ----------
    output_power, input_power : numeric
        Mechanical power out, electrical power in. [W]

    Returns
    -------
    Array
        Efficiency. [-] NaN outside 0 to 1: such a pair of figures contradicts itself.
    """
    out, into = arrays(output_power, input_power)
    share = divide_or_nan(out, into)
    return nan_unless((share >= 0.0) & (share <= 1.0), share)
