"""Gear trains as a page and as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import section, table, wrap
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from turnercalc.advice.gears import Train, Trains

FORMAT = "turnercalc-gears/1"


def page(trains: Trains, style: Style) -> str:
    """Return the trains that come near, fewest stages first, and the best as settings."""
    whose = "your own wheels" if trains.own else "stock teeth"
    lines = [section(f"NEAREST TO {trains.ratio:.6g} : 1", f"{trains.kind}, {whose}")]
    best = trains.best
    if best is None:
        return "\n".join([*lines, *wrap(style.letters(none_near(trains)), 2)])
    rows = [("teeth, motor's end first", "ratio", "off", "gets through")]
    rows += [
        (
            teeth_text(train),
            f"{train.ratio:.5g}",
            off_text(train.off),
            f"{100 * train.efficiency:.0f} %",
        )
        for train in trains.near
    ]
    lines += [style.letters(line) for line in table(rows)]
    lines += ["", *wrap("Within one in a hundred with the fewest stages, or else the nearest:", 2)]
    lines += [f'    --set {path}="{text}"' for path, text in best.settings().items()]
    lines += ["", *wrap(style.letters(" ".join(remarks(trains))), 2)]
    return "\n".join(lines)


def none_near(trains: Trains) -> str:
    """Return in a sentence that no train comes near."""
    whose = "your wheels" if trains.own else "the wheels that shops usually keep"
    nearest = trains.nearest
    text = f"No {trains.kind} train of {whose} comes within a tenth of {trains.ratio:.6g} : 1."
    if nearest is not None:
        text += f" The nearest is {teeth_text(nearest)}: {nearest.ratio:.5g} : 1."
    return f"{text} Take a motor that is geared otherwise, or other wheels (--teeth)."


def remarks(trains: Trains) -> list[str]:
    """Return what to know before buying."""
    found = ["A stage that slows by n makes n times the torque, less what gets lost."]
    left_out = len(trains) - len(trains.near)
    if left_out:
        one = left_out == 1
        found.insert(0, f"{left_out} more than a tenth off {'is' if one else 'are'} left out.")
    smallest = min(train.smallest for train in trains.near)
    if smallest < trains.smooth_from:
        found.append(f"The smallest wheel has {smallest} teeth. {trains.note}")
    if not trains.own:
        found.append(
            "Teeth are those that shops usually keep (from memory): look before you drill."
        )
    return found


def teeth_text(train: Train) -> str:
    """Return the teeth of every stage, the motor's first."""
    return ", ".join(f"{a} to {b}" for a, b in train.pairs)


def off_text(off: float) -> str:
    """Return how far a ratio is off."""
    percent = 100.0 * off
    if abs(off) < 1e-9:
        return "exact"
    # 1.01 % is not within one in a hundred, and has to look like it
    return f"{percent:+.2f} %" if abs(percent) >= 0.1 else f"{percent:+.2g} %"


def as_json(trains: Trains) -> str:
    """Return the trains as JSON text, near or not."""
    record: dict[str, Any] = {
        "format": FORMAT,
        "wanted_ratio": rounded(trains.ratio),
        "kind": trains.kind,
        "wheels": list(trains.teeth),
        "own_wheels": trains.own,
        "smooth_from": trains.smooth_from,
        "best": None if trains.best is None else trains.found.index(trains.best),
        "trains": [
            {
                "kind": train.kind,
                "stages": len(train.pairs),
                "teeth": [list(pair) for pair in train.pairs],
                "ratio": rounded(train.ratio),
                "off": rounded(train.off),
                "efficiency": rounded(train.efficiency),
                "near": train.near,
                "set": train.settings(),
            }
            for train in trains
        ],
    }
    return json.dumps(record, indent=2, allow_nan=False)
