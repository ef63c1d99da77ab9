"""Pins and bolts across a joint."""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, divide_or_nan


def pin_shear_stress(force: Numeric, diameter: Numeric, shear_faces: Numeric = 1.0) -> Array:
    """Return the mean shear stress in a pin.

    Parameters
    ----------
    force : numeric
        Force across the pin. [N]
    diameter : numeric
        Pin diameter. [m]
    shear_faces : numeric
        1 where the pin is cut through at one face to fail, 2 in a fork. [-]

    Returns
    -------
    Array
        F/(faces x π d²/4). [Pa]
    """
    f, d, faces = arrays(force, diameter, shear_faces)
    return divide_or_nan(4.0 * np.abs(f), faces * np.pi * d**2)


def pin_bearing_pressure(force: Numeric, diameter: Numeric, thickness: Numeric) -> Array:
    """Return the pressure of a pin on the wall of its hole.

    Parameters
    ----------
    force : numeric
        Force across the pin. [N]
    diameter : numeric
        Pin diameter. [m]
    thickness : numeric
        Thickness of the plate or length of the bush. [m]

    Returns
    -------
    Array
        F/(d t), on the projected area. [Pa]
    """
    f, d, t = arrays(force, diameter, thickness)
    return divide_or_nan(np.abs(f), d * t)


def hole_tear_out_stress(force: Numeric, edge_distance: Numeric, thickness: Numeric) -> Array:
    """Return the shear stress that tears a pin out towards the edge of its plate.

    Parameters
    ----------
    force : numeric
        Force towards the edge. [N]
    edge_distance : numeric
        Rim of the hole to the edge, along the force. [m]
    thickness : numeric
        Thickness of the plate. [m]

    Returns
    -------
    Array
        F/(2 e t): two faces shear. [Pa]
    """
    f, e, t = arrays(force, edge_distance, thickness)
    return divide_or_nan(np.abs(f), 2.0 * e * t)
