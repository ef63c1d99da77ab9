"""Brushed DC motors with permanent magnets, with or without their gearbox: straight lines.

Torque and speed are those of the motor's own output shaft. Free speed is the speed with no
load, stall torque the torque at standstill, both at one supply voltage.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, divide_or_nan, nan_unless

# Change of a copper winding's resistance per kelvin, referred to 20 °C (IEC 60028).
COPPER_TEMPERATURE_COEFFICIENT = 0.00393


def torque_at_speed(stall_torque: Numeric, free_speed: Numeric, speed: Numeric) -> Array:
    """Return the torque of the motor at a speed.

    Parameters
    ----------
    stall_torque : numeric
        Torque at standstill. [N·m]
    free_speed : numeric
        Speed with no load. [rad/s]
    speed : numeric
        Speed asked about; beyond the free speed the motor brakes (negative torque). [rad/s]

    Returns
    -------
    Array
        Ts (1 - w/w0). [N·m]
    """
    ts, w0, w = arrays(stall_torque, free_speed, speed)
    return ts * (1.0 - divide_or_nan(w, w0))


def speed_at_torque(stall_torque: Numeric, free_speed: Numeric, torque: Numeric) -> Array:
    """Return the speed of the motor under a torque.

    Parameters
    ----------
    stall_torque : numeric
        Torque at standstill. [N·m]
    free_speed : numeric
        Speed with no load. [rad/s]
    torque : numeric
        Torque the motor has to give; negative where the load drives it. [N·m]

    Returns
    -------
    Array
        w0 (1 - T/Ts). [rad/s] Above the free speed for a negative torque; zero or below for
        the stall torque or more, which means that it stands.
    """
    ts, w0, t = arrays(stall_torque, free_speed, torque)
    return w0 * (1.0 - divide_or_nan(t, ts))


def stall_torque_from_rated(
    rated_torque: Numeric, rated_speed: Numeric, free_speed: Numeric
) -> Array:
    """Return the stall torque that a rated point and the free speed imply.

    Parameters
    ----------
    rated_torque : numeric
        Torque at the rated point. [N·m]
    rated_speed : numeric
        Speed at the rated point. [rad/s]
    free_speed : numeric
        Speed with no load. [rad/s]

    Returns
    -------
    Array
        T/(1 - w/w0). [N·m] NaN unless the rated speed is below the free speed.
    """
    t, w, w0 = arrays(rated_torque, rated_speed, free_speed)
    droop = 1.0 - divide_or_nan(w, w0)
    return nan_unless(droop > 0.0, divide_or_nan(t, droop))


def largest_power(stall_torque: Numeric, free_speed: Numeric) -> Array:
    """Return the largest mechanical power, at half the free speed.

    Parameters
    ----------
    stall_torque : numeric
        Torque at standstill. [N·m]
    free_speed : numeric
        Speed with no load. [rad/s]

    Returns
    -------
    Array
        Ts w0/4. [W]
    """
    ts, w0 = arrays(stall_torque, free_speed)
    return ts * w0 / 4.0


def current_at_torque(
    torque: Numeric, stall_torque: Numeric, free_current: Numeric, stall_current: Numeric
) -> Array:
    """Return the current under a torque.

    Parameters
    ----------
    torque : numeric
        Torque the motor gives. [N·m]
    stall_torque : numeric
        Torque at standstill. [N·m]
    free_current, stall_current : numeric
        Current with no load and at standstill. [A]

    Returns
    -------
    Array
        I0 + (Is - I0) T/Ts. [A]
    """
    t, ts, i0, i_stall = arrays(torque, stall_torque, free_current, stall_current)
    return i0 + (i_stall - i0) * divide_or_nan(t, ts)


def efficiency_at_current(current: Numeric, free_current: Numeric, stall_current: Numeric) -> Array:
    """Return the efficiency of the motor at a current.

    Parameters
    ----------
    current : numeric
        Current between no load and stall. [A]
    free_current, stall_current : numeric
        Current with no load and at standstill. [A]

    Returns
    -------
    Array
        (1 - I0/I)(1 - I/Is). [-] NaN outside I0 to Is.
    """
    i, i0, i_stall = arrays(current, free_current, stall_current)
    inside = (i >= i0) & (i <= i_stall)
    return nan_unless(inside, (1.0 - divide_or_nan(i0, i)) * (1.0 - divide_or_nan(i, i_stall)))


def best_efficiency(free_current: Numeric, stall_current: Numeric) -> Array:
    """Return the best efficiency the motor reaches, at the current sqrt(I0 Is).

    Parameters
    ----------
    free_current, stall_current : numeric
        Current with no load and at standstill. [A]

    Returns
    -------
    Array
        (1 - sqrt(I0/Is))². [-] NaN for a free current above the stall current.
    """
    i0, i_stall = arrays(free_current, stall_current)
    share = nan_unless(i0 <= i_stall, divide_or_nan(i0, i_stall))
    return (1.0 - np.sqrt(share)) ** 2


def winding_heat(current: Numeric, resistance: Numeric) -> Array:
    """Return the heat of a current in the winding.

    Parameters
    ----------
    current : numeric
        Current. [A]
    resistance : numeric
        Resistance of the winding at its temperature. [ohm]

    Returns
    -------
    Array
        I² R. [W]
    """
    i, r = arrays(current, resistance)
    return i**2 * r


def hot_resistance(resistance_at_20: Numeric, temperature: Numeric) -> Array:
    """Return the resistance of a warm copper winding.

    Parameters
    ----------
    resistance_at_20 : numeric
        Resistance at 20 °C. [ohm]
    temperature : numeric
        Temperature of the winding. [°C]

    Returns
    -------
    Array
        R20 (1 + 0.00393 (T - 20)). [ohm] Stall torque and stall current fall as it rises.
    """
    r, t = arrays(resistance_at_20, temperature)
    return r * (1.0 + COPPER_TEMPERATURE_COEFFICIENT * (t - 20.0))


def line_at_voltage(
    stall_torque: Numeric, free_speed: Numeric, voltage: Numeric, listed_voltage: Numeric
) -> tuple[Array, Array]:
    """Return stall torque and free speed at another supply voltage.

    Parameters
    ----------
    stall_torque : numeric
        Stall torque as listed. [N·m]
    free_speed : numeric
        Free speed as listed. [rad/s]
    voltage : numeric
        Supply voltage there will be. [V]
    listed_voltage : numeric
        Voltage the listing is for. [V]

    Returns
    -------
    tuple of Array
        (stall torque [N·m], free speed [rad/s]), both in proportion to the voltage. The small
        no-load drag, which does not shrink, is neglected.
    """
    ts, w0, v, listed = arrays(stall_torque, free_speed, voltage, listed_voltage)
    share = divide_or_nan(v, listed)
    return ts * share, w0 * share


def line_at_switching_duty(
    stall_torque: Numeric,
    free_speed: Numeric,
    duty: Numeric,
    free_current: Numeric,
    stall_current: Numeric,
) -> tuple[Array, Array]:
    """Return stall torque and free speed of a motor whose supply is chopped (PWM).

    Parameters
    ----------
    stall_torque : numeric
        Stall torque at full supply. [N·m]
    free_speed : numeric
        Free speed at full supply. [rad/s]
    duty : numeric
        Share of the time the supply is on. [-]
    free_current, stall_current : numeric
        Current with no load and at standstill at full supply. [A]

    Returns
    -------
    tuple of Array
        (stall torque [N·m], free speed [rad/s]): Ts (D Is - I0)/(Is - I0) and D w0. NaN
        outside 0 to 1 and where D Is is below I0, too little to move at all.

    References
    ----------
    gearpy documentation, DC motor pulse width modulation.
    """
    ts, w0, d, i0, i_stall = arrays(stall_torque, free_speed, duty, free_current, stall_current)
    moves = (d >= 0.0) & (d <= 1.0) & (d * i_stall >= i0)
    torque = ts * divide_or_nan(d * i_stall - i0, i_stall - i0)
    return nan_unless(moves, torque), nan_unless(moves, d * w0)
