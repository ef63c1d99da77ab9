"""What to buy: the shopping line in the terms of listings, and which classes suit."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc import units
from turnercalc.motors.checks_running import USUAL_SERVO
from turnercalc.motors.checks_strength import NEXT_TO_NOTHING
from turnercalc.motors.classes import MotorClass, motor_classes
from turnercalc.motors.demand import Demand
from turnercalc.motors.motor import StartDirection


@dataclass(frozen=True)
class Suitable:
    """One class that would do, or would not, and why.

    Attributes
    ----------
    id, name : str
    suits : bool
    rated_torque_min : float
        Least rated torque a motor of this class needs [N·m]; more where it may start either way.
    reasons : tuple of str
    """

    id: str
    name: str
    suits: bool
    rated_torque_min: float
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class Shopping:
    """What to look for in a listing.

    Attributes
    ----------
    rated_torque_min : float
        Least rated torque of a motor that can turn the better way [N·m], or force [N].
    stall_torque_min : float
        Least stall torque of a brushed motor whose rated torque is not listed [N·m].
    speed_min, speed_max : float
        [rad/s], or [m/s].
    frequency : float or None
        Mains frequency its speed has to hold for [Hz].
    must_hold_when_off : bool
    holding_torque : float
        What the load puts on the resting motor [N·m].
    suitable_classes : tuple of Suitable
        All classes, suitable ones first.
    text : str
        The line for people, in the units of listings.
    """

    rated_torque_min: float
    stall_torque_min: float
    speed_min: float
    speed_max: float
    frequency: float | None
    must_hold_when_off: bool
    holding_torque: float
    suitable_classes: tuple[Suitable, ...]
    text: str

    @property
    def motor_classes(self) -> tuple[str, ...]:
        """Ids of the classes that suit."""
        return tuple(c.id for c in self.suitable_classes if c.suits)


def shopping_line(demand: Demand) -> Shopping:
    """Return what to look for in a listing.

    The rated torque covers the hardest planned load with the safety factor, and the bad corner
    (high friction, from rest, low supply) with none.
    """
    least = _rated_torque(demand, True, 1.0, 1.0)
    must_hold = demand.holding_torque > NEXT_TO_NOTHING * least
    classes = tuple(
        sorted(
            (_suitable(c, demand, must_hold) for c in motor_classes()), key=lambda c: not c.suits
        )
    )
    brushed = next(c for c in motor_classes() if c.id == "brushed_spur")
    needed = _rated_torque(demand, True, brushed.supply_low, 1.0)
    return Shopping(
        rated_torque_min=needed,
        stall_torque_min=needed / brushed.share_that_counts,
        speed_min=demand.speed_min,
        speed_max=demand.speed_max,
        frequency=demand.supply.frequency,
        must_hold_when_off=must_hold,
        holding_torque=demand.holding_torque,
        suitable_classes=classes,
        text=_text(demand, needed, must_hold),
    )


def _rated_torque(demand: Demand, chosen_freely: bool, sag: float, starting: float) -> float:
    """Return the least rated torque, by strength and by the bad corner [N·m]."""
    directions = demand.directions(chosen_freely)
    strength = demand.safety_factor * demand.hardest(directions)[0]
    corner = demand.hardest_corner(directions)[0] / (sag * min(starting, 1.0))
    return max(strength, corner)


def _text(demand: Demand, torque: float, must_hold: bool) -> str:
    if not math.isfinite(torque):
        return "Nothing to buy yet: friction jams the drive, however strong the motor."
    if demand.linear:
        return _text_linear(demand, torque)
    in_kgf = units.in_unit(torque, "kgf·cm", "torque")
    in_ozf = units.in_unit(torque, "ozf·in", "torque")
    size = f"{units.in_unit(torque, 'N·m', 'torque')} rated ({in_kgf}, {in_ozf})"
    slow = units.in_unit(demand.speed_min, "rpm", "rotation")
    fast = units.in_unit(demand.speed_max, "rpm", "rotation")
    speed = f"{slow.removesuffix(' rpm')} to {fast}"
    mains = f" on your {demand.supply.frequency:g} Hz" if demand.supply.frequency else ""
    hold = (
        f"It must hold {units.show(demand.holding_torque, 'torque')} when off."
        if must_hold
        else "It need not hold when off."
    )
    return f"A gearmotor of at least {size}, {speed}{mains}. {hold}"


def _text_linear(demand: Demand, force: float) -> str:
    newtons = units.in_unit(force, "N", "force")
    kgf = units.in_unit(force, "kgf", "force")
    slow = units.in_unit(demand.speed_min, "mm/s", "speed")
    fast = units.in_unit(demand.speed_max, "mm/s", "speed")
    stroke = units.in_unit(demand.travel, "mm", "length")
    return (
        f"A linear actuator of at least {newtons} rated ({kgf}), "
        f"{slow.removesuffix(' mm/s')} to {fast}, {stroke} of stroke at least."
    )


def _suitable(kind: MotorClass, demand: Demand, must_hold: bool) -> Suitable:
    free = kind.start_direction is StartDirection.REVERSIBLE
    sag = kind.supply_low**2 if kind.line == "induction" else kind.supply_low
    need = _rated_torque(demand, free, sag, kind.starting_share or 1.0)
    against = list(_against(kind, demand, must_hold, need))
    reasons = tuple(against) if against else tuple(_for(kind, demand, must_hold))
    return Suitable(kind.id, kind.name, not against, need, reasons)


def _against(kind: MotorClass, demand: Demand, must_hold: bool, need: float) -> list[str]:
    """Return what speaks against a class."""
    if kind.is_linear is not demand.linear:
        return ["it moves in a line" if kind.is_linear else "it turns; an actuator is wanted"]
    told_which_way = kind.start_direction is StartDirection.REVERSIBLE
    stops = kind.id == "servo" and demand.turns_through > USUAL_SERVO
    heats = demand.inside and kind.heat_at_rest == "holding current"
    found = (
        (kind.is_mains and not demand.supply.ac_volts, "it wants mains"),
        (demand.both_directions_needed and not told_which_way, "it cannot be told which way"),
        (stops, "it turns half a turn and stops"),
        (must_hold and kind.holds_when_off is False, "it does not hold when off"),
        (heats, "it heats the box while it holds"),
    )
    reasons = [words for applies, words in found if applies]
    return reasons if demand.linear else [*reasons, *_out_of_range(kind, demand, need)]


def _out_of_range(kind: MotorClass, demand: Demand, need: float) -> list[str]:
    """Return where the usual speed and torque of a class lie outside what is wanted."""
    found: list[str] = []
    if kind.speed_low is not None and kind.speed_low > demand.speed_max:
        slowest = units.in_unit(kind.speed_low, "rpm", "rotation")
        found.append(f"even the slow ones turn at {slowest}")
    if kind.speed_high is not None and kind.speed_high < demand.speed_min:
        found.append("even the fast ones are too slow")
    if kind.torque_high is not None and kind.torque_high * _counted_of(kind) < need:
        strongest = units.show(kind.torque_high, "torque")
        found.append(f"the strongest give about {strongest}, too little")
    return found


def _counted_of(kind: MotorClass) -> float:
    """Return what of the usual torque of a class counts: stall and holding figures in part."""
    return kind.share_that_counts if kind.id in ("wiper", "servo", "stepper") else 1.0


def _for(kind: MotorClass, demand: Demand, must_hold: bool) -> list[str]:
    found: list[str] = []
    if must_hold:
        found.append(
            "it holds when off" if kind.holds_when_off else "ask whether it holds when off"
        )
    if kind.is_mains:
        found.append("its speed is that of the mains whatever the load")
    if demand.directions(False) != demand.directions(True):
        free = kind.start_direction is StartDirection.REVERSIBLE
        found.append("it can turn the better way" if free else "the harder way counts")
    if kind.heat_at_rest == "none":
        found.append("no heat at rest")
    return found
