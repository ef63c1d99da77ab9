"""Which readings of a row break no law of physics.

No motor gives out more than it takes in. A listed power is input unless the listing says
otherwise, so a torque and a speed that hold together (a rated pair) must not multiply to more.
On the straight line of a brushed motor the stall torque and the free speed do not hold together:
the most it gives is a quarter of their product, at half speed [1]_.

References
----------
.. [1] MIT course 2.007, "Designing with D.C. motors", pages motors3 and motors4.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from turnercalc.motors.classes import motor_class
from turnercalc.motors.motor import Motor, Possible

ROUNDING = 1.05  # listed figures are rounded
HALF_SPEED = 0.25  # peak power of a straight line over stall torque times free speed


def power_at_hand(motor: Motor) -> tuple[float | None, str]:
    """Return the most the motor can give out by what the row says [W], and which figure says so."""
    if motor.input_power is not None:
        return motor.input_power, "input"
    if motor.output_power is not None:
        return motor.output_power, "output"
    if motor.rated_current is not None and motor.volts:
        return motor.rated_current * max(v.high for v in motor.volts), "volts times amps"
    return None, ""


def forms(motor: Motor) -> frozenset[str]:
    """Return the forms of torque-speed line that the motor could have."""
    names = motor.candidates or ("brushed_spur",)
    return frozenset(motor_class(name).line for name in names)


def slowest_share(motor: Motor) -> float:
    """Return the least share of its free speed that it could run at under rated load."""
    return 1.0 - max(motor_class(name).speed_drop for name in motor.candidates or ("brushed_spur",))


def peak_power(motor: Motor, torque: float, speed: float) -> float:
    """Return the most power that a stall torque and a free speed mean [W]."""
    share = HALF_SPEED if "straight" in forms(motor) or "stepped" in forms(motor) else 1.0
    return share * torque * speed


def impossible(motor: Motor) -> tuple[str, tuple[Possible, ...]]:
    """Return why a row cannot be as it stands, with the readings that could be; or nothing.

    Returns
    -------
    tuple of (str, tuple of Possible)
        An empty text where nothing speaks against the row.
    """
    if _rated_above_stall(motor):
        return "It lists a rated torque above its stall torque: are they the other way round?", ()
    limit, which = power_at_hand(motor)
    speed = motor.any_speed
    if limit is None or speed is None:
        return "", ()
    complaint = _over_power(motor, limit, which)
    if not complaint:
        return "", ()
    return complaint, tuple(_possible(motor, limit))


def _rated_above_stall(motor: Motor) -> bool:
    rated, stall = motor.rated_torque, motor.stall_torque
    return rated is not None and stall is not None and rated > stall * ROUNDING


def _over_power(motor: Motor, limit: float, which: str) -> str:
    working = motor.rated_torque if motor.rated_torque is not None else motor.unnamed_torque
    if working is not None:
        speed, share = _working_speed(motor)
        if working * speed * share > limit * ROUNDING:
            power = working * speed
            return f"As a rated pair that is {_watts(power)} out of {_watts(limit)}{_kind(which)}."
    if which == "volts times amps":
        return ""  # the rated current says nothing about stall
    stall = motor.stall_torque
    if stall is not None and (motor.free_speed or motor.unnamed_speed):
        speed = motor.free_speed or motor.unnamed_speed or 0.0
        power = peak_power(motor, stall, speed)
        # Near stall a motor draws more than it is rated for: the product tells nothing unless
        # it is far above the listed power.
        if working is None and power > limit * ROUNDING:
            return (
                f"As stall torque and free speed that is {_watts(power)} at its best, out of "
                f"{_watts(limit)}{_kind(which)}."
            )
    return ""


def _working_speed(motor: Motor) -> tuple[float, float]:
    """Return the speed of the rated pair, and the share of it that surely remains under load."""
    if motor.rated_speed is not None:
        return motor.rated_speed, 1.0
    speed = motor.unnamed_speed if motor.unnamed_speed is not None else motor.free_speed
    return speed or 0.0, slowest_share(motor)


def _kind(which: str) -> str:
    return {"input": "", "output": " (listed as output)"}.get(which, " (volts times amps)")


def _watts(power: float) -> str:
    return f"{power:.3g} W"


def _possible(motor: Motor, limit: float) -> Iterator[Possible]:
    """Yield the readings of the row's torque and speed that the power allows."""
    torque = motor.rated_torque if motor.rated_torque is not None else motor.unnamed_torque
    speed = motor.any_speed
    if torque is None or speed is None or "straight" not in forms(motor):
        return
    power = peak_power(motor, torque, speed)
    if power > limit * ROUNDING:
        return
    read_so = replace(
        motor,
        rated_torque=None,
        unnamed_torque=None,
        stall_torque=torque,
        rated_speed=None,
        unnamed_speed=None,
        free_speed=speed,
        ratings=(),
    )
    yield Possible("stall_torque", "free_speed", power, read_so)


def settle_bare_torque(amounts: dict[str, float], torque_is: str, motor: Motor) -> tuple[str, str]:
    """Return the unit that a torque without one must have, and how that was found.

    Parameters
    ----------
    amounts : dict of str to float
        Torque [N·m] for each unit it could be in.
    torque_is : str
        Field the torque belongs to, such as ``unnamed_torque``.
    motor : Motor
        The rest of the row.

    Returns
    -------
    tuple of (str, str)
        An empty unit where more than one remains, or none.
    """
    limit, _ = power_at_hand(motor)
    speed = motor.any_speed
    units = " or ".join(amounts)
    if limit is None or speed is None:
        return "", f"A torque without a unit: {units}? Power and speed would tell, if listed."
    share = 1.0
    if torque_is == "stall_torque":
        share = peak_power(motor, 1.0, 1.0)
    powers = {unit: torque * speed * share for unit, torque in amounts.items()}
    remaining = [unit for unit, power in powers.items() if power <= limit * ROUNDING]
    dropped = ", ".join(
        f"as {unit} it would be {_watts(power)} out of {_watts(limit)}"
        for unit, power in powers.items()
        if unit not in remaining
    )
    if len(remaining) == 1:
        return remaining[0], f"No unit stands with it; {dropped}, so it is {remaining[0]}."
    if not remaining:
        return "", f"A torque without a unit, and none fits: {dropped}."
    return "", f"A torque without a unit: {' or '.join(remaining)}? Both are possible."
