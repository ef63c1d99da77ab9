"""A drum on every page: its own words, its own keys, 80 columns."""

import csv
import io
import json

import numpy as np
import pytest
from matplotlib.axes import Axes

from tests.cli.conftest import Run
from tests.drum_design import CHEST, CRANK, EXAMPLES, ROD, ROLLERS, SLOT, STEPS, motors, sized
from turnercalc.advice import advise
from turnercalc.cli.saying import style_of
from turnercalc.errors import TurnercalcError
from turnercalc.handover import cycle_record, cycle_table, record, screen
from turnercalc.handover.plots import PLOTS

WAYS = {"shaft": {}, "steps": STEPS, "crank": CRANK, "slot": SLOT, "rod": ROD, "rollers": ROLLERS}
#: Words of trays that no page about a drum may say.
OF_TRAYS = ("tray", "tilt", "left side down", "right side down", "from level", "the pivots")


def page(way: str, system: str = "metric") -> str:
    sizing = sized(WAYS[way])
    files = screen.Files("drum.toml", "motors.csv")
    style = style_of(system, plain=False, colour=False)
    return screen.page(sizing, advise(sizing, motors()), files, style)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_page_in_words_of_a_drum(way: str, system: str) -> None:
    text = page(way, system)
    assert max(len(line) for line in text.splitlines()) <= 80
    for word in OF_TRAYS:
        assert word not in text.lower(), word


def test_the_page_tells_how_the_drum_moves_and_how_it_falls() -> None:
    text = " ".join(page("shaft").split())
    assert "90° to each side, 180° in all" in text
    assert "anticlockwise of upright" in text
    assert "a one-sided drum turns by itself" in text


@pytest.mark.parametrize("way", WAYS)
def test_a_record_with_keys_of_a_drum(way: str) -> None:
    sizing = sized(WAYS[way])
    advice = advise(sizing, motors())
    found = json.loads(record.as_json(sizing, advice, with_cycle=True))
    low, high = np.degrees(sizing.ends.low), np.degrees(sizing.ends.high)
    assert found["turn"]["anticlockwise_deg"] == pytest.approx(high, rel=1e-4)
    assert found["turn"]["clockwise_deg"] == pytest.approx(-low, rel=1e-4)
    assert found["motion"]["egg_turn_deg"] == pytest.approx(high - low, rel=1e-4)
    assert not any(key.startswith("share_of_day") for key in found["motion"])
    assert "peak_at_turn_deg" in found["loads"][0]
    assert "turn_deg" in found["cycles"][0]
    assert "tilt" not in json.dumps(found)


def test_the_cycle_as_a_table_and_as_columns() -> None:
    text = cycle_table.page(sized(), None, style_of("metric", plain=False, colour=False))
    assert "Positive turn: anticlockwise of upright" in " ".join(text.split())
    rows = list(csv.DictReader(io.StringIO(cycle_record.as_csv(sized(), "all shelves full"))))
    turned = [float(row["turn_deg"]) for row in rows if row["direction"] == "anticlockwise"]
    assert min(turned) == pytest.approx(-90.0)
    assert max(turned) == pytest.approx(90.0)


@pytest.mark.parametrize(
    "plot", ["torque", "tilt", "speed", "time", "load", "motor", "motors", "drum"]
)
def test_a_plot_of_a_drum(plot: str) -> None:
    for settings in ({}, STEPS):
        assert isinstance(PLOTS[plot](sized(settings)), Axes)


def test_the_plot_of_imbalance_holds_every_filling() -> None:
    sizing = sized(drum__empty_balance="balanced")
    ax = PLOTS["drum"](sizing)
    # By hand: 10 eggs of 61.25 g at 150 mm, four neighbours of eight.
    most = 10 * 0.06125 * 9.80665 * 0.150 / np.sin(np.pi / 8)
    drawn = [np.asarray(line.get_ydata(), float) for line in ax.lines]
    curve = next(y for y in drawn if y.size == 9)
    assert curve.max() == pytest.approx(most)
    assert curve[[0, -1]] == pytest.approx([0.0, 0.0], abs=1e-9)
    labels = [text.get_text() for text in ax.get_legend().get_texts()]
    assert "in the balanced order" in labels


def test_only_a_drum_has_an_imbalance_to_draw() -> None:
    from turnercalc.design import read_design
    from turnercalc.sizing import size

    rack = size(read_design(EXAMPLES / "larder-rack.toml"))
    with pytest.raises(TurnercalcError, match="Only a drum"):
        PLOTS["drum"](rack)


# --- the command line --------------------------------------------------------------------------


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    from tests.cli.conftest import Outcome
    from turnercalc.cli import main

    def run_one(*arguments: str) -> Outcome:
        code = main(arguments)
        captured = capsys.readouterr()
        return Outcome(code, captured.out, captured.err)

    return run_one


def test_start_and_size(run: Run, tmp_path: object) -> None:
    file = f"{tmp_path}/my-drum.toml"
    assert run("start", "drum", file).code == 0
    found = run("size", file)
    assert found.code == 0
    assert found.out.startswith("FINE")


def test_shelves_that_hang_level_are_refused(run: Run) -> None:
    found = run("size", str(CHEST), "--set", "turning.motion=shelves hang level")
    assert found.code == 2
    assert "never turn them" in " ".join(found.err.split())


def test_a_drum_beyond_its_motor_is_a_no(run: Run) -> None:
    found = run(
        "size",
        str(CHEST),
        "-m",
        str(EXAMPLES / "motors.csv"),
        "--set",
        "motor.have=worm 12",
        "--set",
        "drum.shelf_radius=170 mm",
    )
    assert found.code == 1
    words = " ".join(found.out.split())
    assert 'the load "4 neighbours' in words


@pytest.mark.parametrize("topic", ["rotating drum", "drum imbalance", "drum torque"])
def test_formulas_with_the_numbers_of_a_drum(run: Run, topic: str) -> None:
    found = run("explain", topic, "--design", str(CHEST))
    assert found.code == 0
    assert "Nothing in this design" not in found.out
    assert "N·m" in found.out or "kg·m" in found.out
