"""Sizes that can be marked: against an ordinary tape, and against trying everything."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.drives.crank_link import CrankLink
from turnercalc.parts.marking import (
    METRIC,
    SIXTEENTHS,
    THIRTY_SECONDS,
    Marks,
    marked_lengths,
)
from turnercalc.swing import ends, ends_with, lengths
from turnercalc.turners.tilting_trays import TiltingTrays

from ..racks import school_like_rack


@pytest.mark.parametrize(
    ("marks", "value", "nearest"),
    [
        # An inch is 25.4 mm by definition (ISO 31, 1959 agreement).
        (METRIC, 0.05024, 0.050),
        (METRIC, 0.05026, 0.0505),
        (SIXTEENTHS, 0.0500, (1 + 15 / 16) * 25.4e-3),
        (THIRTY_SECONDS, 0.0500, (1 + 31 / 32) * 25.4e-3),
    ],
)
def test_the_nearest_mark(marks: Marks, value: float, nearest: float) -> None:
    assert marks.nearest(value) == pytest.approx(nearest, abs=1e-12)


@given(st.floats(-2.0, 2.0), st.sampled_from([METRIC, SIXTEENTHS, THIRTY_SECONDS]))
def test_the_marks_around_a_length_enclose_it_the_nearest_first(value: float, marks: Marks) -> None:
    around = marks.around(value)
    assert min(around) <= value + 1e-6 * marks.step
    assert max(around) >= value - 1e-6 * marks.step
    assert abs(around[0] - value) <= 0.5 * marks.step + 1e-6 * marks.step
    steps = sorted(mark / marks.step for mark in around)
    assert steps == pytest.approx(range(round(steps[0]), round(steps[0]) + len(steps)), abs=1e-6)


def rack_off_the_marks() -> tuple[TiltingTrays, CrankLink]:
    turner, drive = school_like_rack(arm_length=0.0703)
    drive = replace(drive, crank=0.0502, link=0.2003, across=0.0496, height=-0.2002)
    return turner, drive.assemble(turner.path())


@pytest.mark.parametrize("marks", [METRIC, THIRTY_SECONDS, SIXTEENTHS])
def test_no_other_marks_beside_the_lengths_keep_the_ends_better(marks: Marks) -> None:
    """Brute force over every combination of the marks to either side."""
    turner, drive = rack_off_the_marks()
    nominal, wanted = lengths(turner, drive), ends(turner, drive)

    def worse_end(chosen: dict[str, float]) -> float:
        found = ends_with(turner, drive, {p: chosen[p] - nominal[p] for p in nominal})
        off = max(abs(found.low - wanted.low), abs(found.high - wanted.high))
        return off if math.isfinite(off) else math.inf

    choices = [
        (math.floor(x / marks.step) * marks.step, math.ceil(x / marks.step) * marks.step)
        for x in nominal.values()
    ]
    every = [dict(zip(nominal, c, strict=True)) for c in itertools.product(*choices)]
    best = min(worse_end(chosen) for chosen in every)
    found = dict(marked_lengths(turner, drive, marks))
    assert worse_end(found) <= best + 1.01e-3
    assert all(abs(x / marks.step - round(x / marks.step)) < 1e-6 for x in found.values())


def test_rounding_together_keeps_the_ends_where_rounding_alone_loses_them() -> None:
    turner, drive = rack_off_the_marks()
    nominal, wanted = lengths(turner, drive), ends(turner, drive)
    alone = {path: SIXTEENTHS.nearest(x) - x for path, x in nominal.items()}
    together = {
        path: x - nominal[path] for path, x in marked_lengths(turner, drive, SIXTEENTHS).items()
    }
    off_alone, off_together = (
        max(abs(found.low - wanted.low), abs(found.high - wanted.high))
        for found in (ends_with(turner, drive, change) for change in (alone, together))
    )
    assert off_together < off_alone
    assert math.degrees(off_together) < 0.5


def test_what_follows_from_the_rest_is_not_marked() -> None:
    turner, drive = rack_off_the_marks()
    assert "link.length" not in marked_lengths(turner, drive, METRIC, leave={"link.length"})
