"""Motors as circuits and heat as a balance: formulas against a winding and a warming body."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from turnercalc.mechanics import ac_motor, dc_motor, thermal

# A motor as a circuit: supply, resistance, constant, no-load current.
CIRCUITS = st.tuples(
    st.floats(5, 24), st.floats(0.5, 20), st.floats(0.005, 0.1), st.floats(0.01, 0.3)
)


@given(CIRCUITS, st.floats(0.05, 0.95))
def test_motor_line_from_the_circuit(
    circuit: tuple[float, float, float, float], place: float
) -> None:
    volts, ohms, constant, share = circuit
    stall_current = volts / ohms
    free_current = share * stall_current
    current = free_current + place * (stall_current - free_current)
    torque, speed = constant * (current - free_current), (volts - current * ohms) / constant
    stall = constant * (stall_current - free_current)
    free = (volts - free_current * ohms) / constant
    assert dc_motor.speed_at_torque(stall, free, torque) == pytest.approx(speed)
    assert dc_motor.torque_at_speed(stall, free, speed) == pytest.approx(torque)
    drawn = dc_motor.current_at_torque(torque, stall, free_current, stall_current)
    assert drawn == pytest.approx(current)
    efficiency = dc_motor.efficiency_at_current(current, free_current, stall_current)
    assert efficiency == pytest.approx(torque * speed / (volts * current))
    # energy: electrical in, mechanical out, winding heat, and the drag of the free current
    drag = constant * free_current * speed
    assert volts * current == pytest.approx(
        torque * speed + dc_motor.winding_heat(current, ohms) + drag
    )
    assert dc_motor.stall_torque_from_rated(torque, speed, free) == pytest.approx(stall)


@given(st.floats(0.01, 0.9))
def test_best_efficiency_is_the_best(share: float) -> None:
    current = np.linspace(share, 1.0, 20001)
    best = np.max(dc_motor.efficiency_at_current(current, share, 1.0))
    assert dc_motor.best_efficiency(share, 1.0) == pytest.approx(best, abs=1e-6)


def test_best_efficiency_figure() -> None:
    # free current a twenty-fifth of stall: 0.64, reached at a fifth: (1 - 1/5)(1 - 1/5)
    assert dc_motor.best_efficiency(0.04, 1.0) == pytest.approx(0.64, rel=1e-12)
    assert dc_motor.efficiency_at_current(0.2, 0.04, 1.0) == pytest.approx(0.64, rel=1e-12)


def test_the_line_goes_on_past_free_speed_and_past_stall() -> None:
    assert dc_motor.speed_at_torque(2.0, 1.0, -0.5) == 1.25
    assert dc_motor.speed_at_torque(2.0, 1.0, 2.5) < 0


def test_contradicting_listings() -> None:
    assert np.isnan(dc_motor.stall_torque_from_rated(1.0, 1.0, 1.0))
    assert np.isnan(dc_motor.stall_torque_from_rated(1.0, 1.2, 1.0))
    assert np.isnan(dc_motor.best_efficiency(2.0, 1.0))
    assert np.isnan(dc_motor.efficiency_at_current(0.1, 0.2, 1.0))
    assert np.isnan(dc_motor.line_at_switching_duty(2.0, 1.0, 0.05, 0.1, 1.0)).all()
    assert np.isnan(ac_motor.efficiency(12.3, 8.0)), "12.3 W out of 8 W"


@pytest.mark.parametrize(("celsius", "factor"), [(20, 1.0), (100, 1.314), (120, 1.393)])
def test_copper(celsius: float, factor: float) -> None:
    # The other common rule for copper: resistance in proportion to 234.5 + T (IEC 60034-1
    # takes 235). It and the coefficient 0.00393 agree to a part in a thousand here.
    assert (234.5 + celsius) / 254.5 == pytest.approx(factor, abs=2e-3)
    assert dc_motor.hot_resistance(1.0, celsius) == pytest.approx(factor, abs=2e-3)


def test_lower_supply() -> None:
    # 11 V instead of 12 through the circuit of a motor without drag
    constant, ohms = 0.02, 3.0
    stall, free = dc_motor.line_at_voltage(constant * 12 / ohms, 12 / constant, 11, 12)
    assert stall == pytest.approx(constant * 11 / ohms)
    assert free == pytest.approx(11 / constant)


def test_induction_motor_line() -> None:
    field = ac_motor.synchronous_speed(4, 50)
    rated = ac_motor.speed_at_slip(field, 0.04)
    assert ac_motor.induction_speed_at_torque(field, rated, 2.0, 0.0) == field
    assert ac_motor.induction_speed_at_torque(field, rated, 2.0, 2.0) == pytest.approx(rated)
    assert ac_motor.induction_speed_at_torque(field, rated, 2.0, -2.0) > field


def final_rise(on: float, off: float, hot: float, cool: float, heat: float) -> float:
    """Peak temperature rise of a body heated and left, cycle after cycle; 1 = heat 1 for ever."""
    rise = 0.0
    for _ in range(400):
        for lasts, constant, power in ((on, hot, heat), (off, cool, 0.0)):
            if lasts:
                run = solve_ivp(
                    lambda _, x, c=constant, p=power: (p - x) / c,
                    (0, lasts),
                    [rise],
                    rtol=1e-10,
                    atol=1e-12,
                )
                rise = float(run.y[0, -1])
            if power:
                peak = rise
        if off == 0 or abs(peak - rise) > 50:
            break
    return peak


@pytest.mark.parametrize("loss_ratio", [0.0, 0.6])
def test_short_time_overload_warms_to_the_rated_rise(loss_ratio: float) -> None:
    # Rated losses: copper 1, constant a; heat in units of their sum. From cold, once.
    factor = thermal.short_time_overload(600.0, 1500.0, loss_ratio)
    heat = (factor**2 + loss_ratio) / (1 + loss_ratio)
    run = solve_ivp(lambda _, x: (heat - x) / 1500.0, (0, 600.0), [0.0], rtol=1e-10, atol=1e-12)
    assert run.y[0, -1] == pytest.approx(1.0, rel=1e-7)


@pytest.mark.parametrize("loss_ratio", [0.0, 0.6])
def test_intermittent_overload_warms_to_the_rated_rise(loss_ratio: float) -> None:
    on, off, hot, cool = 120.0, 300.0, 900.0, 1800.0
    factor = thermal.intermittent_overload(on, off, hot, cool, loss_ratio)
    heat = (factor**2 + loss_ratio) / (1 + loss_ratio)
    assert final_rise(on, off, hot, cool, heat) == pytest.approx(1.0, rel=1e-6)


def test_short_cycles_approach_the_rms_bound() -> None:
    # cycle short against warming: the bound sqrt(1/CDF)
    factor = thermal.intermittent_overload(6.0, 18.0, 9000.0, 9000.0)
    share = thermal.cyclic_duration_factor(6.0, 18.0)
    assert factor == pytest.approx(thermal.intermittent_overload_bound(share), rel=2e-3)
    assert factor < thermal.intermittent_overload_bound(share)


def test_long_runs_have_nothing_to_spare() -> None:
    assert thermal.short_time_overload(20000.0, 900.0, 0.5) == pytest.approx(1.0, abs=1e-6)
    assert np.isnan(thermal.intermittent_overload_bound(1.2))


def test_dew_point_ends() -> None:
    assert thermal.dew_point(37.5, 1.0) == pytest.approx(37.5, rel=1e-12)
    assert np.isnan(thermal.dew_point(37.5, 0.0))
    assert np.isnan(thermal.dew_point(37.5, 60.0)), "per cent by mistake"
