"""Finding lengths: crank, link, arm and centres that give a wanted swing and time ratio.

Four-bar names here: crank, link, arm and ground (crank centre to arm pivot).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arccos_or_nan,
    arrays,
    divide_or_nan,
    nan_unless,
    sqrt_or_nan,
)


class FourBar(NamedTuple):
    """Four lengths of a crank, link and arm.

    Attributes
    ----------
    crank, link, arm, ground : Array
        Lengths; the ground is crank centre to arm pivot. [m]
    """

    crank: Array
    link: Array
    arm: Array
    ground: Array


def inline_crank_rocker(arm: Numeric, swing: Numeric, link: Numeric) -> FourBar:
    """Return the crank and ground of a linkage whose two swings take equal time.

    Parameters
    ----------
    arm : numeric
        Arm length c. [m]
    swing : numeric
        Whole swing of the arm, between 0 and π. [rad]
    link : numeric
        Link length b; must be at least the crank. [m]

    Returns
    -------
    FourBar
        Crank c sin(swing/2), ground sqrt(b² + c² cos²(swing/2)). [m] NaN for a swing outside
        0 to π and for a link shorter than the crank.

    Notes
    -----
    Both end places of the arm pin lie on a line through the crank centre, from which
    a² + d² = b² + c².
    """
    c, psi, b = arrays(arm, swing, link)
    crank = c * np.sin(psi / 2.0)
    works = (psi > 0.0) & (psi < np.pi) & (b >= crank)
    ground = np.hypot(b, c * np.cos(psi / 2.0))
    whole = 0.0 * (crank + b)
    return FourBar(
        crank=nan_unless(works, crank + whole),
        link=nan_unless(works, b + whole),
        arm=nan_unless(works, c + whole),
        ground=nan_unless(works, ground),
    )


def least_transmission_angle(crank: Numeric, link: Numeric, arm: Numeric, ground: Numeric) -> Array:
    """Return the smallest angle between link and arm, folded to 0 to 90 degrees.

    Parameters
    ----------
    crank, link, arm, ground : numeric
        Lengths of a linkage whose crank goes right round. [m]

    Returns
    -------
    Array
        The lesser of the two places where the crank lies along the ground line. [rad] NaN
        where the loop does not close at one of them (the crank cannot go round).
    """
    a, b, c, d = arrays(crank, link, arm, ground)

    def angle(pin_to_pivot: Array) -> Array:
        between = arccos_or_nan(divide_or_nan(b**2 + c**2 - pin_to_pivot**2, 2.0 * b * c))
        return np.minimum(between, np.pi - between)

    return np.minimum(angle(d - a), angle(d + a))


def crank_rocker_limits(
    crank: Numeric, link: Numeric, arm: Numeric, ground: Numeric
) -> tuple[Array, Array]:
    """Return swing and time ratio of a crank-rocker.

    Parameters
    ----------
    crank, link, arm, ground : numeric
        Lengths of a linkage whose crank goes right round. [m]

    Returns
    -------
    tuple of Array
        (swing [rad], time ratio [-], 1 or more). NaN where crank and link cannot lie in line,
        stretched and folded, so that the arm has no two rest points.

    References
    ----------
    R. L. Norton, Design of Machinery, section 3.4 (limit positions), from memory.
    """
    a, b, c, d = arrays(crank, link, arm, ground)
    long, short = b + a, b - a
    at_pivot_long = arccos_or_nan(divide_or_nan(c**2 + d**2 - long**2, 2.0 * c * d))
    at_pivot_short = arccos_or_nan(divide_or_nan(c**2 + d**2 - short**2, 2.0 * c * d))
    at_crank_long = arccos_or_nan(divide_or_nan(long**2 + d**2 - c**2, 2.0 * long * d))
    at_crank_short = arccos_or_nan(divide_or_nan(short**2 + d**2 - c**2, 2.0 * short * d))
    imbalance = np.abs(at_crank_short - at_crank_long)
    ratio = (np.pi + imbalance) / (np.pi - imbalance)
    goes_round = least_transmission_angle(a, b, c, d) >= 0.0
    return (
        nan_unless(goes_round, at_pivot_long - at_pivot_short),
        nan_unless(goes_round, ratio),
    )


def imbalance_of_time_ratio(time_ratio: Numeric) -> Array:
    """Return the crank-angle imbalance that a time ratio asks for.

    Parameters
    ----------
    time_ratio : numeric
        Time of one swing over time of the other, above 0. [-]

    Returns
    -------
    Array
        π (ratio - 1)/(ratio + 1); negative for a ratio below 1. [rad]
    """
    (ratio,) = arrays(time_ratio)
    return nan_unless(ratio > 0.0, np.pi * divide_or_nan(ratio - 1.0, ratio + 1.0))


def crank_rocker_for(
    crank: Numeric, ground: Numeric, swing: Numeric, imbalance: Numeric
) -> FourBar:
    """Return link and arm that give a swing and a time ratio with crank and ground chosen.

    Parameters
    ----------
    crank, ground : numeric
        Crank radius a; crank centre to arm pivot d. [m]
    swing : numeric
        Whole swing of the arm psi, between 0 and π. [rad]
    imbalance : numeric
        Crank-angle imbalance alpha (`imbalance_of_time_ratio`); its sign picks which of the
        two swings is slow and thereby one of two linkages. [rad]

    Returns
    -------
    FourBar
        NaN where no linkage does it, or where its crank could not go right round.

    Notes
    -----
    Seen from the crank centre the two ends of the arm pin lie b + a and b - a away, alpha
    apart; the arm's pivot stands on the square through the middle of their chord, at psi/2.
    Both conditions are linear in the squares of the lengths:

    c² sin²(psi/2) = b² sin²(alpha/2) + a² cos²(alpha/2)
    d² sin²(psi/2) = b² sin²((psi + alpha)/2) + a² cos²((psi + alpha)/2)

    References
    ----------
    S. Goessner, crank-rocker lecture notes (one link and arm for every crank), own derivation.
    """
    a, d, psi, alpha = arrays(crank, ground, swing, imbalance)
    whole = np.sin(psi / 2.0) ** 2
    leaned = (psi + alpha) / 2.0
    link = sqrt_or_nan(
        divide_or_nan(d**2 * whole - a**2 * np.cos(leaned) ** 2, np.sin(leaned) ** 2)
    )
    arm = sqrt_or_nan(
        divide_or_nan(link**2 * np.sin(alpha / 2.0) ** 2 + a**2 * np.cos(alpha / 2.0) ** 2, whole)
    )
    # The two conditions are also met by ends on opposite sides of the ground line, between
    # which no linkage can move: then the real swing is another one.
    real_swing, _ = crank_rocker_limits(a, link, arm, d)
    on_one_side = np.isclose(real_swing, psi, rtol=1e-6, atol=0.0)
    works = (psi > 0.0) & (psi < np.pi) & (link >= a) & on_one_side
    same = 0.0 * link
    return FourBar(
        crank=nan_unless(works, a + same),
        link=nan_unless(works, link),
        arm=nan_unless(works, arm),
        ground=nan_unless(works, d + same),
    )


def best_crank_rocker(
    ground: float, swing: float, time_ratio: float = 1.0, samples: int = 2001
) -> FourBar:
    """Return the linkage of a swing and a time ratio with the largest least link-to-arm angle.

    Parameters
    ----------
    ground : float
        Crank centre to arm pivot. [m]
    swing : float
        Whole swing of the arm, between 0 and π. [rad]
    time_ratio : float
        Wanted time ratio, above 0. [-]
    samples : int
        Crank lengths tried in each of the passes. [-]

    Returns
    -------
    FourBar
        Floats; NaN where no crank below the ground length does it.

    Notes
    -----
    The least angle is compared over a row of cranks, three times, each time about the best.
    """
    imbalance = imbalance_of_time_ratio(time_ratio)
    low, high = 0.0, ground
    best = crank_rocker_for(np.nan, ground, swing, imbalance)
    for _ in range(3):
        tried = np.linspace(low, high, samples + 2)[1:-1]
        found = crank_rocker_for(tried, ground, swing, imbalance)
        angle = least_transmission_angle(*found)
        if np.all(np.isnan(angle)):
            return best
        pick = int(np.nanargmax(angle))
        best = FourBar(*(length[pick] for length in found))
        step = (high - low) / (samples + 1)
        low, high = max(0.0, tried[pick] - step), min(ground, tried[pick] + step)
    return best


def freudenstein_crank_rocker(
    input_angles: Numeric, output_angles: Numeric, ground: Numeric = 1.0
) -> FourBar:
    """Return the linkage that passes through three (or, by least squares, more) angle pairs.

    Parameters
    ----------
    input_angles, output_angles : numeric
        Angles of the input and output links from the ground line, three or more on the last
        axis. [rad]
    ground : numeric
        Ground length. [m]

    Returns
    -------
    FourBar
        Crank and arm may come out negative: such a link points half a turn the other way. [m]
        NaN where the pairs fit no linkage.

    Raises
    ------
    ValueError
        For fewer than three pairs.

    Notes
    -----
    Freudenstein's equation, z1 + z2 cos(phi) - z3 cos(theta) = cos(phi - theta), is linear in
    z; crank 1/z2, arm 1/z3, link² = 1 + a² + c² - 2 a c z1 with a ground of 1.

    References
    ----------
    F. Freudenstein, Approximate synthesis of four-bar linkages, Trans. ASME 77 (1955) 853
    (from memory); ME 3751 lecture 12, three rocker positions.
    """
    theta, phi, d = arrays(input_angles, output_angles, ground)
    if theta.shape[-1:] != phi.shape[-1:] or theta.ndim == 0 or theta.shape[-1] < 3:
        message = "three or more input angles and as many output angles are needed"
        raise ValueError(message)
    rows = np.stack([np.ones_like(theta), np.cos(phi), -np.cos(theta)], axis=-1)
    aims = np.cos(phi - theta)
    z = np.squeeze(np.linalg.pinv(rows) @ aims[..., np.newaxis], axis=-1)
    crank, arm = divide_or_nan(1.0, z[..., 1]), divide_or_nan(1.0, z[..., 2])
    link = sqrt_or_nan(1.0 + crank**2 + arm**2 - 2.0 * crank * arm * z[..., 0])
    works = np.isfinite(link)
    return FourBar(
        crank=nan_unless(works, crank * d),
        link=nan_unless(works, link * d),
        arm=nan_unless(works, arm * d),
        ground=nan_unless(works, d + 0.0 * crank),
    )


def chebyshev_points(low: Numeric, high: Numeric, count: int) -> Array:
    """Return the best places at which to make a linkage exact over a range.

    Parameters
    ----------
    low, high : numeric
        Ends of the range. [any]
    count : int
        How many places, 1 or more. [-]

    Returns
    -------
    Array
        middle - half range x cos((2 j - 1) π/(2 count)), on a new last axis. [as the ends]
    """
    lo, hi = arrays(low, high)
    place: Array = np.cos((2.0 * np.arange(1, count + 1) - 1.0) * np.pi / (2.0 * count))
    middle, half = (lo + hi) / 2.0, (hi - lo) / 2.0
    return middle[..., np.newaxis] - half[..., np.newaxis] * place
