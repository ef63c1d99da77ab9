"""The turn cycle as named columns: what JSON, CSV and the table on the screen have in common."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.checks.link_to_arm import link_to_arm
from turnercalc.cycle import TurnCycle
from turnercalc.drives.wording import wording_of
from turnercalc.errors import TurnercalcError, UnknownNameError
from turnercalc.handover.numbers import rounded_all
from turnercalc.loads import hardest
from turnercalc.registry import plain
from turnercalc.turners.wording import wording_of as words_of_turner

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]

FORMAT = "turnercalc-cycle/1"
MOST_OFFERED = 15


@dataclass(frozen=True)
class Column:
    """One column of a cycle.

    Attributes
    ----------
    name : str
        Key and column head; its end is the unit.
    values : ndarray, shape (P,)
        In SI; NaN where the drive does not close or jams.
    per_si : float
        The figure in a record is the value times this.
    """

    name: str
    values: Array
    per_si: float = 1.0


def cycle_of(sizing: Sizing) -> TurnCycle:
    """Return the cycle of a result.

    Raises
    ------
    TurnercalcError
        The drive does not get through its cycle; the message says what is missing.
    """
    if sizing.cycle is None:
        raise TurnercalcError(f"There is no turn cycle: {sizing.reason.text}")
    return sizing.cycle


def columns(sizing: Sizing, load: int, direction: int) -> tuple[Column, ...]:
    """Return the columns of one load and direction, at middle friction unless the name says.

    Parameters
    ----------
    sizing : Sizing
        A result that has a cycle.
    load, direction : int
        Along the axes of its cycle.
    """
    cycle = cycle_of(sizing)
    motion = cycle.motion
    degrees = 180.0 / math.pi
    swings = sizing.turner.coordinate_unit == "rad"
    turns = sizing.drive.position_unit == "rad"
    low, middle, high = (cycle.levels.index(level) for level in ("low", "middle", "high"))
    name = words_of_turner(sizing.turner).coordinate.replace(" ", "_")
    turned = wording_of(sizing.drive).head
    load_name = "load_torque_Nm" if swings else "load_force_N"
    shaft_name, unit = ("shaft_torque", "_Nm") if turns else ("rod_force", "_N")
    at = (load, middle, direction)
    found = [
        Column(f"{turned}_angle_deg", motion.position, degrees)
        if turns
        else Column("extension_mm", motion.position, 1e3),
        Column(f"{name}_deg", motion.coordinate, degrees)
        if swings
        else Column("slide_mm", motion.coordinate, 1e3),
        Column(f"{name}_per_{turned}" if swings and turns else "slide_per_position", motion.rate),
        Column(load_name, cycle.load_torque[at]),
        Column(f"{shaft_name}{unit}", cycle.shaft_torque[at]),
        Column(f"{shaft_name}_low_friction{unit}", cycle.shaft_torque[load, low, direction]),
        Column(f"{shaft_name}_high_friction{unit}", cycle.shaft_torque[load, high, direction]),
    ]
    if cycle.bar_force is not None:
        found.append(Column("link_force_N", cycle.bar_force[at]))
        angle = link_to_arm(motion, sizing.turner.path())
        found.append(Column("link_to_arm_deg", angle, degrees))
    return tuple(found)


def records(sizing: Sizing, loads: tuple[int, ...] | None = None) -> list[dict[str, Any]]:
    """Return one record per load and direction, its arrays all equally long."""
    cycle = cycle_of(sizing)
    every = range(len(cycle.loads)) if loads is None else loads
    return [
        {
            "load": cycle.loads[load].id,
            "direction": word,
            **{c.name: rounded_all(c.values, c.per_si) for c in columns(sizing, load, direction)},
        }
        for load in every
        for direction, word in enumerate(wording_of(sizing.drive).ways)
    ]


def as_json(sizing: Sizing, load_name: str | None = None) -> str:
    """Return the cycle of every load, or of one, as JSON."""
    chosen = None if load_name is None else (find_load(cycle_of(sizing), load_name),)
    record = {
        "format": FORMAT,
        "design": {"file": sizing.design.file or None, "name": sizing.design.name},
        "cycles": records(sizing, chosen),
    }
    return json.dumps(record, ensure_ascii=False, allow_nan=False)


def as_csv(sizing: Sizing, load_name: str | None = None) -> str:
    """Return the cycle of every load, or of one, as CSV; what is not known is left blank."""
    chosen = None if load_name is None else (find_load(cycle_of(sizing), load_name),)
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    for number, record in enumerate(records(sizing, chosen)):
        arrays: Mapping[str, list[Any]] = {
            name: values for name, values in record.items() if isinstance(values, list)
        }
        if number == 0:
            writer.writerow(["load", "direction", *arrays])
        for row in zip(*arrays.values(), strict=True):
            writer.writerow(
                [record["load"], record["direction"], *("" if v is None else v for v in row)]
            )
    return text.getvalue()


def find_load(cycle: TurnCycle, name: str) -> int:
    """Return the load a builder's words name: its name or id, or a part of only one.

    Raises
    ------
    UnknownNameError
        None or several; the message lists them.
    """
    wanted = plain(name)
    names = [(plain(case.name), plain(case.id)) for case in cycle.loads]
    exact = [i for i, both in enumerate(names) if wanted in both]
    part = [i for i, (words, _) in enumerate(names) if wanted in words]
    found = exact or part
    if len(found) == 1:
        return found[0]
    offered = [cycle.loads[i].name for i in found] or [case.name for case in cycle.loads]
    left = f"\n  and {len(offered) - MOST_OFFERED} more" if len(offered) > MOST_OFFERED else ""
    head = f'"{name}" could be several loads' if found else f'There is no load "{name}"'
    raise UnknownNameError(
        f"{head}. Name one of these:\n"
        + "\n".join(f"  {offer}" for offer in offered[:MOST_OFFERED])
        + left
    )


def hardest_load(sizing: Sizing) -> int:
    """Return the hardest planned load at middle friction in the better direction."""
    cycle = cycle_of(sizing)
    return hardest(cycle, cycle.levels.index("middle"), sizing.told_direction).load
