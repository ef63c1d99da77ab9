"""How hard the bars come up to the eggs when they have crossed the play of the cells."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import on_grid
from turnercalc.checks.wording import millimetres
from turnercalc.drives.base import DIRECTIONS
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY

ID = "grid_knock"
TITLE = "Knock"
#: An egg that is set down from this height is not set down gently [m].
SMALL = 0.002
FIELDS = ("eggs.cell_room", "motor.have", "gearing")
SOURCE = "bound by energy; how stiff shell and bar are, nobody knows, so no acceleration is given"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the speed at which the bars meet the eggs, told as a height of fall."""
    grid, cycle, timing = on_grid(evidence), evidence.cycle, evidence.timing
    if grid is None or cycle is None or timing is None:
        return
    play = float(grid.play_of(grid.smallest_radius or grid.egg_radius))
    if grid.runs_by_itself or play <= 0.0:
        return
    if timing.shaft_speed is None or timing.shaft_speed <= 0.0:
        yield _found(
            Answer.NOTE,
            f"The bars cross {millimetres(play, 1)} of play before they meet the smallest egg; how "
            "hard depends on the motor's speed.",
            None,
        )
        return
    speed = timing.shaft_speed * meeting_rate(evidence, play)
    fall = speed**2 / (2.0 * STANDARD_GRAVITY)
    height = "less than 0.01 mm" if fall < 1e-5 else millimetres(fall, 2 if fall < 1e-3 else 1)
    text = (
        f"The bars meet the eggs at {1e3 * speed:.0f} mm/s after {millimetres(play, 1)} of play: "
        f"no harder than setting an egg down from {height}."
    )
    if fall >= SMALL:
        text += " A slower motor or narrower cells make it gentler."
    yield _found(Answer.FINE if fall < SMALL else Answer.MARGINAL, text, 1e3 * fall)


def meeting_rate(evidence: Evidence, play: float) -> float:
    """Return the grid's speed per shaft speed where it has crossed a play, the faster side."""
    assert evidence.cycle is not None
    motion = evidence.cycle.motion
    q, rate = motion.coordinate, np.abs(motion.rate)
    rates = []
    for way in DIRECTIONS[:, 0]:
        sense = way * np.sign(motion.rate)
        for side in (1.0, -1.0):
            gone = q - np.nanmin(q) if side > 0.0 else np.nanmax(q) - q
            just = (sense == side) & (gone >= play)
            if just.any():
                rates.append(float(rate[just][np.argmin(gone[just])]))
    return max(rates, default=0.0)


def _found(answer: Answer, text: str, value: float | None) -> Finding:
    return Finding(
        id=ID,
        title=TITLE,
        answer=answer,
        text=text,
        value=value,
        unit="mm",
        reason="At the start of each stroke the grid slides alone until its bars reach the eggs.",
        source=SOURCE,
        fields=FIELDS,
    )
