"""What a motor draws: current moving and stalled, the supply for it, a fuse, and its heat.

All of it in general terms, from what the listing gives: local codes and the maker's own leaflet
come first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.mechanics.dc_motor import current_at_torque
from turnercalc.motors.case import Case

#: Standard rated currents of miniature fuses (IEC 60127, from memory) [A].
FUSES = (0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0, 10.0, 12.5, 16.0, 20.0)
#: A fuse that carries this many times the largest running current does not tire (common practice,
#: no source).
FUSE_OVER_RUNNING = 1.5
#: A supply with this much in hand runs cool (common practice, no source).
SUPPLY_OVER_RUNNING = 1.5
#: Volts up to which a stepper's listed voltage is that of its winding; more is that of a driver.
WINDING_VOLTS = 6.0
PHASES = 2  # on at once, in a stepper that holds


@dataclass(frozen=True)
class Electric:
    """What one motor draws against one demand.

    Attributes
    ----------
    volts : float or None
        Supply it runs on [V].
    current : str
        ``ac`` or ``dc``; empty where unknown.
    running : float or None
        Largest current of a planned move [A].
    running_from : str
        How that was found, for people.
    stalled : float or None
        Current when it is blocked [A].
    power : float or None
        Largest electrical power of a planned move [W].
    power_at_most : bool
        Whether that is only a bound: a stepper's amps at the volts of its driver.
    standing_power : float or None
        What it turns into heat while it stands between moves [W]; 0 where it is switched off.
    supply_current : float or None
        What the supply should be able to give [A].
    fuse : float or None
        Standard fuse that carries the moves and still blows in a stall [A]; None where there is
        none between, or where a current is not known.
    fuse_because : str
        Why that one, or why none.
    """

    volts: float | None
    current: str
    running: float | None
    running_from: str
    stalled: float | None
    power: float | None
    power_at_most: bool
    standing_power: float | None
    supply_current: float | None
    fuse: float | None
    fuse_because: str


def electric(case: Case) -> Electric:
    """Return what a motor draws; what the listing does not give stays None."""
    volts = case.match.volts if case.match.fits else None
    running, how = _running(case, volts)
    stalled = _stalled(case)
    power = _power(case, volts, running)
    fuse, because = _fuse(running, stalled, case)
    supply = None if running is None else max(SUPPLY_OVER_RUNNING * running, fuse or 0.0)
    return Electric(
        volts=volts,
        current=case.match.current,
        running=running,
        running_from=how,
        stalled=stalled,
        power=power,
        power_at_most=_is_bound(case),
        standing_power=standing_power(case),
        supply_current=supply,
        fuse=fuse,
        fuse_because=because,
    )


def _running(case: Case, volts: float | None) -> tuple[float | None, str]:
    """Return the largest current of a planned move [A], and how it is known."""
    if not math.isfinite(case.hardest[0]):
        return None, "friction jams the drive, so nothing moves"
    if case.traits.line == "straight":
        found = _on_the_line(case)
        if found is not None:
            return found
    motor = case.motor
    if motor.rated_current is not None:
        return motor.rated_current, "its listed current"
    if motor.input_power is not None and volts:
        return motor.input_power / volts, "its listed power over the volts, at least"
    return None, "no current and no power is listed"


def _on_the_line(case: Case) -> tuple[float, str] | None:
    """Return the current at the hardest planned torque on the straight line of a brushed motor."""
    torque, points = case.hardest[0], _points(case)
    if len(points) < 2:
        return None
    (t0, i0), (t1, i1) = points[0], points[-1]
    if t1 <= t0:
        return None
    if torque <= t0:
        return i0, "at most what is listed for a harder turn"
    # The straight line I0 + (Is - I0) T/Ts, through the two listed points.
    drawn = float(current_at_torque(torque - t0, t1 - t0, i0, i1))
    return max(drawn, 0.0), "on the line through its listed currents, at the hardest turn"


def _points(case: Case) -> list[tuple[float, float]]:
    """Return the points of its current-torque line that are listed [N·m, A], weakest first."""
    motor = case.motor
    pairs = (
        (0.0, motor.free_current),
        (motor.force if case.traits.linear else motor.rated_torque, motor.rated_current),
        (motor.stall_torque, motor.stall_current),
    )
    return sorted((t, i) for t, i in pairs if t is not None and i is not None)


def _stalled(case: Case) -> float | None:
    """Return the current of a blocked motor [A]; None where neither listed nor on a known line."""
    motor = case.motor
    if motor.stall_current is not None:
        return motor.stall_current
    if case.traits.line == "stepped" and case.traits.heat_at_rest == "holding current":
        return motor.rated_current if case.traits.all_steppers else None
    points = _points(case)
    if case.traits.line == "straight" and motor.stall_torque is not None and len(points) == 2:
        (t0, i0), (t1, i1) = points
        return i0 + (i1 - i0) * (motor.stall_torque - t0) / (t1 - t0) if t1 > t0 else None
    return None


def _power(case: Case, volts: float | None, running: float | None) -> float | None:
    listed = case.motor.input_power
    if case.traits.all_steppers:
        return holding_power(case)
    drawn = running * volts if running is not None and volts else None
    if case.traits.line == "straight" and drawn is not None:
        return drawn
    return listed if listed is not None else drawn


def holding_power(case: Case) -> float | None:
    """Return the heat of a stepper's holding current [W]: two phases at the winding's voltage.

    A listing gives the winding's few volts or the driver's many; on the driver's volts times
    amps is more than the winding takes, so it is the cautious side.
    """
    motor = case.motor
    if motor.input_power is not None:
        return motor.input_power
    if motor.rated_current is None or not motor.volts:
        return None
    volts = min(v.low for v in motor.volts)
    if volts <= WINDING_VOLTS:
        return PHASES * volts * motor.rated_current
    return volts * motor.rated_current


def _is_bound(case: Case) -> bool:
    motor = case.motor
    volts = min((v.low for v in motor.volts), default=0.0)
    return case.traits.all_steppers and motor.input_power is None and volts > WINDING_VOLTS


def standing_power(case: Case) -> float | None:
    """Return what a motor turns into heat while it stands between moves [W], or None.

    A stepper or servo that holds by current heats all the time; every other motor is switched
    off between moves.
    """
    if case.traits.heat_at_rest != "holding current":
        return 0.0
    if case.traits.all_steppers:
        return holding_power(case)
    return case.motor.input_power if case.motor.input_power is not None else _servo(case)


def _servo(case: Case) -> float | None:
    """Return the most a servo takes while it holds: its current under load at its volts [W]."""
    motor, volts = case.motor, case.match.volts
    if motor.rated_current is None or volts is None:
        return None
    return motor.rated_current * volts


def _fuse(running: float | None, stalled: float | None, case: Case) -> tuple[float | None, str]:
    if running is None:
        return None, "its running current is not known: measure it while it lifts"
    least = FUSE_OVER_RUNNING * running
    fuse = next((size for size in FUSES if size >= least), None)
    if fuse is None:
        return None, "its current is beyond small fuses: follow the maker"
    if case.traits.line == "stepped":
        return fuse, "its control limits the current whatever the load: follow the control's maker"
    if case.traits.all_mains:
        return fuse, (
            "slow blow, for the wire; a mains motor draws little more blocked than running, so "
            "only its own thermal cut-out and the time-out save the winding"
        )
    if stalled is None:
        return fuse, "slow blow; whether a stall blows it is not known, its current is not listed"
    if fuse >= stalled:
        return None, (
            f"none fits between its running {running:.2g} A and its blocked {stalled:.2g} A: only "
            "a current limit and the time-out save it"
        )
    return fuse, f"slow blow, below its blocked {stalled:.3g} A; it blows late, so time out as well"
