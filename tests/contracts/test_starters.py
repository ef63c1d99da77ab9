"""Every starter sizes without complaint, and what is written is read back the same."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from tests.contracts.fitting import combinations, starter_with
from turnercalc import checks, drives, turners
from turnercalc.advice import advise
from turnercalc.design import Design, read_design
from turnercalc.design.starter import starter_names, starter_text
from turnercalc.design.writer import write_design
from turnercalc.errors import CombinationError, DesignError
from turnercalc.findings import Answer
from turnercalc.handover import record
from turnercalc.sizing import Sizing, size

KINDS = tuple(turners.kinds())


def starter(kind_id: str) -> Design:
    return read_design(starter_text(turners.kinds()[kind_id].starter))


def round_trip(sizing: Sizing) -> Mapping[str, Any]:
    """The record through JSON text and back; NaN and infinity are not JSON."""

    def refuse(word: str) -> None:
        raise AssertionError(f"{word} in a record")

    text = record.as_json(sizing, advise(sizing), with_cycle=True)
    return dict(json.loads(text, parse_constant=refuse))


@pytest.mark.parametrize("kind_id", KINDS)
def test_every_turner_has_its_starter_and_known_checks(kind_id: str) -> None:
    kind = turners.kinds()[kind_id]
    assert kind.starter in starter_names()
    assert set(kind.checks) <= set(checks.judges())
    assert kind.says


@pytest.mark.parametrize("kind_id", KINDS)
def test_every_starter_sizes_without_complaint(kind_id: str) -> None:
    design = starter(kind_id)
    assert design.turner == kind_id
    assert not design.notes
    sizing = size(design)
    assert sizing.verdict is not Answer.NO, sizing.reason.text
    assert sizing.shopping is not None
    assert sizing.cycle is not None
    assert not sizing.cycle.jams.any()


@pytest.mark.parametrize("kind_id", KINDS)
def test_every_record_goes_through_json_and_back(kind_id: str) -> None:
    sizing = size(starter(kind_id), count=90)
    found = round_trip(sizing)
    assert found["design"]["turner"] == kind_id
    assert found["verdict"] == sizing.verdict.value
    assert found["exit_code"] == sizing.exit_code
    assert len(found["loads"]) == len(sizing.cycle.loads)  # type: ignore[union-attr]
    assert {one["id"] for one in found["findings"]} == {one.id for one in sizing.findings}


@pytest.mark.parametrize("kind_id", KINDS)
def test_every_design_is_read_back_as_it_was_written(kind_id: str) -> None:
    design = starter(kind_id)
    assert read_design(write_design(design)) == design
    for units in ("metric", "us"):
        again = read_design(write_design(design, units))
        for path, value in design.values().items():
            if isinstance(value, float):
                assert again.value(path) == pytest.approx(value, rel=2e-3, abs=1e-4), path


@pytest.mark.parametrize(("kind_id", "drive_id"), combinations())
def test_every_turner_is_sized_with_every_drive(kind_id: str, drive_id: str) -> None:
    """With the lengths of the fields' examples it need not close, but there is an answer."""
    sizing = size(starter_with(turners.kinds()[kind_id], drive_id), count=90)
    assert sizing.verdict in (Answer.FINE, Answer.MARGINAL, Answer.NO)
    assert sizing.reason.text
    round_trip(sizing)


@pytest.mark.parametrize("kind_id", KINDS)
def test_a_drive_that_makes_no_sense_is_refused_with_one_that_does(kind_id: str) -> None:
    kind = turners.kinds()[kind_id]
    others = [drive for drive in drives.kinds().values() if drive.id not in kind.drives]
    usual = drives.kinds()[kind.drives[0]].words[0]
    for other in others:
        with pytest.raises(DesignError) as caught:
            read_design(starter_text(kind.starter), {"drive": other.words[0]})
        told = [c.message for c in caught.value.complaints if c.field == "drive"]
        assert len(told) == 1
        assert f'cannot be moved by "{other.words[0]}"' in told[0]
        assert usual in told[0]
        # Nothing is asked of a drive that cannot be meant: the refusal is all there is to read.
        assert [c.field for c in caught.value.complaints] == ["drive"]


def test_a_design_put_together_by_hand_is_refused_too() -> None:
    pairs = [
        (kind, drive)
        for kind in turners.kinds().values()
        for drive in drives.kinds()
        if drive not in kind.drives
    ]
    assert pairs
    for kind, drive in pairs:
        with pytest.raises(CombinationError, match="What moves it"):
            size(replace(starter(kind.id), drive=drive))
