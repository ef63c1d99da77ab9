"""The words for what comes out otherwise than meant: the glossary ends with them."""

from __future__ import annotations

from turnercalc.handover.word import Word

BUILD_WORDS = (
    Word(
        "half known",
        'A number that is known only so far, such as "35 mm +/- 5 mm" or "740 g +/- 10 %". It may '
        "stand so in a design file. Everything is computed with its middle, the page names it "
        "under NOT KNOWN, and turnercalc tolerance draws every value in its range alike.",
        ("+/-", "plus or minus", "give or take", "uncertain", "roughly"),
        ("build",),
    ),
    Word(
        "build",
        "The design as somebody really makes it: every hole up to a millimetre off, pins loose in "
        "their holes, eggs and friction as they happen to be. turnercalc tolerance makes thousands "
        "of them on paper and tells how many come out right, and which length is worth most care.",
        ("tolerance", "as built", "marking error", "accuracy"),
        ("half known", "play"),
    ),
    Word(
        "hardest turn",
        "The most that has to be turned against in the whole cycle, over every way of filling the "
        "trays that is planned. The table of HOW HARD IT TURNS has it at a crawl: weight and "
        "friction only. What a motor is judged by is a little more, because at its own speed it "
        "also sets the trays and eggs in motion; a fast motor has more of that than a slow one.",
        ("hardest", "peak torque", "hard turn"),
        ("times enough", "turn cycle"),
    ),
    Word(
        "worm",
        "A screw that turns a wheel across it, in many gearmotors. Most worms are hard to push "
        "back from the shaft, so that they hold a tray when off, but not all do: ask the seller or "
        "hang the load on it. Much of its strength goes into friction.",
        ("worm gear", "self locking"),
        ("times enough",),
    ),
)
