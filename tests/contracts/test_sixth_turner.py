"""A sixth way of turning costs one file: nothing else has to know of it.

The turner in `hanging_board.py` is put into the registry for these tests alone. The contract of
all turners holds for it, and every command's library call answers.
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pytest
from matplotlib.figure import Figure

from tests.contracts import hanging_board
from tests.contracts.contracts import DRIVE_CONTRACTS, TURNER_CONTRACTS, name_of
from tests.contracts.fitting import egg_mass_of, fitted, starter_with, turner_of
from tests.contracts.test_starters import round_trip
from turnercalc import turners
from turnercalc.advice import advise
from turnercalc.advice.capacity import capacity
from turnercalc.advice.which_motor import which_motor
from turnercalc.design import read_design
from turnercalc.design.writer import write_design
from turnercalc.drives.base import Drive
from turnercalc.errors import DesignError, TurnercalcError
from turnercalc.findings import Answer
from turnercalc.handover import cycle_table
from turnercalc.handover.display import Style
from turnercalc.handover.plots import KINDS
from turnercalc.handover.screen import Files, page
from turnercalc.motors import read_motors
from turnercalc.sizing import size
from turnercalc.turners.base import Turner

EXAMPLES = Path(__file__).parents[2] / "examples"
BOARD = hanging_board.KIND
TEXT = hanging_board.TEXT


@pytest.fixture(autouse=True)
def a_sixth_turner(monkeypatch: pytest.MonkeyPatch) -> None:
    known: dict[str, Any] = dict(turners.kinds())
    assert BOARD.id not in known
    monkeypatch.setattr(turners._REGISTRY, "_kinds", MappingProxyType({**known, BOARD.id: BOARD}))


@pytest.mark.parametrize("contract", TURNER_CONTRACTS, ids=name_of)
def test_it_keeps_the_contract(contract: Callable[[Turner, float], None]) -> None:
    contract(turner_of(BOARD, BOARD.drives[0], TEXT), egg_mass_of(BOARD, TEXT))


@pytest.mark.parametrize("contract", DRIVE_CONTRACTS, ids=name_of)
@pytest.mark.parametrize("drive_id", BOARD.drives)
def test_it_keeps_the_contract_with_every_drive(
    drive_id: str, contract: Callable[[Turner, Drive], None]
) -> None:
    turner = turner_of(BOARD, drive_id, TEXT)
    contract(turner, fitted(drive_id, turner))


def test_its_file_is_read_sized_and_written_back() -> None:
    design = read_design(TEXT)
    assert design.turner == BOARD.id
    sizing = size(design)
    assert sizing.verdict in (Answer.FINE, Answer.MARGINAL)
    assert sizing.shopping is not None
    assert round_trip(sizing)["design"]["turner"] == BOARD.id
    assert read_design(write_design(design)) == design


def test_every_page_and_plot_knows_what_to_say() -> None:
    sizing = size(read_design(TEXT))
    shown = page(sizing, advise(sizing), Files("board.toml", None), Style())
    assert "hanging" in shown.lower()
    assert all(len(line) <= 80 for line in shown.splitlines())
    assert "full" in cycle_table.page(sizing, None, Style())
    drawn = 0
    for kind in KINDS.values():
        with contextlib.suppress(TurnercalcError):  # some want a motor, and say so
            assert isinstance(kind.draw(sizing).figure, Figure)
            drawn += 1
    assert drawn >= 3


@pytest.mark.parametrize("drive_id", BOARD.drives)
def test_it_is_sized_with_every_drive(drive_id: str) -> None:
    sizing = size(starter_with(BOARD, drive_id, TEXT), count=90)
    assert sizing.reason.text
    json.dumps(round_trip(sizing))


def test_its_capacity_is_counted_and_motors_are_matched_to_it() -> None:
    motors = read_motors(EXAMPLES / "motors.csv")
    two = replace(motors, rows=(motors.row("planet 8"), motors.row("turntable")))
    design = read_design(TEXT)
    found = capacity(design, two, most=2)
    assert (found.field, found.thing) == ("board.rows", "rows")
    assert found.box_holds == 9
    held = {f.id: f.answer for f in size(design.replace({"board.rows": "9"})).findings}
    more = {f.id: f.answer for f in size(design.replace({"board.rows": "10"})).findings}
    assert held["room"] is not Answer.NO
    assert more["room"] is Answer.NO
    assert found.carried[0].eggs > 0
    assert len(which_motor(design, two)) == 2


def test_its_own_loads_are_read() -> None:
    design = read_design(TEXT + '\n[[loads]]\nname = "two rows"\nrows = [6, 6, 0, 0, 0]\n')
    sizing = size(design, count=90)
    assert any(case.name == "two rows" for case in sizing.cycle.loads)  # type: ignore[union-attr]


def test_a_misspelt_field_of_it_is_complained_about_like_any_other() -> None:
    with pytest.raises(DesignError) as caught:
        read_design(TEXT.replace("row_spacing  =", "row_spacng  ="))
    assert any("row_spacing" in c.message for c in caught.value.complaints)
