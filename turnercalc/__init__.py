"""turnercalc: an egg turner mechanism design calculator for people who build their own incubator.

The front door. Nothing heavy is imported before it is used::

    import turnercalc

    design = turnercalc.read_design("my-rack.toml")
    sizing = turnercalc.size(design, turnercalc.read_motors("motors.csv"))
    print(sizing.verdict, sizing.reason.text)
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from turnercalc.advice import advise
    from turnercalc.design import Design, read_design
    from turnercalc.motors import read_motors
    from turnercalc.sizing import Sizing, size

__version__ = "0.1.0"

__all__ = ["Design", "Sizing", "advise", "read_design", "read_motors", "size"]

_HOMES = {
    "Design": "turnercalc.design",
    "Sizing": "turnercalc.sizing",
    "advise": "turnercalc.advice",
    "read_design": "turnercalc.design",
    "read_motors": "turnercalc.motors",
    "size": "turnercalc.sizing",
}


def __getattr__(name: str) -> Any:
    """Fetch a public name from its home on first use."""
    if name not in _HOMES:
        message = f"module 'turnercalc' has no attribute {name!r}; it has {', '.join(__all__)}"
        raise AttributeError(message)
    return getattr(import_module(_HOMES[name]), name)


def __dir__() -> list[str]:
    return sorted([*__all__, "__version__"])
