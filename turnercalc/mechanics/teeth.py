"""Sizes of toothed wheels, belts and chains."""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arcsin_or_nan, arrays, divide_or_nan


def spur_pitch_diameter(module: Numeric, teeth: Numeric) -> Array:
    """Return the pitch diameter of a spur gear.

    Parameters
    ----------
    module : numeric
        Module: pitch diameter per tooth. [m]
    teeth : numeric
        Number of teeth. [-]

    Returns
    -------
    Array
        module x teeth. [m]
    """
    m, z = arrays(module, teeth)
    return m * z


def spur_centre_distance(module: Numeric, teeth: Numeric, other_teeth: Numeric) -> Array:
    """Return the centre distance of two external spur gears.

    Parameters
    ----------
    module : numeric
        Module of both. [m]
    teeth, other_teeth : numeric
        Numbers of teeth. [-]

    Returns
    -------
    Array
        module x (sum of teeth)/2. [m]
    """
    m, z1, z2 = arrays(module, teeth, other_teeth)
    return m * (z1 + z2) / 2.0


def least_teeth_without_undercut(pressure_angle: Numeric) -> Array:
    """Return the fewest teeth a full-depth rack cuts without weakening the root.

    Parameters
    ----------
    pressure_angle : numeric
        Pressure angle of the rack, between 0 and π/2. [rad]

    Returns
    -------
    Array
        2/sin²(pressure angle), not rounded. [-]
    """
    (angle,) = arrays(pressure_angle)
    return divide_or_nan(2.0, np.sin(angle) ** 2)


def belt_pitch_diameter(teeth: Numeric, pitch: Numeric) -> Array:
    """Return the pitch diameter of a toothed-belt pulley.

    Parameters
    ----------
    teeth : numeric
        Number of teeth. [-]
    pitch : numeric
        Belt pitch, along the belt. [m]

    Returns
    -------
    Array
        teeth x pitch/π. [m]
    """
    z, p = arrays(teeth, pitch)
    return z * p / np.pi


def sprocket_pitch_diameter(teeth: Numeric, pitch: Numeric) -> Array:
    """Return the pitch diameter of a chain sprocket; the pins lie on a polygon.

    Parameters
    ----------
    teeth : numeric
        Number of teeth. [-]
    pitch : numeric
        Chain pitch, pin to pin. [m]

    Returns
    -------
    Array
        pitch/sin(π/teeth). [m]
    """
    z, p = arrays(teeth, pitch)
    return divide_or_nan(p, np.sin(np.pi / z))


def chain_length_in_pitches(
    teeth: Numeric, other_teeth: Numeric, pitch: Numeric, centre_distance: Numeric
) -> Array:
    """Return the length of a chain round two sprockets, in pitches (not rounded).

    Parameters
    ----------
    teeth, other_teeth : numeric
        Numbers of teeth. [-]
    pitch : numeric
        Chain pitch. [m]
    centre_distance : numeric
        Between the shafts. [m]

    Returns
    -------
    Array
        2 C/p + (z1 + z2)/2 + ((z2 - z1)/2π)² p/C. [-] A real chain has the next even number.

    References
    ----------
    U. C. Jindal, Machine Design, chapter 30. The usual approximation; within a hundredth of
    a pitch of the exact loop when the sprockets stand at least a diameter apart.
    """
    z1, z2, p, c = arrays(teeth, other_teeth, pitch, centre_distance)
    return 2.0 * c / p + (z1 + z2) / 2.0 + ((z2 - z1) / (2.0 * np.pi)) ** 2 * p / c


def open_belt_length(diameter: Numeric, other_diameter: Numeric, centre_distance: Numeric) -> Array:
    """Return the exact length of an open belt round two pulleys.

    Parameters
    ----------
    diameter, other_diameter : numeric
        Pitch diameters. [m]
    centre_distance : numeric
        Between the shafts. [m]

    Returns
    -------
    Array
        Two straight runs and two arcs. [m] NaN where one pulley swallows the other.
    """
    d1, d2, c = arrays(diameter, other_diameter, centre_distance)
    lean = arcsin_or_nan(divide_or_nan(d2 - d1, 2.0 * c))
    arcs = d1 * (np.pi / 2.0 - lean) + d2 * (np.pi / 2.0 + lean)
    return 2.0 * c * np.cos(lean) + arcs


def teeth_in_mesh(
    teeth: Numeric, diameter: Numeric, other_diameter: Numeric, centre_distance: Numeric
) -> Array:
    """Return how many teeth of a pulley or sprocket an open belt or chain holds.

    Parameters
    ----------
    teeth : numeric
        Teeth of the wheel asked about. [-]
    diameter, other_diameter : numeric
        Pitch diameters of that wheel and of the other one. [m]
    centre_distance : numeric
        Between the shafts. [m]

    Returns
    -------
    Array
        teeth x (angle of wrap)/2π, not rounded. [-] NaN where one wheel swallows the other.
    """
    z, d1, d2, c = arrays(teeth, diameter, other_diameter, centre_distance)
    wrap = np.pi - 2.0 * arcsin_or_nan(divide_or_nan(d2 - d1, 2.0 * c))
    return z * wrap / (2.0 * np.pi)
