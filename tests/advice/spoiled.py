"""Examples with something wrong in them, one thing or several."""

from pathlib import Path

EXAMPLES = Path(__file__).parents[2] / "examples"
#: Example -> the file of motors it is sized with.
MOTORS = {
    "potting-shed-rack": "actuators.csv",
    "beach-cooler-cradle": "actuators.csv",
}
NAMES = tuple(sorted(path.stem for path in EXAMPLES.glob("*.toml")))
Settings = dict[str, str | None]
SPOILED: dict[str, tuple[str, Settings]] = {
    "a link too short and a weak motor": (
        "larder-rack",
        {"link.length": "190 mm", "motor.have": "servo L"},
    ),
    "a crank that strikes the floor and a weak motor": (
        "larder-rack",
        {"crank.height": "300 mm below pivot", "link.length": "300 mm", "motor.have": "spur 6"},
    ),
    "trays too near and a link too short": (
        "larder-rack",
        {"trays.pitch": "95 mm", "link.length": "190 mm", "motor.have": "planet 8"},
    ),
    "a small crank and narrow cells": (
        "larder-rack",
        {"crank.radius": "20 mm", "eggs.cell_room": "42 mm", "motor.have": "planet 8"},
    ),
    "an actuator too short for its arm": ("potting-shed-rack", {"actuator.stroke": "60 mm"}),
    "an actuator far too short": ("potting-shed-rack", {"actuator.stroke": "20 mm"}),
    "an eye out of reach": (
        "potting-shed-rack",
        {"actuator.eye_height": "150 mm below pivot"},
    ),
    "a rod too short for its cradle": ("beach-cooler-cradle", {"actuator.stroke": "3 in"}),
    "a rod a little too short": ("beach-cooler-cradle", {"actuator.stroke": "5 in"}),
    "a cradle's link too short, a weak motor": (
        "apple-crate-cradle",
        {"link.length": "350 mm", "motor.have": "worm 12"},
    ),
    "wood on wood": ("apple-crate-cradle", {"cradle.runners": "plywood on plywood"}),
    "an arc too narrow": ("linen-chest-arc", {"cradle.runner_width": "290 mm"}),
    "a stroke too short": ("seed-tray-grid", {"crank.radius": "8 mm"}),
    "a heavy drum": (
        "tool-chest-drum",
        {"drum.empty_balance": "2 kg at 140 mm toward shelf 3"},
    ),
    "shelves too near": ("tool-chest-drum", {"drum.shelf_radius": "50 mm"}),
    "a small crank in a slot": ("tool-cupboard-rack", {"crank.radius": "15 mm"}),
    "bars too near": ("toy-chest-bars", {"bars.pitch": "46 mm"}),
    "bars too far apart": ("toy-chest-bars", {"bars.pitch": "66 mm"}),
}
