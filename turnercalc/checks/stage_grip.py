"""What a stage that can slip has to carry at its rim: belts and friction rollers."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Finding
from turnercalc.loads import hardest
from turnercalc.tables import stage_losses

ID = "stage_grip"
TITLE = "Grip"
SLIPS = "slips"
#: Rubber on a clean dry rim [-] (from memory).
DRY_RUBBER = 0.5


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the pull at the rim of every stage that can slip, with its hardest planned turn."""
    for number, pull in pulls(evidence):
        entry = evidence.design["gearing"][number]
        kind = stage_losses(entry.kind).kind
        text = f"The {kind} has to carry {units.show(pull, 'force')} at its rim, or it slips."
        if "roller" in kind:
            press = units.show(pull / DRY_RUBBER, "force")
            text += f" Dry rubber wants a press of {press} for it; damp and dust halve its grip."
        yield Finding(
            id=ID,
            title=TITLE,
            answer=Answer.NOTE,
            text=text,
            value=pull,
            unit="N",
            reason="A stage that slips spares the rest in a jam, but it wears, and a timer that "
            "counts on its turns goes wrong.",
            source="torque over radius; friction of rubber from memory",
            fields=(f"gearing.{number + 1}.driven_diameter",),
        )


def pulls(evidence: Evidence) -> Iterator[tuple[int, float]]:
    """Yield the index of each stage that can slip and the pull at its driven rim [N]."""
    cycle = evidence.cycle
    if cycle is None:
        return
    ways = (0, 1) if evidence.drive.both_ways else (evidence.better_direction,)
    high = cycle.levels.index("high")
    torque = max(hardest(cycle, high, way).torque for way in ways)
    entries = evidence.design["gearing"]
    for number in reversed(range(len(entries))):
        entry, stage = entries[number], evidence.stages.stages[number]
        if stage_losses(entry.kind).back_driving == SLIPS and entry.driven_diameter:
            pull = 2.0 * torque / entry.driven_diameter
            if np.isfinite(pull):
                yield number, pull
        torque = float(stage.motor_side(torque, stage.efficiency.low))
