"""Beams, shafts, pins and columns: formulas against integration of the section and the bar."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import cumulative_simpson
from scipy.optimize import brentq

from turnercalc.mechanics import beams, buckling, pins, torsion


def sag_by_integration(moment: np.ndarray, x: np.ndarray, stiffness: float) -> np.ndarray:
    """Integrate the curvature M/(E I) twice, with no sag at either end."""
    slope = cumulative_simpson(moment / stiffness, x=x, initial=0.0)
    drop = cumulative_simpson(slope, x=x, initial=0.0)
    return x / x[-1] * drop[-1] - drop


X = np.linspace(0.0, 0.8, 2001)
STIFFNESS = 200e9 * beams.round_second_moment(0.008)


def test_even_load_on_two_supports() -> None:
    w, length = 30.0, 0.8
    moment = w * X * (length - X) / 2
    assert beams.uniform_load_moment(w, length) == pytest.approx(moment.max(), rel=1e-9)
    sag = sag_by_integration(moment, X, STIFFNESS).max()
    found = beams.uniform_load_sag(w, length, 200e9, STIFFNESS / 200e9)
    assert found == pytest.approx(sag, rel=1e-6)


def test_central_load_on_two_supports() -> None:
    p, length = 20.0, 0.8
    moment = p / 2 * np.minimum(X, length - X)
    assert beams.central_load_moment(p, length) == pytest.approx(moment.max(), rel=1e-9)
    sag = sag_by_integration(moment, X, STIFFNESS).max()
    found = beams.central_load_sag(p, length, 200e9, STIFFNESS / 200e9)
    assert found == pytest.approx(sag, rel=1e-6)


@pytest.mark.parametrize("kind", ["even", "central"])
def test_rigid_ends(kind: str) -> None:
    # the end moment is what makes the slope vanish at the end
    length = 0.8
    if kind == "even":
        free = 30.0 * X * (length - X) / 2
        end = beams.fixed_uniform_load_moment(30.0, length)
        found = beams.fixed_uniform_load_sag(30.0, length, 200e9, STIFFNESS / 200e9)
    else:
        free = 20.0 / 2 * np.minimum(X, length - X)
        end = beams.fixed_central_load_moment(20.0, length)
        found = beams.fixed_central_load_sag(20.0, length, 200e9, STIFFNESS / 200e9)
    needed = np.trapezoid(free, X) / length
    assert end == pytest.approx(needed, rel=1e-6)
    sag = sag_by_integration(free - end, X, STIFFNESS).max()
    assert found == pytest.approx(sag, rel=1e-5)


def test_overhang() -> None:
    moment = 20.0 * (0.8 - X)
    assert beams.overhang_moment(20.0, 0.8) == moment.max()
    slope = cumulative_simpson(moment / STIFFNESS, x=X, initial=0.0)
    end = cumulative_simpson(slope, x=X, initial=0.0)[-1]
    found = beams.overhang_sag(20.0, 0.8, 200e9, STIFFNESS / 200e9)
    assert found == pytest.approx(end, rel=1e-6)


def test_steel_rod() -> None:
    # 10 mm steel, 1 m, 100 N/m, E = 200 GPa: 13.263 mm and 127.3 MPa; 100 N in the middle
    # 21.22 mm. By integration along the bar.
    x = np.linspace(0.0, 1.0, 2001)
    second = beams.round_second_moment(0.010)
    even = 100 * x * (1 - x) / 2
    sag = sag_by_integration(even, x, 200e9 * second).max()
    assert sag == pytest.approx(13.263e-3, abs=6e-7)
    assert beams.uniform_load_sag(100, 1, 200e9, second) == pytest.approx(sag, rel=1e-6)
    stress = beams.bending_stress(even.max(), second, 0.005)
    assert stress == pytest.approx(127.3e6, abs=6e4)
    central = sag_by_integration(50 * np.minimum(x, 1 - x), x, 200e9 * second).max()
    assert central == pytest.approx(21.22e-3, abs=6e-6)
    assert beams.central_load_sag(100, 1, 200e9, second) == pytest.approx(central, rel=1e-6)


@given(st.floats(0.003, 0.03), st.floats(0.0, 0.9))
def test_round_sections_by_area(diameter: float, share: float) -> None:
    bore = share * diameter
    radius = np.linspace(bore / 2, diameter / 2, 4001)
    polar = np.trapezoid(2 * np.pi * radius**3, radius)
    assert torsion.round_polar_moment(diameter, bore) == pytest.approx(polar, rel=1e-5)
    assert beams.round_second_moment(diameter, bore) == pytest.approx(polar / 2, rel=1e-5)


def test_rectangle_by_area() -> None:
    y = np.linspace(-0.006, 0.006, 4001)
    second = np.trapezoid(0.003 * y**2, y)
    assert beams.rectangle_second_moment(0.003, 0.012) == pytest.approx(second, rel=1e-6)


@pytest.mark.parametrize("bore", [0.01, 0.011])
def test_a_tube_needs_a_wall(bore: float) -> None:
    assert np.isnan(beams.round_second_moment(0.01, bore))
    assert np.isnan(torsion.round_polar_moment(0.01, bore))
    assert np.isnan(torsion.torsion_stress(1.0, 0.01, bore))


def test_steel_shaft() -> None:
    # 1 N m on 8 mm steel (79.9 GPa) over 0.5 m: 0.898 degrees at 79.3 GPa, 9.95 MPa; the stress
    # from adding up rings whose stress grows with the radius
    radius = np.linspace(0, 0.004, 4001)
    per_surface_stress = np.trapezoid(radius / 0.004 * 2 * np.pi * radius**2, radius)
    stress = 1.0 / per_surface_stress
    assert stress == pytest.approx(9.95e6, abs=6e3)
    assert torsion.torsion_stress(1.0, 0.008) == pytest.approx(stress, rel=1e-6)
    # surface shear strain = radius x twist per length
    twist = stress / 79.3e9 * 0.5 / 0.004
    assert np.degrees(twist) == pytest.approx(0.898, abs=6e-4)
    assert torsion.shaft_twist(1.0, 0.5, 79.3e9, 0.008) == pytest.approx(twist, rel=1e-6)


@given(st.floats(-50e6, 50e6), st.floats(-50e6, 50e6))
def test_combined_stresses_from_the_stress_tensor(bending: float, shear: float) -> None:
    principal = np.linalg.eigvalsh([[bending, shear], [shear, 0.0]])
    largest = (principal[1] - principal[0]) / 2
    mises = np.sqrt(principal[0] ** 2 - principal[0] * principal[1] + principal[1] ** 2)
    assert torsion.largest_shear_stress(bending, shear) == pytest.approx(largest, abs=1.0)
    assert torsion.von_mises_stress(bending, shear) == pytest.approx(mises, rel=1e-9, abs=1.0)


def test_pins() -> None:
    area = np.pi * 0.006**2 / 4
    assert pins.pin_shear_stress(300.0, 0.006) == pytest.approx(300 / area)
    assert pins.pin_shear_stress(-300.0, 0.006, 2) == pytest.approx(150 / area)
    assert pins.pin_bearing_pressure(-300.0, 0.006, 0.01) == pytest.approx(5e6)
    assert pins.hole_tear_out_stress(300.0, 0.01, 0.003) == pytest.approx(5e6)


def test_euler_is_where_a_bowed_rod_first_balances() -> None:
    # Shoot y'' = -P y/(E I) from one pin and ask for which P it meets the other: first root.
    second, length = beams.round_second_moment(0.005), 0.4
    stiffness = 200e9 * second

    def miss(load: float) -> float:
        k = np.sqrt(load / stiffness)
        return float(np.sin(k * length) / k)

    guess = buckling.euler_load(200e9, second, length)
    first = brentq(miss, 0.3 * guess, 1.7 * guess)
    assert guess == pytest.approx(first, rel=1e-9)
    # rigid ends: the bow between two turning points is half as long
    assert buckling.euler_load(200e9, second, length, 0.5) == pytest.approx(4 * guess)


def test_johnson_touches_euler_with_one_slope() -> None:
    second, area = beams.round_second_moment(0.005), np.pi * 0.005**2 / 4
    at = buckling.transition_slenderness(200e9, 250e6) * 0.005 / 4
    near = at * (1 + np.array([-1e-5, 0.0, 1e-5]))
    loads = buckling.buckling_load(200e9, second, area, near, 250e6)
    assert loads[1] == pytest.approx(250e6 * area / 2, rel=1e-9)
    left, right = np.diff(loads)
    assert left == pytest.approx(right, rel=1e-3)
    assert buckling.buckling_load(200e9, second, area, 1e-9, 250e6) == pytest.approx(250e6 * area)
    assert np.isnan(buckling.johnson_load(200e9, second, area, 1.01 * at, 250e6))
    assert buckling.radius_of_gyration(second, area) == pytest.approx(0.005 / 4)
