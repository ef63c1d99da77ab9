"""How well everything has to be marked so that nearly all builds come out right."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from turnercalc.advice.tolerance.blocks import drawn_block
from turnercalc.advice.tolerance.builds import ends_with_play
from turnercalc.advice.tolerance.errors import EGG_SIZE, Source
from turnercalc.advice.tolerance.goal import Goal
from turnercalc.building import Built
from turnercalc.design import Design
from turnercalc.swing import egg_turn_of

#: A marking error that is as good as none, and one so many times the usual that all is drawn.
AS_GOOD_AS_NONE, MOST = 1e-6, 8.0
HALVINGS = 10


def accuracy_for(
    wanted: float,
    goal: Goal,
    design: Design,
    built: Built,
    sources: Sequence[Source],
    *,
    count: int,
    seed: int,
) -> float | None:
    """Return the error of every mark with which a share of the builds is right [m].

    Parameters
    ----------
    wanted : float
        Share of the builds.
    goal : Goal
        What is right.
    design, built
        As meant.
    sources : sequence of Source
        What comes out otherwise. Errors of marking shrink and grow alike, half-known lengths
        with them; play and the sizes of the eggs stay.
    count, seed : int
        Builds, drawn once; the marking error is halved and halved again on the same ones.

    Returns
    -------
    float or None
        0 where no accuracy gives that; None where nothing that is marked changes it.
    """
    marked = [s for s in sources if (s.marked or s.kind == "length") and s.deviation > 0.0]
    unit = max((s.spread for s in marked if s.marked), default=None)
    unit = max((s.spread for s in marked), default=0.0) if unit is None else unit
    if not unit:
        return None
    rng = np.random.default_rng([seed, 2])
    drawn = {s.field: rng.random(count) for s in marked}
    plays = [s for s in sources if s.kind == "play"]
    taken = [(s.draw(rng.random(count)), s.draw(rng.random(count))) for s in plays]
    sizes = [s.draw(rng.random(count)) for s in sources if s.field == EGG_SIZE]
    breadth = sizes[0] if sizes else np.full(count, built.ingredients.lot.typical.breadth)
    others = [s for s in marked if s.kind == "other"] if goal.what == "turn" else []
    leans = built.ingredients.sections["box"].leans or 0.0

    def share(scale: float) -> float:
        values = {s.field: s.scaled(scale).draw(drawn[s.field]) for s in marked}
        lengths = {s.field: values[s.field] for s in marked if s.kind == "length"}
        ends = ends_with_play(built, lengths, taken, count)
        if not others:
            turn = egg_turn_of(built.turner, ends.high - ends.low, breadth)
            return float(goal.met(ends, turn, leans).mean())
        turns = np.full(count, np.nan)
        for at in range(count):
            own = {s.field: float(values[s.field][at]) for s in others}
            block = drawn_block(design, built, others, own)
            if block is not None:
                found = egg_turn_of(block.turner, ends.high[at] - ends.low[at], breadth[at])
                turns[at] = np.nan if found is None else found
        return float(goal.met(ends, turns, leans).mean())

    exactly = share(AS_GOOD_AS_NONE)
    if exactly < wanted:
        return 0.0
    low, high = AS_GOOD_AS_NONE, 1.0
    while share(high) >= wanted:
        if high >= MOST:
            return None
        low, high = high, 2.0 * high
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if share(middle) >= wanted else (low, middle)
    return low * unit
