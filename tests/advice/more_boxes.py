"""Random boxes with every turner and drive, as builders might have them; some cannot work."""

from __future__ import annotations

import re
from collections.abc import Callable

import numpy as np

from tests.advice.boxes import rack_text
from turnercalc.design import Design, read_design
from turnercalc.design.starter import starter_text

Settings = dict[str, str]
Random = np.random.Generator

ROD = """
[actuator]
shortest     = "{shortest} mm"
stroke       = "{stroke} mm"
runs         = "{runs}"
eye_across   = "0 mm right of {origin}"
eye_height   = "{eye} mm {side} {origin}"
weight       = "1.2 kg"
pin_diameter = "8 mm"
bearing      = "steel in bronze, oiled"
"""
SLOT = """
[crank]
radius = "50 mm"
runs   = "round and round"
across = "{across} mm right of {origin}"
height = "{height} mm below {origin}"

[slot]
angle        = "0 deg"
off_line     = "0 mm"
pin_diameter = "8 mm"
bearing      = "steel in nylon"
"""


def without(text: str, *sections: str) -> str:
    """Return a design file without some of its sections, and without loads of its own."""
    for name in (*sections, r"\[loads\]", r"\[gearing\]"):
        text = re.sub(rf"(?ms)^\[{name}\].*?(?=^\[|\Z)", "", text)
    return text


def on(text: str, drive: str) -> str:
    """Return a design file that names another drive."""
    return re.sub(r"(?m)^drive( *)=.*$", f'drive      = "{drive}"', text)


def stopped_by(text: str, what: str) -> str:
    """Return a design file with another way of stopping."""
    return re.sub(r"(?m)^stopped_by( *)=.*$", f'stopped_by = "{what}"', text)


def rod(rng: Random, origin: str, side: str) -> str:
    """Return the section of an actuator as shops have them: a little longer than its stroke."""
    stroke = int(rng.choice([50, 75, 100, 100, 150, 150, 200]))
    return ROD.format(
        shortest=stroke + int(rng.integers(90, 140)),
        stroke=stroke,
        runs=rng.choice(["between end switches", "its whole stroke"], p=[0.7, 0.3]),
        origin=origin,
        side=side,
        eye=int(rng.integers(150, 320)),
    )


def rack(rng: Random) -> Design:
    """Return a rack on crank and link."""
    return read_design(rack_text(rng))


def rack_on_slot(rng: Random) -> Design:
    """Return a rack on a slotted lever."""
    text = on(without(rack_text(rng), "crank", "link"), "slotted lever")
    slot = SLOT.format(across=int(rng.integers(20, 80)), height=40, origin="pivot")
    return read_design(text + slot)


def rack_on_rod(rng: Random) -> Design:
    """Return a rack on an actuator."""
    text = on(without(rack_text(rng), "crank", "link"), "linear actuator")
    return read_design(stopped_by(text, "end switches") + rod(rng, "pivot", "below"))


def cradle_settings(rng: Random) -> Settings:
    """Return a cradle of some size in a box of some size."""
    rows, spacing = int(rng.integers(3, 7)), int(rng.integers(46, 54))
    width = rows * spacing + 10
    radius = int(rng.integers(130, 280))
    tray = int(rng.integers(40, 110))
    pin = int(rng.integers(90, max(91, width // 2)))
    return {
        "box.width": f"{int(width + 120 + rng.integers(0, 420))} mm",
        "box.height": f"{int(rng.integers(380, 900))} mm",
        "turning.tilt": f"{rng.choice([35, 40, 45, 45])} deg each side",
        "cradle.runner_radius": f"{radius} mm",
        "cradle.runner_width": f"{min(int(1.7 * radius), 2 * radius - 2)} mm",
        "cradle.rows": f"{rows}",
        "cradle.eggs_per_row": f"{int(rng.integers(3, 9))}",
        "cradle.row_spacing": f"{spacing} mm",
        "cradle.width": f"{width} mm",
        "cradle.empty_weight": f"{int(rng.integers(600, 2500))} g",
        "cradle.balance": f"{tray - 20} mm above contact",
        "cradle.egg_floor": f"{tray + 6} mm above contact",
        "cradle.underside": f"{tray} mm above contact",
        "pin.across": f"{pin} mm {rng.choice(['right', 'left'])} of contact",
        "pin.height": f"{int(rng.integers(80, 220))} mm above contact",
    }


def cradle(rng: Random) -> Design:
    """Return a cradle on crank and link."""
    return read_design(without(starter_text("cradle")), cradle_settings(rng))


def cradle_on_rod(rng: Random) -> Design:
    """Return a cradle on an actuator."""
    text = on(without(starter_text("cradle"), "crank", "link"), "linear actuator")
    text = stopped_by(text, "end switches") + rod(rng, "contact", "above")
    return read_design(text, cradle_settings(rng))


def bars(rng: Random) -> Design:
    """Return bars in a box that may be too narrow, for eggs that are turned some way."""
    count = int(rng.integers(3, 12))
    return read_design(
        without(starter_text("bars")),
        {
            "box.width": f"{(count - 1) * 44 + 20 + int(rng.integers(0, 40 * count))} mm",
            "box.height": f"{int(rng.integers(100, 350))} mm",
            "bars.count": f"{count}",
            "bars.pitch": "44 mm",
            "bars.driven_bar": f"{(count + 1) // 2}",
            "turning.egg_turn": f"{rng.choice([90, 120, 180, 180])} deg",
            "bars.eggs_per_lane": f"{int(rng.integers(2, 6))}",
            "bars.under_bars": f"{int(rng.integers(15, 60))} mm below the bar middles",
        },
    )


def grid_settings(rng: Random) -> Settings:
    """Return a grid of some size in a box of some size."""
    cells = int(rng.integers(3, 10))
    length = cells * 54 + 6
    width = length + int(rng.integers(40, 420))
    pin = int(rng.choice([6, length - 6]))
    start = int(rng.integers(20, max(21, width - length - 20)))
    return {
        "box.width": f"{width} mm",
        "box.height": f"{int(rng.integers(200, 420))} mm",
        "turning.egg_turn": f"{rng.choice([90, 120, 180, 180])} deg",
        "grid.cells": f"{cells}",
        "grid.eggs_per_cell": f"{int(rng.integers(2, 8))}",
        "grid.length": f"{length} mm",
        "grid.pin_from_left_end": f"{pin} mm",
        "grid.from_left_wall": f"{start + pin} mm",
        "grid.weight": f"{int(rng.integers(200, 1200))} g",
        "floor.height": f"{int(rng.integers(30, 160))} mm above the box floor",
    }


def grid(rng: Random) -> Design:
    """Return a sliding grid on crank and link."""
    return read_design(without(starter_text("grid")), grid_settings(rng))


def grid_on_slot(rng: Random) -> Design:
    """Return a sliding grid on a slot."""
    text = on(without(starter_text("grid"), "crank", "link"), "slotted lever")
    slot = SLOT.format(across=0, height=30, origin="the pin")
    return read_design(text + slot, grid_settings(rng))


def grid_on_rod(rng: Random) -> Design:
    """Return a sliding grid on an actuator."""
    text = on(without(starter_text("grid"), "crank", "link"), "linear actuator")
    text = stopped_by(text, "end switches") + rod(rng, "the pin", "above")
    return read_design(text, grid_settings(rng))


def drum(rng: Random) -> Design:
    """Return a drum on a turning shaft, heavier on one side or balanced."""
    shelves = int(rng.integers(3, 11))
    height = int(rng.integers(220, 560))
    toward = int(rng.integers(1, shelves + 1))
    grams, out = int(rng.integers(50, 900)), int(rng.integers(40, 120))
    heavy = f"{grams} g at {out} mm toward shelf {toward}"
    return read_design(
        without(starter_text("drum")),
        {
            "box.width": f"{int(rng.integers(220, 560))} mm",
            "box.height": f"{height} mm",
            "drum.axle_height": f"{height // 2} mm above the box floor",
            "drum.shelves": f"{shelves}",
            "drum.eggs_per_shelf": f"{int(rng.integers(3, 12))}",
            "drum.shelf_radius": "120 mm",
            "drum.outside": "300 mm",
            "drum.empty_weight": f"{int(rng.integers(700, 2600))} g",
            "drum.empty_balance": str(rng.choice(["balanced", heavy])),
            "drum.filled": str(rng.choice(["in any order", "in opposite pairs"]))
            if shelves % 2 == 0
            else "in any order",
        },
    )


#: Name -> a random design, and how often it comes up among many.
KINDS: dict[str, Callable[[Random], Design]] = {
    "rack": rack,
    "rack_on_slot": rack_on_slot,
    "rack_on_rod": rack_on_rod,
    "cradle": cradle,
    "cradle_on_rod": cradle_on_rod,
    "bars": bars,
    "grid": grid,
    "grid_on_slot": grid_on_slot,
    "grid_on_rod": grid_on_rod,
    "drum": drum,
}
