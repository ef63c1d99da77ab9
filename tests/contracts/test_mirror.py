"""Seen in a mirror, every design is as hard the other way round: starters and all examples."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from turnercalc import turners
from turnercalc.design import Design, read_design
from turnercalc.design.starter import starter_text
from turnercalc.design.writer import schema_of
from turnercalc.loads import peaks, planned
from turnercalc.sizing import Sizing, size

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
SWAPPED = {
    "left": "right",
    "right": "left",
    "anticlockwise": "clockwise",
    "clockwise": "anticlockwise",
}
#: Crank directions, measured anticlockwise from pointing right.
ANGLES_OF_CRANK = ("crank.first_angle", "crank.last_angle")
#: Angles without a side of their own word, anticlockwise positive.
SIGNED = ("angle", "leans")


def other_shelf(design: Design) -> str:
    """Shelf 1 is on top, the others follow anticlockwise: 2 becomes the last."""
    text, shelves = design.origin["drum.empty_balance"].text, design.value("drum.shelves")
    return re.sub(r"shelf (\d+)", lambda m: f"shelf {(1 - int(m[1])) % shelves + 1}", text)


#: What is counted or measured from the left, or round the clock: how the mirror image says it.
COUNTED: dict[str, Callable[[Design], str]] = {
    "bars.driven_bar": lambda d: str(d.value("bars.count") + 1 - d.value("bars.driven_bar")),
    "grid.pin_from_left_end": lambda d: (
        # At the very end there is no length to write: a millimetre, which moves no egg.
        f"{max(1e3 * (d.value('grid.length') - d.value('grid.pin_from_left_end')), 1.0):.9g} mm"
    ),
    "drum.empty_balance": other_shelf,
}


def designs() -> dict[str, str]:
    found = {kind.id: starter_text(kind.starter) for kind in turners.kinds().values()}
    found |= {path.stem: path.read_text(encoding="utf-8") for path in EXAMPLES}
    # Loads of the builder's own are lopsided as they please.
    return {
        name: re.sub(r"(?ms)^\[\[loads\]\].*?(?=^\[|\Z)", "", text) for name, text in found.items()
    }


DESIGNS = designs()


def in_the_mirror(design: Design) -> Design:
    """The design as its own mirror image would be written."""
    changes: dict[str, object] = {}
    schema = schema_of(design)
    for path, origin in design.origin.items():
        section, _, name = path.rpartition(".")
        model = schema.sections.get(section)
        if model is None or origin.how != "given" or name.startswith("from_left"):
            continue
        if path in COUNTED:
            changes[path] = COUNTED[path](design)
            continue
        if name in SIGNED and design.value(path):
            changes[path] = f"{-np.degrees(design.value(path)):.9g} deg"
            continue
        swapped = re.sub(
            r"\b(left|right|anticlockwise|clockwise)\b", lambda m: SWAPPED[m[0]], origin.text
        )
        if swapped != origin.text:
            changes[path] = swapped
    for path, other in zip(ANGLES_OF_CRANK, reversed(ANGLES_OF_CRANK), strict=True):
        if path in design.values() and design.value(path) is not None:
            changes[path] = f"{180.0 - np.degrees(design.value(other)):.9g} deg"
    return design.replace(changes)


def hardest_ever(sizing: Sizing) -> np.ndarray:
    """Largest shaft torque of the fullest, the emptiest and all planned loads, by direction."""
    assert sizing.cycle is not None
    eggs = np.array([case.egg_count for case in sizing.cycle.loads])
    every, counts = peaks(sizing.cycle), planned(sizing.cycle)
    chosen = (eggs == eggs.max(), eggs == eggs.min(), counts)
    return np.stack([every[these & counts].max(axis=0) for these in chosen])


@pytest.mark.parametrize("name", DESIGNS)
def test_the_mirror_image_turns_as_hard_the_other_way(name: str) -> None:
    plain = read_design(DESIGNS[name])
    here, there = size(plain), size(in_the_mirror(plain))
    assert [there.ends.low, there.ends.high] == pytest.approx(
        [-here.ends.high, -here.ends.low], abs=1e-9
    )
    mirrored = hardest_ever(there)
    if here.drive.position_unit == "rad":
        mirrored = mirrored[:, :, ::-1]  # anticlockwise is clockwise in the mirror
    # Peaks are those of a grid of positions, which the mirror shifts by a part of a step.
    np.testing.assert_allclose(mirrored, hardest_ever(here), rtol=5e-3, atol=1e-4)
    assert there.demand is not None
    assert here.demand is not None
    # What is left at a rest point hangs on which side of it rounding puts the crank.
    small = 1e-3 * float(np.nanmax(hardest_ever(here)))
    assert there.demand.holding_torque == pytest.approx(
        here.demand.holding_torque, rel=5e-3, abs=small
    )
