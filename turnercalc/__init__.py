"""turnercalc: an egg turner mechanism design calculator for people who build their own incubator.

The front door. Nothing heavy is imported before it is used::

    import turnercalc

    design = turnercalc.read_design("my-rack.toml")
    sizing = turnercalc.size(design, turnercalc.read_motors("motors.csv"))
    print(sizing.verdict, sizing.reason.text)

`calculate` adds what to change and shows itself in a notebook. Many designs at once: `sweep`,
`find_lengths`, `judge_build`, `which_motor`, `capacity`, `sensitivity`, `compare`,
`nearest_trains`, `fit_trays`. ``examples/python.md`` has examples of all of them that run.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from turnercalc.advice import advise
    from turnercalc.advice.capacity import capacity
    from turnercalc.advice.compare import compare
    from turnercalc.advice.fit_trays import fit_trays
    from turnercalc.advice.gears import nearest_trains
    from turnercalc.advice.lengths import Wish, find_lengths
    from turnercalc.advice.sensitivity import sensitivity
    from turnercalc.advice.sweep import sweep
    from turnercalc.advice.tolerance import judge_build
    from turnercalc.advice.which_motor import which_motor
    from turnercalc.design import Design, read_design
    from turnercalc.handover.notebook import Result, calculate, size
    from turnercalc.motors import read_motors
    from turnercalc.sizing import Sizing

__version__ = "0.1.0"

__all__ = [
    "Design",
    "Result",
    "Sizing",
    "Wish",
    "advise",
    "calculate",
    "capacity",
    "compare",
    "find_lengths",
    "fit_trays",
    "judge_build",
    "nearest_trains",
    "read_design",
    "read_motors",
    "sensitivity",
    "size",
    "sweep",
    "which_motor",
]

_HOMES = {
    "Design": "turnercalc.design",
    "Result": "turnercalc.handover.notebook",
    "Sizing": "turnercalc.sizing",
    "Wish": "turnercalc.advice.lengths",
    "advise": "turnercalc.advice",
    "calculate": "turnercalc.handover.notebook",
    "capacity": "turnercalc.advice.capacity",
    "compare": "turnercalc.advice.compare",
    "find_lengths": "turnercalc.advice.lengths",
    "fit_trays": "turnercalc.advice.fit_trays",
    "judge_build": "turnercalc.advice.tolerance",
    "nearest_trains": "turnercalc.advice.gears",
    "read_design": "turnercalc.design",
    "read_motors": "turnercalc.motors",
    "sensitivity": "turnercalc.advice.sensitivity",
    "size": "turnercalc.handover.notebook",
    "sweep": "turnercalc.advice.sweep",
    "which_motor": "turnercalc.advice.which_motor",
}


def __getattr__(name: str) -> Any:
    """Fetch a public name from its home on first use."""
    if name not in _HOMES:
        message = f"module 'turnercalc' has no attribute {name!r}; it has {', '.join(__all__)}"
        raise AttributeError(message)
    return getattr(import_module(_HOMES[name]), name)


def __dir__() -> list[str]:
    return sorted([*__all__, "__version__"])
