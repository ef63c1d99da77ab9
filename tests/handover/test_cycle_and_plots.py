"""The turn cycle as CSV, JSON and table; plots as pictures."""

import csv
import io
import json
import math
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from tests.drum_design import sized
from turnercalc.cli.plot import NAMES
from turnercalc.errors import OutputError, TurnercalcError, UnknownNameError
from turnercalc.handover import cycle_record, cycle_table, plots
from turnercalc.handover.display import Style
from turnercalc.handover.strokes import STROKES
from turnercalc.sizing import Sizing

from .conftest import CASES, Case

GetCase = Callable[[str], Case]
ROUND = ["as it is", "with a chain", "to and fro", "either way", "jams"]

# --- table, CSV, JSON ---------------------------------------------------------------------------


def test_csv_and_json_say_the_same_under_the_same_names(case: GetCase) -> None:
    sizing = case("as it is").sizing
    rows = list(csv.DictReader(io.StringIO(cycle_record.as_csv(sizing, "all trays full"))))
    found = json.loads(cycle_record.as_json(sizing, "all trays full"))
    forward, backward = found["cycles"]
    assert [forward["direction"], backward["direction"]] == ["anticlockwise", "clockwise"]
    assert list(rows[0]) == list(forward)
    assert len(rows) == 2 * len(forward["crank_angle_deg"])
    for name, values in forward.items():
        if isinstance(values, list):
            assert [float(row[name]) for row in rows[: len(values)]] == values


def test_csv_has_every_degree_of_every_load(case: GetCase) -> None:
    sizing = case("as it is").sizing
    assert sizing.cycle is not None
    rows = list(csv.DictReader(io.StringIO(cycle_record.as_csv(sizing))))
    assert len(rows) == 360 * 2 * len(sizing.cycle.loads)
    assert [float(row["crank_angle_deg"]) for row in rows[:360]] == list(range(360))


def test_work_of_the_printed_torque_is_the_loss_over_a_cycle(case: GetCase) -> None:
    """Energy: mean shaft torque over a turn is what friction takes, so it is positive both ways."""
    found = json.loads(cycle_record.as_json(case("as it is").sizing, "all trays empty"))
    for cycle in found["cycles"]:
        assert np.mean(cycle["shaft_torque_Nm"]) > 0.0
        assert np.mean(cycle["shaft_torque_low_friction_Nm"]) < np.mean(
            cycle["shaft_torque_high_friction_Nm"]
        )


def test_the_table_has_the_figures_of_the_cycle(case: GetCase) -> None:
    sizing = case("as it is").sizing
    assert sizing.cycle is not None
    text = cycle_table.page(sizing, "all trays full", Style())
    rows = [
        [float(cell) for cell in line.split()]
        for line in text.splitlines()
        if line.strip()[:1].isdigit()
    ]
    assert [row[0] for row in rows] == list(range(0, 360, 30))
    middle = sizing.cycle.levels.index("middle")
    for row, at in zip(rows, range(0, 360, 30), strict=True):
        assert row[1] == pytest.approx(math.degrees(sizing.cycle.motion.coordinate[at]), abs=0.051)
        assert row[3] == pytest.approx(sizing.cycle.shaft_torque[0, middle, 0, at], abs=0.0051)
        assert row[4] == pytest.approx(sizing.cycle.shaft_torque[0, middle, 1, at], abs=0.0051)


@pytest.mark.parametrize("plain", [False, True])
@pytest.mark.parametrize("system", ["metric", "us", "both"])
@pytest.mark.parametrize("name", ROUND)
def test_the_table_fits_the_screen(case: GetCase, name: str, system: str, plain: bool) -> None:
    text = cycle_table.page(case(name).sizing, None, Style(system, plain))
    assert [line for line in text.splitlines() if len(line) > 80] == []
    assert not plain or text.isascii()


def test_without_a_name_the_hardest_planned_load_is_shown(case: GetCase) -> None:
    sizing = case("mirror pairs").sizing
    assert sizing.cycle is not None
    load = cycle_record.hardest_load(sizing)
    peaks = sizing.cycle.shaft_torque[:, 1, sizing.better_direction].max(axis=-1)
    planned = [
        peak if c.planned else -np.inf for peak, c in zip(peaks, sizing.cycle.loads, strict=True)
    ]
    assert load == int(np.argmax(planned))
    assert sizing.cycle.loads[load].name in cycle_table.page(sizing, None, Style())


@pytest.mark.parametrize(
    ("words", "load"),
    [
        ("all trays full", "all_trays_full"),
        ("ALL-TRAYS_full", "all_trays_full"),
        ("after_candling", "after_candling"),
        ("candling", "after_candling"),
    ],
)
def test_a_load_is_found_by_its_name_or_part_of_it(case: GetCase, words: str, load: str) -> None:
    cycle = cycle_record.cycle_of(case("as it is").sizing)
    assert cycle.loads[cycle_record.find_load(cycle, words)].id == load


def test_a_load_that_is_not_there_or_could_be_several_names_some(case: GetCase) -> None:
    cycle = cycle_record.cycle_of(case("as it is").sizing)
    with pytest.raises(UnknownNameError, match='There is no load "candles"') as none:
        cycle_record.find_load(cycle, "candles")
    assert "\n  all trays full\n" in str(none.value)
    with pytest.raises(UnknownNameError, match="could be several loads"):
        cycle_record.find_load(cycle, "rows only")


def test_without_a_cycle_it_is_said_what_is_missing(case: GetCase) -> None:
    for ask in (cycle_record.as_csv, cycle_record.as_json, plots.figure):
        with pytest.raises(TurnercalcError, match=r"53\.0 mm too short"):
            ask(case("does not close").sizing)


# --- plots --------------------------------------------------------------------------------------


#: The plots along the drive's position or time; the others have tests of their own.
#: Plots that only another turner has.
OF_OTHERS = ("bars", "journals", "drum")
ALONG = [name for name in plots.PLOTS if name not in ("motors", "drift", *OF_OTHERS)]


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("plot", ALONG)
@pytest.mark.parametrize("name", ROUND)
def test_a_plot_draws_on_the_axes_it_is_given(
    case: GetCase, name: str, plot: str, system: str
) -> None:
    ax = Figure().add_subplot()
    assert plots.PLOTS[plot](case(name).sizing, ax, system=system) is ax
    assert ax.lines
    for label in (ax.get_xlabel(), ax.get_ylabel()):
        assert any(unit in label for unit in ("°", "N·m", "lbf·in", " N", "lbf", ", s", "°/s"))


@pytest.mark.parametrize("plot", [name for name in plots.PLOTS if name not in OF_OTHERS])
def test_a_plot_makes_its_own_axes_and_never_shows(case: GetCase, plot: str) -> None:
    assert isinstance(plots.PLOTS[plot](case("as it is").sizing), Axes)
    assert "matplotlib.pyplot" not in sys.modules


def test_lines_differ_in_dashes_as_well_as_in_colour() -> None:
    assert len({stroke.dashes for stroke in STROKES}) == len(STROKES)
    assert len({stroke.colour for stroke in STROKES}) == len(STROKES)


@pytest.mark.parametrize("kind", ["torque", "load", "motor"])
def test_more_loads_than_dashes_are_told_in_grey(kind: str) -> None:
    """A drum has a family for every number of neighbours: no two lines with a name look alike."""
    sizing = sized()
    ax = plots.PLOTS[kind](sizing)
    names = {sizing.cycle.loads[f.worst].name: f for f in sizing.families if sizing.cycle}
    drawn = [line for line in ax.lines if str(line.get_label()).split(" (not")[0] in names]
    looks = [(line.get_color(), str(line._unscaled_dash_pattern)) for line in drawn]  # type: ignore[attr-defined]
    assert len(drawn) == len(STROKES) < len(sizing.families)
    assert len(set(looks)) == len(looks)
    told = {str(line.get_label()).split(" (not")[0] for line in drawn}
    assert {"all shelves full", "all shelves empty"} <= told
    hardest = max(sizing.families, key=lambda f: float(f.peaks[1].max()))
    assert sizing.cycle is not None
    assert sizing.cycle.loads[hardest.worst].name in told
    (rest,) = (text for text in ax.get_legend_handles_labels()[1] if " more, easier" in text)
    planned = [f for f in sizing.families if f.planned or kind != "motor"]
    assert rest.startswith(f"{len(planned) - len(STROKES)} more")


def test_the_torque_plot_holds_the_peaks_and_the_motor(case: GetCase) -> None:
    sizing = case("as it is").sizing
    assert sizing.chosen is not None
    ax = plots.PLOTS["torque"](sizing)
    lines = {str(line.get_label()): np.asarray(line.get_ydata()) for line in ax.lines}
    assert sizing.cycle is not None
    for family in sizing.families:
        drawn = lines[sizing.cycle.loads[family.worst].name]
        wanted = sizing.cycle.shaft_torque[family.worst, 1, sizing.better_direction].max()
        assert drawn.max() == pytest.approx(wanted)
    # its listing: 3.2 N·m rated, no stage between; half of it for a safety factor of 2
    assert lines["worm 5: 3.2 N·m can be counted on"][0] == pytest.approx(3.2)
    assert lines["stay under 1.6 for 2 times enough"][0] == pytest.approx(1.6)


def test_behind_a_chain_the_motor_counts_for_more_at_the_crank(case: GetCase) -> None:
    ax = plots.PLOTS["torque"](case("with a chain").sizing)
    (label,) = [str(x.get_label()) for x in ax.lines if "can be counted" in str(x.get_label())]
    # 12 to 24 teeth doubles 3.2 N·m, less what the chain loses
    assert 0.85 * 6.4 < float(label.split()[2]) < 6.4


def test_the_tilt_plot_is_marked_with_both_ends(case: GetCase) -> None:
    sizing = case("as it is").sizing
    texts = {text.get_text() for text in plots.PLOTS["tilt"](sizing).texts}
    assert texts == {
        f"{math.degrees(sizing.ends.high):.1f}°",
        f"{-math.degrees(sizing.ends.low):.1f}°",
    }


def test_the_time_plot_ends_when_the_move_does(case: GetCase) -> None:
    sizing = case("as it is").sizing
    assert sizing.timing is not None
    last = max(
        np.asarray(line.get_xdata()).max() for line in plots.PLOTS["time"](sizing).lines[:-1]
    )
    assert last == pytest.approx(sizing.timing.longest_move, rel=0.01)


def test_clockwise_runs_to_the_right_too(case: GetCase) -> None:
    sizing = case("jams").sizing
    assert sizing.better_direction == 1
    left, right = plots.PLOTS["torque"](sizing).get_xlim()
    assert left > right


def test_speed_and_time_want_a_motor(case: GetCase) -> None:
    for plot in (plots.PLOTS["speed"], plots.PLOTS["time"]):
        with pytest.raises(TurnercalcError, match="Name a motor file"):
            plot(case("no motor file").sizing)


def test_a_sheet_has_a_panel_for_each_name(case: GetCase) -> None:
    sheet = plots.figure(case("as it is").sizing, ["torque", "tilt", "force"])
    assert len(sheet.axes) == 3


def test_motors_are_bars_with_their_figure_and_verdict_in_words(case: GetCase) -> None:
    sizing = case("as it is").sizing
    ax = plots.PLOTS["motors"](sizing)
    assert [tick.get_text() for tick in ax.get_yticklabels()][:2] == ["syn 60", "planet 8"]
    assert "> worm 5" in [tick.get_text() for tick in ax.get_yticklabels()]
    told = [text.get_text() for text in ax.texts]
    for result, words, bar in zip(sizing.motors, told, ax.patches, strict=False):
        assert result.verdict.value in words or words.startswith("?")
        # a failed check is told by what is wrong; its title would say the opposite
        assert result.deciding is None or result.deciding.title.lower() not in words
        if result.times_enough is not None:
            assert f"{result.times_enough:.1f}" in words
            assert bar.get_width() == pytest.approx(min(result.times_enough, 8.0))
    # without colour: each verdict has a hatching of its own
    assert len({bar.get_hatch() for bar in ax.patches[: len(sizing.motors)]}) >= 3


def test_the_motors_plot_wants_motors_and_the_drift_plot_a_crank_that_goes_round(
    case: GetCase,
) -> None:
    with pytest.raises(TurnercalcError, match="Name a motor file"):
        plots.PLOTS["motors"](case("no motor file").sizing)
    with pytest.raises(TurnercalcError, match="only a crank that goes round"):
        plots.PLOTS["drift"](case("to and fro").sizing)


def test_the_drift_plot_leaves_the_ends_when_the_page_says_so(case: GetCase) -> None:
    sizing = case("as it is").sizing
    assert sizing.timing is not None
    wander = sizing.timing.drift
    assert wander is not None
    assert wander.flat_after is not None
    ax = plots.PLOTS["drift"](sizing)
    (parks,) = [line for line in ax.lines if line.get_marker() == "o"]
    flat = math.degrees(wander.flat)
    bad = [
        move
        for move, tilt in zip(parks.get_xdata(), parks.get_ydata(), strict=True)
        if abs(tilt) < flat
    ]
    assert bad[0] == wander.flat_after + 1


def test_the_load_and_motor_plots_hold_the_peaks(case: GetCase) -> None:
    """Behind a chain of 2 the motor feels half of the shaft torque and a little more."""
    sizing = case("with a chain").sizing
    assert sizing.demand is not None
    assert sizing.cycle is not None
    highest = max(np.nanmax(np.asarray(line.get_ydata())) for line in _solid(sizing, "motor"))
    assert highest == pytest.approx(sizing.demand.torque[:, sizing.told_direction].max())
    shaft = sizing.cycle.shaft_torque[:, 1, sizing.told_direction].max()
    assert 0.5 * shaft < highest < 0.6 * shaft
    load = max(np.nanmax(np.asarray(line.get_ydata())) for line in _solid(sizing, "load"))
    assert load == pytest.approx(
        max(
            sizing.cycle.load_torque[family.worst, 1, sizing.told_direction].max()
            for family in sizing.families
        )
    )


def _solid(sizing: Sizing, plot: str) -> list[Line2D]:
    """Return the lines that are curves, not rules across the axes."""
    return [line for line in plots.PLOTS[plot](sizing).lines if len(line.get_xdata()) > 2]


def test_the_command_knows_every_plot_without_loading_any() -> None:
    assert sorted(plots.PLOTS) == list(NAMES)


def test_a_name_that_is_no_plot_is_refused(case: GetCase) -> None:
    with pytest.raises(UnknownNameError, match=r'"torqe" is no plot\. There are '):
        plots.figure(case("as it is").sizing, ["torqe"])


@pytest.mark.parametrize(
    ("ending", "start"), [("png", b"\x89PNG"), ("svg", b"<?xml"), ("pdf", b"%PDF")]
)
def test_files_are_what_their_name_says_and_always_alike(
    case: GetCase, tmp_path: Path, ending: str, start: bytes
) -> None:
    sheets = [plots.figure(case("as it is").sizing, ["tilt"]) for _ in (0, 1)]
    one, other = (
        plots.save(sheet, tmp_path / f"{i}.{ending}").read_bytes() for i, sheet in enumerate(sheets)
    )
    assert one.startswith(start)
    assert one == other


def test_another_ending_is_refused(case: GetCase, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match=r"is written as \.png, \.svg or \.pdf"):
        plots.save(plots.figure(case("as it is").sizing), tmp_path / "rack.jpg")


def test_a_plot_that_is_there_stays(case: GetCase, tmp_path: Path) -> None:
    (tmp_path / "rack.png").write_bytes(b"mine")
    with pytest.raises(OutputError, match="is already in"):
        plots.save(plots.figure(case("as it is").sizing), tmp_path / "rack.png")
    assert (tmp_path / "rack.png").read_bytes() == b"mine"


def test_every_case_names_what_it_is_about() -> None:
    assert set(ROUND) <= set(CASES)
