"""Gear trains as a page and as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import section, table, wrap
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turnercalc.advice.gears import Train

FORMAT = "turnercalc-gears/1"


def page(trains: Sequence[Train], ratio: float, style: Style) -> str:
    """Return the trains of each number of stages, nearest first, and the best as settings."""
    if not trains:
        return "No train of stock teeth comes near."
    lines = [section(f"NEAREST TO {ratio:.6g} : 1", f"{trains[0].kind}, stock teeth")]
    rows = [("teeth, motor's end first", "ratio", "off", "gets through")]
    rows += [
        (
            ", ".join(f"{a} to {b}" for a, b in train.pairs),
            f"{train.ratio:.5g}",
            off_text(train.off),
            f"{100 * train.efficiency:.0f} %",
        )
        for train in trains
    ]
    lines += [style.letters(line) for line in table(rows)]
    best = near_enough(trains)
    lines += ["", *wrap("Within one in a hundred with the fewest stages, or else the nearest:", 2)]
    lines += [f'    --set {path}="{text}"' for path, text in best.settings().items()]
    lines += [
        "",
        *wrap(
            "A stage that slows by n makes n times the torque, less what gets lost. Teeth are "
            "those that shops usually keep (from memory): look before you drill.",
            2,
        ),
    ]
    return "\n".join(lines)


def near_enough(trains: Sequence[Train]) -> Train:
    """Return the train within one in a hundred with the fewest stages, else the nearest."""
    near = [train for train in trains if abs(train.off) <= 0.01]
    if not near:
        return min(trains, key=lambda train: abs(train.off))
    return min(near, key=lambda train: (len(train.pairs), abs(train.off)))


def off_text(off: float) -> str:
    """Return how far a ratio is off."""
    return "exact" if abs(off) < 1e-9 else f"{100 * off:+.2g} %"


def as_json(trains: Sequence[Train], ratio: float) -> str:
    """Return the trains as JSON text."""
    record: dict[str, Any] = {
        "format": FORMAT,
        "wanted_ratio": rounded(ratio),
        "trains": [
            {
                "kind": train.kind,
                "stages": len(train.pairs),
                "teeth": [list(pair) for pair in train.pairs],
                "ratio": rounded(train.ratio),
                "off": rounded(train.off),
                "efficiency": rounded(train.efficiency),
                "set": train.settings(),
            }
            for train in trains
        ],
    }
    return json.dumps(record, indent=2, allow_nan=False)
