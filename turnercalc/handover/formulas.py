"""A topic of formulas as a page, with the numbers of a design put in where there is one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from turnercalc.checks.wording import place
from turnercalc.derivations import derivation, topics
from turnercalc.design import Design
from turnercalc.drives.crank_link import CrankLink
from turnercalc.errors import TurnercalcError
from turnercalc.handover.bar_numbers import bar_numbers
from turnercalc.handover.cradle_numbers import cradle_numbers
from turnercalc.handover.cycle_record import hardest_load
from turnercalc.handover.drive_numbers import actuator_numbers, lever_numbers
from turnercalc.handover.drum_numbers import drum_numbers
from turnercalc.handover.layout import wrap
from turnercalc.handover.letters import ascii_only as to_ascii
from turnercalc.loads import hardest
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.paths import CirclePath, LinePath
from turnercalc.registry import plain
from turnercalc.sizing import Sizing, size
from turnercalc.turners.sliding_grid import SlidingGrid
from turnercalc.turners.tilting_trays import TiltingTrays

if TYPE_CHECKING:
    from turnercalc.derivations.worked import Derivation


@dataclass(frozen=True)
class Case:
    """The numbers that a design puts into the formulas of a topic.

    Attributes
    ----------
    values : mapping
        Letter -> value [SI]; a formula of which a letter is missing stays without numbers.
    where : str
        Which place of the cycle they belong to, for people.
    compare : str
        What the whole calculation gives there; empty where it is the same.
    """

    values: Mapping[str, float]
    where: str
    compare: str = ""


def formula_page(name: str, design: Design | None = None, *, ascii_only: bool = False) -> str:
    """Return the page of one formula or of a whole topic.

    Parameters
    ----------
    name : str
        A topic such as ``crank and link``, or one formula of it.
    design : Design, optional
        Whose numbers to put in.
    ascii_only : bool
        Leave out signs that a bare terminal does not have.

    Raises
    ------
    UnknownNameError
        There is no such formula.
    """
    topic, ids = _found(name)
    case = case_of(design, topic) if design is not None else None
    lines = [topic.replace("_", " ").upper(), ""]
    if case is not None and design is not None:
        lines += [*wrap(f"With the numbers of {design.name}: {case.where}."), ""]
    elif design is not None:
        lines += [*wrap("Nothing in this design goes into these formulas."), ""]
    for id_ in ids:
        found = derivation(id_)
        values = case.values if case is not None else {}
        told = all(letter in values for letter in found.symbols)
        lines += _formula(found, values if told else None, ascii_only)
        lines.append("")
    if case is not None and case.compare:
        lines += wrap(case.compare)
    return "\n".join(lines).rstrip("\n")


def _formula(found: Derivation, values: Mapping[str, float] | None, ascii_only: bool) -> list[str]:
    """Return one formula: how it is derived, the letters or the numbers put in, its source."""
    letters = to_ascii if ascii_only else str
    lines = [letters(found.title), "", *(letters(line) for line in _statement(found)), ""]
    if values is None:
        told = found.explanation(ascii_only=ascii_only)
        # After the title and the derivation, each followed by a blank line.
        return lines + list(told[told.index("", 2) + 1 :])
    lines += found.substitute(values, ascii_only=ascii_only).lines
    return [*lines, "", *wrap(letters(found.source), 10, "  Source: ")]


def _statement(found: Derivation) -> list[str]:
    """Return the derivation in lines that fit: sentences flow, formulas keep a line each."""
    lines: list[str] = []
    for formula, group in groupby(found.statement, lambda line: line.startswith("  ")):
        if formula:
            for line in group:
                lines += wrap(line.strip(), 6, "    ")
        else:
            lines += wrap(" ".join(group), 2)
    return lines


def _found(name: str) -> tuple[str, tuple[str, ...]]:
    """Return the topic of a name and which of its formulas are meant."""
    for topic, ids in topics().items():
        if plain(topic) == plain(name):
            return topic, ids
        for id_ in ids:
            if plain(id_) == plain(name):
                return topic, (id_,)
    derivation(name)  # says that there is none, and which is nearest
    raise AssertionError(name)


def case_of(design: Design, topic: str) -> Case | None:
    """Return the numbers a design puts into a topic, or None where it has none for it."""
    make = CASES.get(topic)
    if make is None:
        return None
    sizing = size(design)
    if sizing.cycle is None:
        raise TurnercalcError(f"There are no numbers to put in: {sizing.reason.text}")
    return make(sizing)


def _crank_and_link(sizing: Sizing) -> Case | None:
    """Return the numbers of crank and link where the hardest planned load is hardest."""
    drive, path, cycle = sizing.drive, sizing.turner.path(), sizing.cycle
    if not isinstance(drive, CrankLink) or not isinstance(path, CirclePath) or cycle is None:
        return None
    better = sizing.told_direction
    middle = cycle.levels.index("middle")
    at, load = hardest(cycle, middle, better).position, hardest_load(sizing)
    motion = cycle.motion
    q = float(motion.coordinate[at])
    values = {
        "r": float(np.asarray(drive.crank)),
        "L": float(np.asarray(drive.link)),
        "a": float(np.asarray(path.radius)),
        "X": float(np.asarray(drive.across)),
        "Y": float(np.asarray(drive.height)),
        "b": float(np.asarray(drive.branch)),
        "t": float(motion.position[at]),
        "p": q + float(np.asarray(path.angle)),
        "p1": float(motion.rate[at]),
        "q": q,
        "g": STANDARD_GRAVITY,
        **_balance(sizing, load),
    }
    sense = (1.0, -1.0)[better]
    name = cycle.loads[load].name
    where = f"{name}, hardest {place(sizing.turner, q, sense * values['p1'] > 0.0)}"
    whole = float(cycle.shaft_torque[load, middle, better, at])
    compare = (
        f"With loose eggs, springs, both ends of the link and middle friction the whole "
        f"calculation gives {whole:.3g} N·m there."
    )
    return Case(MappingProxyType(values), where, compare if "M" in values else "")


def _balance(sizing: Sizing, load: int) -> dict[str, float]:
    """Return the mass of all that tilts, and its balance point with the trays level."""
    turner, cycle = sizing.turner, sizing.cycle
    if not isinstance(turner, TiltingTrays) or cycle is None:
        return {}
    mass, _, across, height = (
        float(part.sum()) for part in turner.moments(cycle.loads[load].cells[None].astype(float))
    )
    at_pin = turner.tie_bar_mass + sizing.drive.pin_mass
    pin_x, pin_y = (float(part) for part in turner.path().point(0.0))
    whole = mass + at_pin
    return {
        "M": whole,
        "x": (across + at_pin * pin_x) / whole,
        "y": (height + at_pin * pin_y) / whole,
    }


def _slider_crank(sizing: Sizing) -> Case | None:
    """Return the numbers of a crank on a slide where the hardest planned load is hardest."""
    drive, path, cycle = sizing.drive, sizing.turner.path(), sizing.cycle
    if not isinstance(drive, CrankLink) or not isinstance(path, LinePath) or cycle is None:
        return None
    better, middle = sizing.told_direction, cycle.levels.index("middle")
    at = hardest(cycle, middle, better).position
    angle = float(np.asarray(path.angle))
    dx, dy = float(path.across - drive.across), float(path.height - drive.height)
    values = {
        "r": float(np.asarray(drive.crank)),
        "L": float(np.asarray(drive.link)),
        "e": dy * float(np.cos(angle)) - dx * float(np.sin(angle)),
        "t": float(cycle.motion.position[at]) - angle,
        "b": float(np.asarray(drive.branch)),
    }
    rises = float(cycle.motion.rate[at]) * (1.0, -1.0)[better] > 0.0
    where = place(sizing.turner, float(cycle.motion.coordinate[at]), rises)
    return Case(MappingProxyType(values), f"{cycle.loads[hardest_load(sizing)].name}, at {where}")


def _sliding_grid(sizing: Sizing) -> Case | None:
    """Return the numbers of one typical egg where it is hardest to roll, at middle friction."""
    grid, cycle = sizing.turner, sizing.cycle
    if not isinstance(grid, SlidingGrid) or cycle is None:
        return None
    weight = grid.egg_mass * STANDARD_GRAVITY
    values = {
        "W": weight,
        "R": grid.egg_radius,
        "f": grid.rolling_arm.middle,
        "k": grid.bar_friction.middle,
        "u": grid.turns_of(sizing.ends.total)[1],
        "p": grid.play,
        "d": float(grid.bars.contact(grid.egg_radius)),
        "A": float(grid.climb(grid.egg_radius)),
        "b": abs(grid.lean),
        "T": weight * grid.off_centre.middle,
    }
    if grid.mesh is not None:
        values |= {"a": grid.mesh.pitch, "w": 0.5 * grid.mesh.wire}
    middle, load = cycle.levels.index("middle"), hardest_load(sizing)
    most = float(np.nanmax(np.abs(cycle.load_torque[load, middle])))
    count = cycle.loads[load].egg_count
    compare = f"The {count} eggs and the grid's own friction together take up to {most:.3g} N."
    return Case(MappingProxyType(values), "one typical egg, hardest to roll", compare)


def _rotating_drum(sizing: Sizing) -> Case | None:
    """Return the numbers of a drum where the hardest planned load is hardest."""
    found = drum_numbers(sizing)
    return None if found is None else Case(*found)


def _rolling_bars(sizing: Sizing) -> Case | None:
    """Return the numbers of rolling bars, for one egg and one bar."""
    found = bar_numbers(sizing)
    return None if found is None else Case(*found)


def _rocking_cradle(sizing: Sizing) -> Case | None:
    """Return the numbers of a cradle where the hardest planned load is hardest."""
    found = cradle_numbers(sizing)
    return None if found is None else Case(*found)


def _slotted_lever(sizing: Sizing) -> Case | None:
    """Return the numbers of crank and slot where the hardest planned load is hardest."""
    found = lever_numbers(sizing)
    return None if found is None else Case(*found)


def _linear_actuator(sizing: Sizing) -> Case | None:
    """Return the numbers of an actuator where the hardest planned load is hardest."""
    found = actuator_numbers(sizing)
    return None if found is None else Case(*found)


#: Topic -> what a result puts into its formulas.
CASES: Mapping[str, Callable[[Sizing], Case | None]] = MappingProxyType(
    {
        "crank_and_link": _crank_and_link,
        "slider_crank": _slider_crank,
        "slotted_lever": _slotted_lever,
        "linear_actuator": _linear_actuator,
        "sliding_grid": _sliding_grid,
        "rotating_drum": _rotating_drum,
        "rolling_bars": _rolling_bars,
        "rocking_cradle": _rocking_cradle,
    }
)
