"""The egg's outline and its mass properties against independent integration of the formula.

Narushin, Romanov and Griffin, "Egg and math: introducing a universal formula for egg shape",
Ann. N.Y. Acad. Sci. 1505 (2021) 169, equation 5, is written out again here from the printed form,
one number at a time, and integrated with scipy's adaptive quadrature. Nothing of the package's own
shape or quadrature is used on the left side of any comparison.
"""

import math
from functools import cache

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from turnercalc.eggs.mass_properties import mass_properties, ovoid_volume, revolve
from turnercalc.eggs.poses import lying
from turnercalc.eggs.shape import Profile, pear_diameter, profile, quarter_diameter, radius

L, B = 57.5, 43.5  # mm, a hen's egg


def printed_ovoid(x, w):
    """Hügelschäffer's ovoid as printed."""
    return B / 2 * math.sqrt(max(0.0, (L**2 - 4 * x**2) / (L**2 + 8 * w * x + 4 * w**2)))


def printed_pear(x, w):
    """The pear-shaped (pyriform) limit as printed."""
    below = (
        2 * (L - 2 * w) * x**2 + (L**2 + 8 * L * w - 4 * w**2) * x + 2 * L * w**2 + L**2 * w + L**3
    )
    return B / 2 * math.sqrt(max(0.0, (L**2 - 4 * x**2) * L / below))


def printed_universal(x, w, D):
    """Equation 5 as printed; the bracket multiplies the ovoid."""
    root = math.sqrt(5.5 * L**2 + 11 * L * w + 4 * w**2)
    own = math.sqrt(L**2 + 2 * w * L + 4 * w**2)
    share = root * (math.sqrt(3) * B * L - 2 * D * own) / (math.sqrt(3) * B * L * (root - 2 * own))
    ovoid = printed_ovoid(x, w)
    below = (
        2 * (L - 2 * w) * x**2 + (L**2 + 8 * L * w - 4 * w**2) * x + 2 * L * w**2 + L**2 * w + L**3
    )
    run = math.sqrt(L * (L**2 + 8 * w * x + 4 * w**2) / below)
    return ovoid * (1 - share * (1 - run))


def printed(x, w, D):
    return printed_ovoid(x, w) if D is None else printed_universal(x, w, D)


@cache
def integrated(w, D):
    """Volume, surface, centre, radii of gyration of the printed outline, by adaptive quadrature."""

    def along(f):
        # x = (L/2) cos a takes the steep tips out of the integrand
        return quad(
            lambda a: f(L / 2 * math.cos(a)) * L / 2 * math.sin(a), 0, math.pi, epsrel=1e-11
        )[0]

    def slope(x, h=1e-5):
        inner = min(L / 2 - h, max(-L / 2 + h, x))
        return (printed(inner + h, w, D) - printed(inner - h, w, D)) / (2 * h)

    area = along(lambda x: printed(x, w, D) ** 2)
    centre = along(lambda x: x * printed(x, w, D) ** 2) / area
    fourth = along(lambda x: printed(x, w, D) ** 4)
    second = along(lambda x: (x - centre) ** 2 * printed(x, w, D) ** 2)
    surface = along(lambda x: 2 * math.pi * printed(x, w, D) * math.hypot(1, slope(x)))
    return {
        "volume": math.pi * area,
        "surface": surface,
        "centre": centre,
        "gyration_long": math.sqrt(fourth / 2 / area),
        "gyration_cross": math.sqrt(fourth / 4 / area + second / area),
    }


EGGS = pytest.mark.parametrize(
    ("w", "D"),
    [(0.0, None), (1.0, None), (2.0, None), (3.0, None), (2.0, 35.844), (2.0, 35.344)],
)


@EGGS
@pytest.mark.parametrize(
    ("what", "tolerance"),
    [
        ("volume", 1e-9),
        ("surface", 1e-5),  # the left side differentiates numerically
        ("gyration_long", 1e-9),
        ("gyration_cross", 1e-9),
    ],
)
def test_mass_properties_by_integration(w, D, what, tolerance):
    ours = getattr(mass_properties(L, B, w, D), what)
    assert integrated(w, D)[what] == pytest.approx(ours, rel=tolerance)


@EGGS
def test_centre_by_integration(w, D):
    assert integrated(w, D)["centre"] == pytest.approx(mass_properties(L, B, w, D).centre, abs=1e-8)


@EGGS
def test_outline_point_by_point(w, D):
    places = np.linspace(-L / 2, L / 2, 401)
    ours = radius(places, L, B, w, D)
    assert ours == pytest.approx([printed(x, w, D) for x in places], abs=1e-9)


@EGGS
def test_slope_by_differences(w, D):
    places = np.linspace(-0.98 * L / 2, 0.98 * L / 2, 101)
    h = 1e-5
    squared = [(printed(x + h, w, D) ** 2 - printed(x - h, w, D) ** 2) / (4 * h) for x in places]
    assert profile(places, L, B, w, D).slope == pytest.approx(squared, abs=1e-5)


@EGGS
def test_resting_pose_is_the_lowest_one(w, D):
    """Lying on a plane an egg has its centre of mass as low as it can: brute force over the dip."""
    centre = integrated(w, D)["centre"]
    along = L / 2 * np.cos(np.linspace(0, math.pi, 20_001))
    out = np.array([printed(x, w, D) for x in along])

    def height(dip):
        return np.max((along - centre) * math.sin(dip) + out * math.cos(dip))

    found = minimize_scalar(height, bounds=(-0.3, 0.3), method="bounded", options={"xatol": 1e-8})
    ours = lying(L, B, w, D)
    assert found.fun == pytest.approx(ours.height, abs=1e-6)
    assert found.x == pytest.approx(ours.dip, abs=1e-3)


def test_volume_by_throwing_points():
    """Monte Carlo, 400 000 points in the box around the egg; three standard errors."""
    n = 400_000
    points = np.random.default_rng(20211).uniform(-0.5, 0.5, (n, 3))
    x, y, z = L * points[:, 0], B * points[:, 1], B * points[:, 2]
    ratio = (L**2 - 4 * x**2) / (L**2 + 8 * 2.0 * x + 4 * 2.0**2)
    inside = y**2 + z**2 <= B**2 / 4 * ratio
    share = inside.mean()
    error = 3 * math.sqrt(share * (1 - share) / n)
    volume = mass_properties(L, B, 2.0).volume
    assert share == pytest.approx(volume / (L * B * B), abs=error)


# --- single values worked out from the printed formulas ------------------------------------------


def test_ovoid_closed_form_volume():
    # 56 914.66 mm3: the closed form and adaptive quadrature agree
    assert ovoid_volume(L, B, 2.0) == pytest.approx(56_914.66, abs=0.01)
    assert ovoid_volume(L, B, 2.0) == pytest.approx(integrated(2.0, None)["volume"], rel=1e-9)


def test_own_quarter_diameter():
    assert quarter_diameter(L, B, 2.0) == pytest.approx(36.3443, abs=1e-4)
    assert quarter_diameter(L, B, 2.0) == pytest.approx(2 * printed_ovoid(L / 4, 2.0), rel=1e-12)


def test_universal_with_the_ovoids_own_diameter_is_the_ovoid():
    ours = mass_properties(L, B, 2.0, 36.344272)
    assert ours.volume == pytest.approx(ovoid_volume(L, B, 2.0), rel=1e-6)


@pytest.mark.parametrize(("w", "D"), [(2.0, 35.3), (1.0, 33.0), (3.0, 36.5), (2.0, 31.5)])
def test_universal_passes_through_what_was_measured(w, D):
    assert radius(-w, L, B, w, D) == pytest.approx(B / 2, rel=1e-9)
    assert radius(L / 4, L, B, w, D) == pytest.approx(D / 2, rel=1e-9)


def test_pear_limit():
    D = float(pear_diameter(L, B, 2.0))
    assert pytest.approx(31.0518, abs=1e-4) == D
    assert pytest.approx(2 * printed_pear(L / 4, 2.0), rel=1e-12) == D
    assert mass_properties(L, B, 2.0, D).volume == pytest.approx(53_590.8, abs=0.1)
    places = np.linspace(-L / 2, L / 2, 101)
    assert radius(places, L, B, 2.0, D) == pytest.approx(
        [printed_pear(x, 2.0) for x in places], abs=1e-6
    )


def test_preston_egg_through_our_quadrature():
    """Preston 1953 (formula from memory): y = a sqrt(1 - s^2) (1 + c1 s + c2 s^2), s = x/b.

    V = (4/3) pi a^2 b (1 + 2 c2/5 + c1^2/5 + 3 c2^2/35); another shape through the same
    quadrature. Its greatest breadth is 43.518 mm at 3.485 mm toward the blunt end.
    """
    a, b, c1, c2 = 21.6, 28.75, -0.12, 0.02
    nodes, weights = np.polynomial.legendre.leggauss(40)
    bracket = 1 + c1 * nodes + c2 * nodes**2
    y2 = a**2 * (1 - nodes**2) * bracket**2
    slope = a**2 / b * (-nodes * bracket**2 + (1 - nodes**2) * bracket * (c1 + 2 * c2 * nodes))
    solid = revolve(b * nodes, b * weights, Profile(y2, slope))
    closed = 4 / 3 * math.pi * a**2 * b * (1 + 2 * c2 / 5 + c1**2 / 5 + 3 * c2**2 / 35)
    assert solid.volume == pytest.approx(closed, rel=1e-12)
    assert solid.volume == pytest.approx(56_799.995, abs=0.01)
    widest = minimize_scalar(
        lambda s: -2 * a * math.sqrt(1 - s * s) * (1 + c1 * s + c2 * s * s),
        bounds=(-0.5, 0.5),
        method="bounded",
    )
    assert (-widest.fun, widest.x * b) == pytest.approx((43.518, -3.485), abs=0.01)


def test_hens_egg_centre_from_the_blunt_tip():
    centre = L / 2 + mass_properties(L, B, 2.0).centre
    assert centre == pytest.approx(27.95, abs=0.01)
    assert centre / L == pytest.approx(0.4861, abs=1e-4)


def test_hens_egg_lying_down():
    pose = lying(L, B, 2.0)
    assert math.degrees(pose.dip) == pytest.approx(4.1, abs=0.05)
    assert pose.height == pytest.approx(21.706, abs=0.002)


@pytest.mark.parametrize(
    ("w", "D", "dip"),
    [(0.0, None, 0.0), (1.0, None, 2.1), (3.0, None, 5.9), (2.0, 35.844, 5.6), (2.0, 35.344, 7.1)],
)
def test_dip_of_a_lying_egg(w, D, dip):
    assert math.degrees(lying(L, B, w, D).dip) == pytest.approx(dip, abs=0.06)


def test_inertia_against_the_spheroid_of_the_textbook():
    """I = m B^2/10 about the axis and m (L^2 + B^2)/20 across it; 60 g, in kg m2."""
    spheroid = mass_properties(L * 1e-3, B * 1e-3, 0.0)
    assert 0.060 * spheroid.gyration_long**2 == pytest.approx(1.1354e-5, rel=1e-3)
    assert 0.060 * spheroid.gyration_cross**2 == pytest.approx(1.5596e-5, rel=1e-3)
    assert spheroid.gyration_long**2 == pytest.approx((B * 1e-3) ** 2 / 10, rel=1e-12)
    assert spheroid.gyration_cross**2 == pytest.approx(
        ((L * 1e-3) ** 2 + (B * 1e-3) ** 2) / 20, rel=1e-12
    )
    egg = mass_properties(L * 1e-3, B * 1e-3, 2e-3)
    assert egg.gyration_long == pytest.approx(spheroid.gyration_long, rel=3e-3)
    assert egg.gyration_cross == pytest.approx(spheroid.gyration_cross, rel=3e-3)


def test_spheroid_surface_of_the_textbook():
    """Prolate spheroid: 2 pi b^2 + 2 pi a b asin(e)/e."""
    a, b = L / 2, B / 2
    e = math.sqrt(1 - (b / a) ** 2)
    textbook = 2 * math.pi * b * b + 2 * math.pi * a * b * math.asin(e) / e
    assert mass_properties(L, B, 0.0).surface == pytest.approx(textbook, rel=1e-12)
