"""The trial sheet: dummy loads by weight, counter targets, pass limits, its own log read back."""

import math
from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.diagnose import diagnose, gather, read_log
from turnercalc.advice.trial_plan import HOURS, TrialPlan, trial_plan
from turnercalc.design import read_design
from turnercalc.handover.display import Style
from turnercalc.handover.trial_sheet import page, run_log
from turnercalc.motors import read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def rack(*settings: tuple[str, str]) -> tuple[Sizing, TrialPlan]:
    design = read_design(EXAMPLES / "larder-rack.toml", dict(settings))
    sizing = size(design, read_motors(EXAMPLES / "motors.csv"))
    return sizing, trial_plan(sizing)


def test_the_build_runs_forty_eight_hours_before_eggs_go_in() -> None:
    # common practice, no source
    assert HOURS == 48.0
    assert rack()[1].readings[-1].hours == 48.0
    assert "48 hours" in page(*rack(), Style())


def test_dummy_loads_weigh_what_the_eggs_weigh() -> None:
    sizing, plan = rack()
    full = plan.loads[-1]
    # 3 trays of 5 rows of 7, at the weighed mass
    assert full.egg_count == 105
    assert full.mass == pytest.approx(105 * sizing.ingredients.lot.typical.mass)
    assert max(load.peak for load in plan.loads) == pytest.approx(
        max(float(f.peaks[1, sizing.told_direction]) for f in sizing.families if f.planned)
    )


def test_the_bottle_test_is_a_lever() -> None:
    # 1 kg on a 300 mm arm is 2.94 N·m, from g = 9.80665 m/s2 (3rd CGPM, 1901)
    bottle = rack()[1].bottle
    assert bottle is not None
    assert bottle.torque / bottle.mass == pytest.approx(2.94, abs=0.003)


@pytest.mark.parametrize("turns", ["24", "8", "96"])
def test_counter_targets(turns: str) -> None:
    plan = rack(("turning.turns_per_day", turns))[1]
    for reading in plan.readings:
        assert reading.due == pytest.approx(reading.hours / 24.0 * float(turns))
        assert reading.least <= reading.due <= reading.most


def test_as_drawn_passes_its_own_limits_and_a_log_of_it_shows_nothing_off() -> None:
    sizing, plan = rack()
    assert plan.high is not None
    assert plan.low is not None
    assert plan.high[0] < sizing.ends.high < plan.high[1]
    assert plan.low[0] < -sizing.ends.low < plan.low[1]
    log = run_log(sizing, plan).splitlines()
    high, low = (f"{math.degrees(v):.1f}" for v in (sizing.ends.high, -sizing.ends.low))
    filled = [log[0]]
    for line, reading in zip(log[1:], plan.readings, strict=True):
        cells = line.split(",")
        cells[1:5] = [f"{reading.due:.0f}", high, low, f"{sizing.timing.longest_move:.1f}"]
        filled.append(",".join(cells))
    found = diagnose(sizing, read_log("\n".join(filled)))
    assert found.off == ()
    assert set(found.right) >= {"ends", "time", "count"}


@pytest.mark.parametrize("system", ["metric", "us", "both"])
def test_the_sheet_fits_the_paper(system: str) -> None:
    lines = page(*rack(), Style(system)).splitlines()
    assert max(len(line) for line in lines) <= 80
    for word in ("CAUTIONS", "DUMMY LOADS", "HOME TESTS", "PASS LIMITS", "RUN LOG", "SERVICE CARD"):
        assert any(line.startswith(word) for line in lines)


def test_without_a_motor_or_a_cycle_the_sheet_still_stands() -> None:
    design = read_design(EXAMPLES / "larder-rack.toml", {"motor.have": None})
    sizing = size(design)
    assert "PASS LIMITS" in page(sizing, trial_plan(sizing), Style())
    sizing, plan = rack(("link.length", "150 mm"))
    assert plan.loads == ()
    assert "SERVICE CARD" in page(sizing, plan, Style())


@pytest.mark.parametrize(
    ("name", "wanted", "reading"),
    [("seed-tray-grid", 44e-3, 1e-3), ("toy-chest-bars", math.radians(384.5), math.radians(1.0))],
)
def test_where_only_the_stroke_counts_only_it_is_asked_for(
    name: str, wanted: float, reading: float
) -> None:
    sizing = size(read_design(EXAMPLES / f"{name}.toml"), read_motors(EXAMPLES / "motors.csv"))
    plan = trial_plan(sizing)
    assert (plan.high, plan.low) == (None, None)
    assert plan.total is not None
    # Nothing is asked for more finely than it can be read.
    assert plan.total[0] <= wanted - reading + 1e-3 * wanted
    assert plan.total[1] >= wanted + reading - 1e-3 * wanted
    log = run_log(sizing, plan).splitlines()
    assert log[0] == "hours,count,in_all,seconds,current,remarks"
    unit = 1e3 if name == "seed-tray-grid" else math.degrees(1.0)
    filled = f"{log[0]}\n48,,{unit * sizing.ends.total:.2f},,,\n"
    assert diagnose(sizing, gather(sizing, log=filled)).right == ("ends",)
    text = page(sizing, plan, Style())
    assert "From end to end" in text
    assert max(len(line) for line in text.splitlines()) <= 80


@pytest.mark.parametrize(
    ("name", "ends"),
    [("tool-chest-drum", "without catching."), ("larder-rack", "crank and link included.")],
)
def test_what_moves_by_hand_names_the_drives_parts_where_it_has_any(name: str, ends: str) -> None:
    sizing = size(read_design(EXAMPLES / f"{name}.toml"))
    told = " ".join(page(sizing, trial_plan(sizing), Style()).split())
    assert ends in told
    assert ",  included" not in told
    assert ", included" not in told
