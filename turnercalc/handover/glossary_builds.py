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
)
