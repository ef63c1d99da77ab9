"""The formulas once more, derived by SymPy: proofs for the tests, explanations for people.

Nothing here runs when a turner is sized. `names` and `topics` answer without loading SymPy;
`derivation` loads it.
"""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from importlib import import_module
from types import MappingProxyType
from typing import TYPE_CHECKING

from turnercalc.errors import UnknownNameError
from turnercalc.registry import plain

if TYPE_CHECKING:
    from turnercalc.derivations.worked import Derivation

# Module (the topic) and the derivations in it, in the order in which they build on each other.
_TOPICS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "crank_and_link": (
            "crank_and_link_angle",
            "crank_and_link_rate",
            "crank_and_link_second",
            "crank_and_link_torque",
            "link_to_arm_angle",
        ),
        "slotted_lever": (
            "slotted_lever_angle",
            "slotted_lever_rate",
            "slotted_lever_second",
        ),
        "linear_actuator": (
            "actuator_length",
            "actuator_moment_arm",
            "actuator_force",
        ),
        "slider_crank": (
            "slider_position",
            "slider_rate",
            "slider_second",
        ),
        "rocking_cradle": (
            "cradle_height",
            "cradle_torque",
            "cradle_grip",
            "arc_roller_press",
        ),
        "rolling_bars": (
            "nest_angle",
            "nest_force",
            "rolling_loss",
            "egg_turn",
            "lopsided_egg",
            "row_of_bars",
            "belt_grip",
        ),
        "sliding_grid": (
            "grid_stroke",
            "grid_push",
            "grid_push_anywhere",
            "grid_climb",
            "grid_mesh_drop",
        ),
        "rotating_drum": (
            "drum_imbalance",
            "drum_torque",
            "roller_grip",
            "roller_climb",
        ),
        "worm_and_screw": (
            "worm_efficiency",
            "worm_back_efficiency",
            "screw_torque",
            "screw_efficiency",
            "stage_back_efficiency",
        ),
        "pivot": ("pivot_friction",),
    }
)


def topics() -> Mapping[str, tuple[str, ...]]:
    """Return every topic with the ids of its derivations, without loading SymPy."""
    return _TOPICS


def names() -> tuple[str, ...]:
    """Return the id of every derivation, without loading SymPy."""
    return tuple(name for names_ in _TOPICS.values() for name in names_)


def derivation(name: str) -> Derivation:
    """Return one derivation.

    Parameters
    ----------
    name : str
        Its id, spelt with underscores, hyphens or spaces. [text]

    Returns
    -------
    Derivation
        The same object every time.

    Raises
    ------
    UnknownNameError
        Naming the nearest and the whole topic where a topic was asked for.
    """
    wanted = plain(name)
    for topic, ids in _TOPICS.items():
        for id_ in ids:
            if plain(id_) == wanted:
                return _derived(topic, id_)
    raise UnknownNameError(_no_such(name, wanted))


@cache
def _derived(topic: str, id_: str) -> Derivation:
    module = import_module(f"turnercalc.derivations.{topic}")
    found: Derivation = getattr(module, id_)()
    return found


def _no_such(name: str, wanted: str) -> str:
    for topic, ids in _TOPICS.items():
        if plain(topic) == wanted:
            return f'"{name}" has several formulas. Ask for one of: {", ".join(ids)}.'
    every = {plain(id_): id_ for id_ in names()}
    near = get_close_matches(wanted, every, n=1)
    guess = f" Did you mean {every[near[0]]}?" if near else ""
    return f'No formula is called "{name}".{guess} There are: {", ".join(names())}.'
