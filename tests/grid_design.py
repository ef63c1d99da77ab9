"""A sliding grid as a builder's file tells it, for tests of everything above the core."""

from functools import cache
from pathlib import Path

from turnercalc.design import Design
from turnercalc.design.reader import read_design
from turnercalc.design.starter import starter_text
from turnercalc.findings import Finding
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[1] / "examples"
TRAY = EXAMPLES / "seed-tray-grid.toml"

YOKE = {
    "drive": "scotch yoke",
    "link": None,
    "crank.across": "0 mm right of the pin",
    "slot.follower": "roller",
    "slot.pin_diameter": "5 mm",
    "slot.roller_diameter": "16 mm",
    "slot.bearing": "steel in bronze, oiled",
}
ROD = {
    "drive": "linear actuator",
    "link": None,
    "crank": None,
    "actuator.shortest": "245 mm",
    "actuator.stroke": "100 mm",
    "actuator.runs": "between end switches",
    "actuator.eye_across": "290 mm right of the pin",
    "actuator.eye_height": "at the height of the pin",
    "actuator.pin_diameter": "6 mm",
    "actuator.bearing": "steel in steel, oiled",
    "motor.stopped_by": "end switches",
    "box.width": "900 mm",
}
DRIVES = {"crank and link": {}, "scotch yoke": YOKE, "linear actuator": ROD}


def text_with(settings: dict[str, str | None]) -> tuple[str, dict[str, str]]:
    """Return the starter without the sections set to None, and the other settings."""
    text = starter_text("grid")
    for name in (name for name, value in settings.items() if value is None and "." not in name):
        start = text.index(f"[{name}]")
        text = text[:start] + text[text.index("\n[", start) + 1 :]
    said = {name: value for name, value in settings.items() if value is not None}
    return text, said


@cache
def _design(settings: tuple[tuple[str, str | None], ...]) -> Design:
    text, said = text_with(dict(settings))
    return read_design(text, said)


def design(**settings: str | None) -> Design:
    """Return the starter with fields set; `grid__weight` is ``grid.weight``."""
    return _design(tuple(sorted((k.replace("__", "."), v) for k, v in settings.items())))


@cache
def motors() -> MotorFile:
    return read_motors(EXAMPLES / "motors.csv")


@cache
def _sized(settings: tuple[tuple[str, str | None], ...], with_motors: bool) -> Sizing:
    return size(_design(settings), motors() if with_motors else None, count=180)


def sized(settings: dict[str, str | None] | None = None, *, with_motors: bool = False) -> Sizing:
    """Return the sizing of the starter with fields set."""
    return _sized(tuple(sorted((settings or {}).items())), with_motors)


def finding(sizing: Sizing, id_: str) -> Finding:
    """Return the finding of an id."""
    return next(found for found in sizing.findings if found.id == id_)
