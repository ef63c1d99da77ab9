"""Heat: duty of motors (IEC 60034-1), what warm air costs them, and where damp air sweats."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arrays,
    divide_or_nan,
    nan_unless,
    sqrt_or_nan,
)

# IEC 60034-1: a longer cycle than this is not intermittent duty.
LONGEST_INTERMITTENT_CYCLE = 600.0  # s
# IEC 60034-1, from memory: the longest standard short-time rating; beyond it a motor is warm.
LONGEST_SHORT_TIME_RUN = 5400.0  # s


# IEC 60085: highest temperature of each class of insulation [degC]; IEC 60034-1: rise of a winding
# allowed above air of 40 degC [K]. What is between is kept for the hottest spot.
HOTTEST_WINDING = {"A": 105.0, "E": 120.0, "B": 130.0, "F": 155.0, "H": 180.0}
ALLOWED_RISE = {"A": 60.0, "E": 75.0, "B": 80.0, "F": 105.0, "H": 125.0}


def cyclic_duration_factor(on_time: Numeric, off_time: Numeric) -> Array:
    """Return the share of a cycle a motor runs.

    Parameters
    ----------
    on_time, off_time : numeric
        Running and standing time of one cycle. [s]

    Returns
    -------
    Array
        on/(on + off). [-]
    """
    on, off = arrays(on_time, off_time)
    return divide_or_nan(on, on + off)


def duty_type(on_time: Numeric, off_time: Numeric) -> NDArray[np.str_]:
    """Return the duty type of a regular run-and-rest cycle.

    Parameters
    ----------
    on_time, off_time : numeric
        Running and standing time of one cycle. [s]

    Returns
    -------
    ndarray of str
        "S1" continuous: never rests, or runs longer than any short-time rating; "S3"
        intermittent: cycle of 10 minutes or less; "S2" short time: anything else, such as one
        minute an hour. Empty text where a time is NaN or negative.
    """
    on, off = arrays(on_time, off_time)
    known = (on >= 0.0) & (off >= 0.0)
    steady = (off == 0.0) | (on > LONGEST_SHORT_TIME_RUN)
    short_cycle = on + off <= LONGEST_INTERMITTENT_CYCLE
    kind: NDArray[np.str_] = np.select([~known, steady, short_cycle], ["", "S1", "S3"], "S2")
    return kind


def intermittent_overload_bound(duration_factor: Numeric) -> Array:
    """Return the most an intermittent load may exceed the continuous rating (upper bound).

    Parameters
    ----------
    duration_factor : numeric
        Cyclic duration factor, above 0 and up to 1. [-]

    Returns
    -------
    Array
        sqrt(1/factor). [-] Copper loss only, and cycles short against the motor's warming.
    """
    (share,) = arrays(duration_factor)
    return nan_unless((share > 0.0) & (share <= 1.0), sqrt_or_nan(divide_or_nan(1.0, share)))


def short_time_overload(
    on_time: Numeric, time_constant: Numeric, loss_ratio: Numeric = 0.0
) -> Array:
    """Return how far a run from cold may exceed the continuous rating.

    Parameters
    ----------
    on_time : numeric
        Length of the run. [s]
    time_constant : numeric
        Thermal time constant of the motor, running. [s]
    loss_ratio : numeric
        Constant loss over copper loss at the rating, a. [-]

    Returns
    -------
    Array
        sqrt((1 + a)/(1 - exp(-t/tau)) - a). [-] Long enough a rest to cool down is presumed.

    References
    ----------
    G. K. Dubey, Fundamentals of Electrical Drives, section 4.4 (short time duty).
    """
    t, tau, a = arrays(on_time, time_constant, loss_ratio)
    warmed = -np.expm1(-divide_or_nan(t, tau))
    return sqrt_or_nan(divide_or_nan(1.0 + a, warmed) - a)


def intermittent_overload(
    on_time: Numeric,
    off_time: Numeric,
    heating_constant: Numeric,
    cooling_constant: Numeric,
    loss_ratio: Numeric = 0.0,
) -> Array:
    """Return how far the runs of a steady cycle may exceed the continuous rating.

    Parameters
    ----------
    on_time, off_time : numeric
        Running and standing time of one cycle. [s]
    heating_constant, cooling_constant : numeric
        Thermal time constants running and standing; a standing motor without its fan cools
        more slowly. [s]
    loss_ratio : numeric
        Constant loss over copper loss at the rating, a. [-]

    Returns
    -------
    Array
        sqrt((1 + a) (1 - exp(-(on/th + off/tc)))/(1 - exp(-on/th)) - a). [-]

    References
    ----------
    G. K. Dubey, Fundamentals of Electrical Drives, section 4.4 (intermittent periodic duty).
    """
    on, off, hot, cool, a = arrays(
        on_time, off_time, heating_constant, cooling_constant, loss_ratio
    )
    one_run = divide_or_nan(on, hot)
    whole_cycle = one_run + divide_or_nan(off, cool)
    share = divide_or_nan(np.expm1(-whole_cycle), np.expm1(-one_run))
    return sqrt_or_nan((1.0 + a) * share - a)


def ambient_factor(ambient: Numeric, allowed_rise: Numeric, rated_ambient: Numeric = 40.0) -> Array:
    """Return the share of its rated torque a motor may give in warmer air.

    Parameters
    ----------
    ambient : numeric
        Air temperature at the motor. [°C]
    allowed_rise : numeric
        Winding rise allowed at the rated ambient. [K]
    rated_ambient : numeric
        Ambient the rating is for. [°C]

    Returns
    -------
    Array
        sqrt((rise - (ambient - rated))/rise), 1 at the rated ambient or below. [-] NaN where
        the air alone is too hot.

    Notes
    -----
    Copper loss only. Makers' tables are up to 0.05 more cautious, since iron and rubbing
    losses do not shrink with the torque.
    """
    air, rise, rated = arrays(ambient, allowed_rise, rated_ambient)
    warmer = np.maximum(air - rated, 0.0)
    return sqrt_or_nan(divide_or_nan(rise - warmer, rise))


def dew_point(temperature: Numeric, relative_humidity: Numeric) -> Array:
    """Return the temperature at and below which a surface sweats.

    Parameters
    ----------
    temperature : numeric
        Air temperature, -40 to 50. [°C]
    relative_humidity : numeric
        Above 0 and up to 1. [-]

    Returns
    -------
    Array
        Dew point. [°C] NaN outside 0 to 1.

    References
    ----------
    Magnus formula with the coefficients of O. A. Alduchov and R. E. Eskridge, Improved Magnus
    form approximation of saturation vapor pressure, J. Appl. Meteorology 35 (1996) 601
    (from memory).
    """
    t, humidity = arrays(temperature, relative_humidity)
    slope, pole = 17.625, 243.04
    inside = (humidity > 0.0) & (humidity <= 1.0)
    load = np.log(nan_unless(inside, humidity)) + slope * t / (pole + t)
    return divide_or_nan(pole * load, slope - load)


# ISO 6946, from memory: heat passes a wall's face into still room air, level, with 0.13 m2·K/W.
FACE_RESISTANCE = 0.13


def transmittance(
    thickness: Numeric, conductivity: Numeric, face_resistance: float = FACE_RESISTANCE
) -> Array:
    """Return what a wall of several layers lets through.

    Parameters
    ----------
    thickness, conductivity : numeric
        Of each layer, on the last axis. [m], [W/(m·K)]
    face_resistance : float
        Of each of the two faces, both indoors. [m2·K/W]

    Returns
    -------
    Array
        U = 1/(2 R_face + sum d/lambda). [W/(m2·K)]
    """
    d, k = arrays(thickness, conductivity)
    resistance = 2.0 * face_resistance + np.sum(divide_or_nan(d, k), axis=-1)
    return np.asarray(1.0 / resistance)


def steady_rise(power: Numeric, conductance: Numeric) -> Array:
    """Return how much warmer a box stays than its room.

    Parameters
    ----------
    power : numeric
        Heat inside. [W]
    conductance : numeric
        U times area of its walls. [W/K]

    Returns
    -------
    Array
        P/(U A). [K] NaN without walls.
    """
    p, ua = arrays(power, conductance)
    return divide_or_nan(p, ua)
