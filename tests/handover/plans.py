"""Plans of examples as a builder would have them drawn, each made once for all tests."""

from functools import cache
from pathlib import Path

from turnercalc.advice.workshop import Plan, plan
from turnercalc.design import read_design
from turnercalc.motors import read_motors
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
RACK = EXAMPLES / "larder-rack.toml"
MOTORS = EXAMPLES / "motors.csv"


@cache
def _plan(file: str, settings: tuple[tuple[str, str], ...], system: str, corner: str) -> Plan:
    motors = read_motors(MOTORS) if file == RACK.name else None
    sizing = size(read_design(EXAMPLES / file, dict(settings)), motors)
    return plan(sizing, motors, system=system, corner=corner)


def plan_of(
    file: str = RACK.name, system: str = "metric", corner: str = "left", **settings: str
) -> Plan:
    """Return the plan of an example; settings have two underscores for their dot."""
    said = {path.replace("__", "."): text for path, text in settings.items()}
    return _plan(file, tuple(sorted(said.items())), system, corner)
