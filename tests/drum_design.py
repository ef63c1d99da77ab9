"""A drum as a builder's file tells it, for tests of everything above the core."""

from functools import cache
from pathlib import Path

from turnercalc.design.reader import read_design
from turnercalc.findings import Finding
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[1] / "examples"
CHEST = EXAMPLES / "tool-chest-drum.toml"

CRANK = {
    "drive": "crank and link",
    "arm.length": "80 mm",
    "arm.points": "right",
    "crank.radius": "60 mm",
    "crank.runs": "round and round",
    "crank.across": "52.5 mm right of axle",
    "crank.height": "160 mm below axle",
    "link.length": "160 mm",
    "link.pin_diameter": "6 mm",
    "link.bearing": "steel in nylon",
    "turning.swing": "48 deg each side",
    "motor.stopped_by": "park switch",
}
SLOT = {
    "drive": "slotted lever",
    "arm.length": "120 mm",
    "arm.points": "down",
    "crank.radius": "110 mm",
    "crank.runs": "round and round",
    "crank.across": "0 mm right of axle",
    "crank.height": "150 mm below axle",
    "slot.pin_diameter": "8 mm",
    "slot.bearing": "ball bearing",
    "slot.follower": "roller",
    "slot.roller_diameter": "19 mm",
    "turning.swing": "47 deg each side",
    "motor.stopped_by": "park switch",
}
ROD = {
    "drive": "linear actuator",
    "arm.length": "80 mm",
    "arm.points": "right",
    "actuator.shortest": "95 mm",
    "actuator.stroke": "120 mm",
    "actuator.runs": "between end switches",
    "actuator.eye_across": "55 mm right of axle",
    "actuator.eye_height": "155 mm below axle",
    "actuator.pin_diameter": "8 mm",
    "actuator.bearing": "steel in steel, oiled",
    "turning.swing": "45 deg each side",
    "motor.have": None,
}
ROLLERS = {
    "drum.carried_by": "rollers",
    "rollers.rim": "360 mm",
    "rollers.diameter": "40 mm",
    "rollers.surfaces": "rubber on wood",
    "rollers.spacing": "220 mm",
    "rollers.axle_diameter": "8 mm",
    "rollers.bearing": "ball bearing",
    "gearing.1.kind": "friction roller",
    "gearing.1.motor_diameter": "40 mm",
    "gearing.1.driven_diameter": "360 mm",
}
STEPS = {
    "turning.motion": "step by step",
    "turning.swing": None,
    "turning.step": "90 deg",
    "motor.stopped_by": "park switch",
}


@cache
def motors() -> MotorFile:
    """Return the motors of the examples."""
    return read_motors(EXAMPLES / "motors.csv")


@cache
def _sized(settings: tuple[tuple[str, str | None], ...], with_motors: bool) -> Sizing:
    return size(read_design(CHEST, dict(settings)), motors() if with_motors else None)


def sized(
    settings: dict[str, str | None] | None = None, *, with_motors: bool = True, **more: str | None
) -> Sizing:
    """Return the sizing of the example with some lines said otherwise; ``a__b`` stands for a.b."""
    changes = {**(settings or {}), **{name.replace("__", "."): v for name, v in more.items()}}
    return _sized(tuple(sorted(changes.items())), with_motors)


def finding(sizing: Sizing, check: str) -> Finding:
    """Return the one finding of a check."""
    (found,) = (one for one in sizing.findings if one.id == check)
    return found
