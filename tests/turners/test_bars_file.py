"""Rolling bars as a design file tells them: read, taken for granted, refused, written back."""

import math
from pathlib import Path

import numpy as np
import pytest

from tests.bars_design import MOTORS, TEXT, bars_design, sized
from turnercalc import drives, turners
from turnercalc.building import build
from turnercalc.cli import main
from turnercalc.design import read_design
from turnercalc.design.starter import starter_names, starter_text
from turnercalc.design.writer import write_design
from turnercalc.errors import DesignError
from turnercalc.findings import Answer
from turnercalc.sizing import size
from turnercalc.turners.bar_sections import JOININGS
from turnercalc.turners.rolling_bars import RollingBars

EXAMPLE = Path(__file__).parents[2] / "examples" / "toy-chest-bars.toml"


def built(**changes: str | None) -> RollingBars:
    turner = build(bars_design(**changes)).turner
    assert isinstance(turner, RollingBars)
    return turner


def complaint(**changes: str | None) -> str:
    """Return what is said of a design that cannot be."""
    with pytest.raises(DesignError) as caught:
        bars_design(**changes)
    return " ".join(c.message + " " + " ".join(c.accepted) for c in caught.value.complaints)


# -- read ------------------------------------------------------------------------------------------


def test_figures_reach_the_turner() -> None:
    bars = built()
    assert (bars.count, bars.lanes, bars.driven_bar) == (5, 4, 2)
    assert (bars.pitch, bars.bar_radius, bars.egg_radius) == (0.068, 0.0125, 0.02875)
    assert bars.egg_mass == pytest.approx(0.155)
    assert np.ptp(bars.travel) * bars.ratio == pytest.approx(math.pi)
    assert bars.joining.end_pull == 40.0  # two strands of 20 N
    # A tube's inertia about its axis, m (ro2 + ri2)/2 with ri = 11 mm.
    assert bars.bar_inertia == pytest.approx(0.5 * 0.130 * (0.0125**2 + 0.011**2))
    # Five bars 68 mm apart stand in the middle of 400 mm.
    assert bars.from_left_wall == pytest.approx(0.064)


def test_what_nobody_says_is_taken_for_granted_with_its_source() -> None:
    design = bars_design(bars__weight=None, bars__stop_spacing=None, bars__belt_pull=None)
    taken = {one.field: one.text for one in design.taken_for_granted()}
    # pi/4 (25^2 - 22^2) x 420 mm of aluminium at 2700 kg/m3: 125.6 g.
    assert taken["bars.weight"] == "125.6 g"
    assert taken["bars.stop_spacing"] == "98 mm"
    assert taken["bars.belt_pull"] == "10 N"
    assert taken["bars.belt_runs_on"] == "25 mm"
    assert taken["bars.belt_efficiency"] == "0.8 / 0.9 / 0.95"
    assert taken["eggs.heavy_sides"] == "in line"
    assert taken["bars.rolling_arm"] == "0.5 / 1 / 2 mm"
    assert all(one.source for one in design.taken_for_granted())
    # Nothing is asked or taken that does not matter here.
    assert not {"turning.tilt", "eggs.friction", "eggs.held_by"} & set(taken)
    assert not set(design.unknown)


def test_a_belt_that_was_measured_lets_through_what_it_does() -> None:
    measured = built(bars__belt_efficiency="0.9 / 0.93 / 0.95").joining.efficiency
    assert (measured.low, measured.middle, measured.high) == (0.9, 0.93, 0.95)
    assert built(bars__joined_by="one motor each").joining.efficiency.middle == 1.0


def test_a_bar_without_a_wall_is_solid() -> None:
    heavy = built(bars__wall=None, bars__weight=None)
    assert heavy.bar_mass == pytest.approx(math.pi / 4 * 0.025**2 * 0.420 * 2700, rel=1e-3)
    assert heavy.bar_inertia == pytest.approx(0.5 * heavy.bar_mass * 0.0125**2)


@pytest.mark.parametrize("joined", JOININGS)
def test_every_way_of_joining_sizes(joined: str) -> None:
    # One belt round all goes half round only the bars at both ends.
    bar = "1" if joined == "one belt round all" else "3"
    sizing = sized(
        bars__joined_by=joined, bars__driven_bar=bar, bars__belt_pull="30 N", motor__have="worm 6"
    )
    assert sizing.verdict is not Answer.NO, sizing.reason.text
    assert sizing.cycle is not None
    assert np.isfinite(sizing.cycle.shaft_torque).all()


def test_chain_and_single_motors_pull_nothing() -> None:
    for joined in ("chain", "one motor each"):
        bars = built(bars__joined_by=joined)  # the pull that is given is that of no belt
        assert bars.joining.end_pull == 0.0


def test_the_usual_bar_to_drive() -> None:
    assert built(bars__joined_by="one belt round all", bars__driven_bar=None).driven_bar == 0
    assert built(bars__joined_by="chain", bars__driven_bar=None).driven_bar == 2


def test_a_motor_each_turns_one_bar() -> None:
    alone, together = built(bars__joined_by="one motor each"), built(bars__joined_by="chain")
    cells = alone.load_cases()[0].cells[None].astype(float)
    levels = ("middle",)
    every = alone.bar_torques(cells, 0.0, 1.0, levels)
    one = alone.load_torque(cells, 0.0, 1.0) + alone.resistance(cells, 0.0, 1.0, levels)(0.0, 0.0)
    assert one.item() == pytest.approx(every.max())
    all_ = together.load_torque(cells, 0.0, 1.0)
    all_ = all_ + together.resistance(cells, 0.0, 1.0, levels)(0.0, 0.0)
    eta = together.joining.efficiency.middle
    assert all_.item() == pytest.approx(together.bar_torques(cells, 0.0, 1.0, levels).sum() / eta)


def test_loads_of_the_builder_in_lanes() -> None:
    design = read_design(TEXT + '\n[[loads]]\nname = "two lanes"\nlanes = [4, 4, 0, 0]\n')
    cases = build(design).turner.load_cases()
    mine = [case for case in cases if case.name.startswith("two lanes")]
    assert {case.egg_count for case in mine} == {8}
    assert len({case.family for case in mine}) == 2  # in line and scattered
    assert [case.planned for case in mine].count(True) == 2


def test_scattered_heavy_sides_may_be_planned() -> None:
    hard, easy = sized(), sized(eggs__heavy_sides="scattered")
    assert hard.demand is not None
    assert easy.demand is not None
    assert easy.demand.torque.max() < hard.demand.torque.max()
    assert {case.name for case in hard.cycle.loads} == {case.name for case in easy.cycle.loads}  # type: ignore[union-attr]


@pytest.mark.parametrize("units", ["as written", "metric", "us"])
def test_written_back_it_is_the_same_design(units: str) -> None:
    design = bars_design()
    again = read_design(write_design(design, units))
    assert again.values().keys() == design.values().keys()
    first, second = size(design), size(again)
    assert first.cycle is not None
    assert second.cycle is not None
    np.testing.assert_allclose(second.cycle.shaft_torque, first.cycle.shaft_torque, rtol=2e-3)


# -- refused ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "says", "offers"),
    [
        ({"bars__pitch": "82.5 mm", "box__width": "600 mm"}, "drops through", "68 mm"),
        ({"bars__pitch": "24 mm"}, "touch", "65 mm"),
        ({"bars__eggs_per_lane": "0"}, "at least 1", ""),
        ({"bars__weight": "-130 g"}, "at least 0", ""),
        ({"eggs__weighed": "0 eggs = 155 g"}, "no eggs weigh nothing", ""),
        ({"eggs__weighed": "1 egg = -155 g"}, "at least", ""),
        ({"turning__egg_turn": "95"}, "unit", "95 deg"),
        ({"bars__count": "1"}, "two bars", "2"),
        ({"bars__count": "9"}, "569 mm wide", "6"),
        ({"bars__driven_bar": "7"}, "5 bars", "5"),
        ({"bars__driven_bar": None}, "middle", "3"),
        ({"bars__length": "600 mm"}, "460 mm deep", "420 mm"),
        ({"bars__wall": "13 mm"}, "solid", ""),
        ({"bars__joined_by": "string"}, "none of the words", "one belt round all"),
        ({"bars__surface": "lava"}, 'no "lava"', "bare aluminium"),
        ({"bars__under_bars": "18 mm"}, "which side", "18 mm below the bar middles"),
        ({"eggs__lie": "big end up"}, "none of the words", "on the side, along the axis"),
    ],
)
def test_bad_input_gets_a_clear_sentence(
    changes: dict[str, str | None], says: str, offers: str
) -> None:
    said = complaint(**changes)
    assert says in said
    assert offers in said


def test_a_box_that_leans_more_than_the_nests_are_deep() -> None:
    said = complaint(
        box__leans="15 deg",
        bars__diameter="29 mm",
        bars__pitch="30 mm",
        eggs__typical="120 x 87 mm",
        eggs__largest="120 x 87 mm",
    )
    assert "rolls out" in said


def test_eggs_in_lanes_that_there_are_not() -> None:
    for lanes in ("[4, 4, 4]", "[4, 4, 5, 4]", "[4, 4, -1, 4]"):
        with pytest.raises(DesignError):
            read_design(TEXT + f'\n[[loads]]\nname = "odd"\nlanes = {lanes}\n')


@pytest.mark.parametrize("drive", sorted(set(drives.kinds()) - {"turning_shaft"}))
def test_only_a_turning_shaft_turns_bars(drive: str) -> None:
    said = complaint(drive=drives.kinds()[drive].words[0])
    assert "cannot be moved by" in said
    assert "turning shaft" in said


# -- starter, example and command line -------------------------------------------------------------


def test_the_starter_is_listed_and_sizes_without_complaint() -> None:
    assert "bars" in starter_names()
    assert turners.kinds()["rolling_bars"].starter == "bars"
    design = read_design(starter_text("bars"))
    assert design.notes == ()
    sizing = size(design)
    assert sizing.verdict is Answer.FINE, sizing.reason.text


def test_the_example_by_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    motors = tmp_path / "motors.csv"
    motors.write_text(MOTORS, encoding="utf-8")
    for arguments in (
        ["size", str(EXAMPLE), "-m", str(motors), "--set", "motor.have=worm 6"],
        ["size", str(EXAMPLE), "--units", "us"],
        ["cycle", str(EXAMPLE)],
        ["cycle", str(EXAMPLE), "--csv"],
        ["explain", "rolling loss", "--design", str(EXAMPLE)],
    ):
        code, output = main(arguments), capsys.readouterr().out
        assert code == 0, (arguments, output)
        lines = output.splitlines()
        told = [line for line in lines if str(tmp_path) not in line and "examples" not in line]
        assert "--csv" in arguments or max(map(len, told)) <= 80
        for word in ("tray", "tilt", "crank"):
            assert word not in output, (arguments, word)
    plotted = tmp_path / "bars.png"
    what = ["torque", "bars", "journals", "tilt"]
    assert main(["plot", str(EXAMPLE), *what, "-o", str(plotted)]) == 0
    assert plotted.stat().st_size > 10_000


def test_a_drive_by_another_name_is_refused_under_the_name_that_was_written() -> None:
    with pytest.raises(DesignError) as caught:
        read_design(EXAMPLE, {"drive": "Scotch yoke"})
    (complaint,) = caught.value.complaints
    assert 'cannot be moved by "Scotch yoke", which is read as "slotted lever"' in complaint.message
    with pytest.raises(DesignError) as caught:
        read_design(EXAMPLE, {"drive": "Slotted-Lever"})
    assert 'cannot be moved by "slotted lever".' in caught.value.complaints[0].message
