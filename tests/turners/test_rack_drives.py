"""The rack with each of its drives, from the file to the answer, as a builder meets it."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from turnercalc.advice.best_change import advise
from turnercalc.advice.many import ends_in_blocks
from turnercalc.building import build
from turnercalc.design import Design, read_design
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.errors import CombinationError, DesignError
from turnercalc.findings import Answer
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size
from turnercalc.swing import ends_with

EXAMPLES = Path(__file__).parents[2] / "examples"
SHED = "potting-shed-rack.toml"
CUPBOARD = "tool-cupboard-rack.toml"
FILES = {SHED: "actuators.csv", CUPBOARD: "motors.csv"}


def design(name: str, **settings: object) -> Design:
    return read_design(EXAMPLES / name, {k.replace("__", "."): v for k, v in settings.items()})


def motors(name: str) -> MotorFile:
    return read_motors(EXAMPLES / FILES[name])


def sized(name: str, **settings: object) -> Sizing:
    return size(design(name, **settings), motors(name))


def printed(*words: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "turnercalc", *words]
    return subprocess.run(
        command, cwd=EXAMPLES.parent, capture_output=True, encoding="utf-8", check=False
    )


def direct(**settings: object) -> Design:
    """The cupboard's single tray with the motor straight on its pivot shaft."""
    text = (EXAMPLES / CUPBOARD).read_text(encoding="utf-8")
    for section in ("crank", "slot", "arm"):
        start = text.index(f"[{section}]")
        text = text[:start] + text[text.index("\n\n", start) + 2 :]
    text = text.replace('= "slotted lever"', '= "turning shaft"')
    text = text.replace('"park switch"', '"end switches"')
    return read_design(text, {k.replace("__", "."): v for k, v in settings.items()})


@pytest.mark.parametrize("name", FILES)
def test_the_examples_tip_as_far_as_they_say(name: str) -> None:
    found = sized(name)
    wanted = found.design["turning"].tilt
    assert found.verdict is not Answer.NO
    assert [-found.ends.low, found.ends.high] == pytest.approx([wanted] * 2, abs=np.radians(0.2))


def test_the_motor_of_an_actuator_is_judged_by_force_speed_and_stroke() -> None:
    found = sized(SHED)
    by_name = {result.motor.id: result for result in found.motors}
    asked = found.demand
    assert asked is not None
    assert asked.linear
    # Half of the listed 300 N counts; the hardest push is that of the cycle at middle friction.
    assert found.cycle is not None
    planned = [case.planned for case in found.cycle.loads]
    hardest = found.cycle.shaft_torque[planned, 1].max()
    chosen = by_name["shed 60"]
    assert chosen.times_enough == pytest.approx(150.0 / hardest, rel=5e-3)
    stub, snail = by_name["stub"].finding("motor_stroke"), by_name["snail"].finding("motor_speed")
    assert stub is not None
    assert stub.answer is Answer.NO
    assert snail is not None
    assert snail.answer is Answer.MARGINAL
    assert by_name["worm 5"].verdict is Answer.NO
    # 120.2 mm of stroke at 6 mm/s without load: 20 s, and a little more where it pushes.
    assert chosen.shortest_move == pytest.approx(120.2 / 6.0, rel=0.06)
    assert chosen.longest_move == pytest.approx(120.2 / 6.0, rel=0.06)


def test_end_switches_use_as_much_stroke_as_the_tilt_needs() -> None:
    drive = build(design(SHED)).drive
    assert isinstance(drive, LinearActuator)
    # The arm pin rises by 2 x 85 sin 45 deg = 120.2 mm while the rod stands upright at both ends.
    assert 1e3 * np.diff(drive.stops) == pytest.approx([120.2], abs=0.05)


def test_a_whole_stroke_wants_a_motor_of_just_that_stroke() -> None:
    found = sized(
        SHED, actuator__runs="its whole stroke", actuator__stroke="120 mm", motor__have="long arm"
    )
    assert found.chosen is not None
    stroke = found.chosen.finding("motor_stroke")
    assert stroke is not None
    assert stroke.answer is Answer.NO
    assert "is not the 120 mm of the design" in stroke.text


@pytest.mark.parametrize(
    ("name", "told"),
    [
        (SHED, ("The rod goes from end to end", "push on the rod, N", "Rod to arm")),
        (CUPBOARD, ("The slot takes the lever to and fro", "shaft torque at the crank")),
    ],
)
def test_the_words_on_screen_are_those_of_the_drive(name: str, told: tuple[str, ...]) -> None:
    run = printed("size", f"examples/{name}", "-m", f"examples/{FILES[name]}")
    assert run.returncode == 0, run.stderr
    for words in told:
        assert words in run.stdout
    if name == SHED:
        # "link" is not a part of this rack; "crank" neither.
        assert "crank" not in run.stdout.lower()
        assert "link" not in run.stdout.lower().replace("blink", "")
    assert all(len(line) <= 80 for line in run.stdout.splitlines())


@pytest.mark.parametrize("name", FILES)
def test_every_command_knows_the_drive(name: str, tmp_path: Path) -> None:
    file, listed = f"examples/{name}", f"examples/{FILES[name]}"
    record = printed("size", file, "-m", listed, "--json")
    assert json.loads(record.stdout)["design"]["drive"] in ("linear_actuator", "slotted_lever")
    assert printed("cycle", file).returncode == 0
    assert len(printed("cycle", file, "--csv").stdout.splitlines()) > 300
    picture = tmp_path / "sheet.svg"
    drawn = printed("plot", file, "torque", "tilt", "-m", listed, "-o", str(picture))
    assert drawn.returncode == 0, drawn.stderr
    assert picture.stat().st_size > 10_000
    assert printed("size", file, "-m", listed, "--units", "us").returncode == 0


def test_a_motor_on_the_tray_shaft_needs_the_load_torque_and_friction() -> None:
    found = size(direct(), None)
    assert found.cycle is not None
    assert found.cycle.shaft_torque == pytest.approx(
        found.cycle.load_torque * np.array([1.0, -1.0])[:, None]
    )
    assert found.demand is not None
    assert found.demand.both_directions_needed
    (as_built,) = [one for one in found.findings if one.id == "as_built"]
    assert "where its switches stand" in as_built.text


def test_several_trays_on_one_shaft_are_refused_without_arms() -> None:
    with pytest.raises(CombinationError, match=r"One shaft turns one tray.*\"crank and link\""):
        build(direct(trays__count=2))


def test_a_stage_behind_a_rod_is_refused() -> None:
    with pytest.raises(CombinationError, match='take "crank and link"'):
        build(design(SHED, gearing__1__kind="chain", gearing__1__ratio="2"))


def test_a_crank_round_the_pivot_is_no_with_what_would_do() -> None:
    found = sized(CUPBOARD, crank__radius="140 mm")
    assert found.verdict is Answer.NO
    assert found.reason.id == "closes"
    assert "right round instead of to and fro" in found.reason.text


def test_end_switches_and_a_timer_contradict_each_other() -> None:
    with pytest.raises(DesignError) as caught:
        design(SHED, motor__stopped_by="timer")
    assert 'stopped_by = "end switches"' in caught.value.complaints[0].message


@pytest.mark.parametrize(
    ("name", "settings", "kind"),
    [
        (SHED, {"actuator__runs": "its whole stroke"}, "end_switches"),
        (SHED, {"actuator__eye_across": "140 mm right of pivot"}, "fixed_eye"),
        (CUPBOARD, {"crank__radius": "60 mm", "turning__turns_per_day": "24"}, "crank_radius"),
    ],
)
def test_the_change_that_is_advised_keeps_its_promise(
    name: str, settings: dict[str, object], kind: str
) -> None:
    before = sized(name, **settings)
    change = next(c for c in advise(before, motors(name)).changes if c.id == kind)
    after = size(before.design.replace(dict(change.settings)), motors(name))
    assert after.verdict is change.verdict_after
    assert change.times_enough_after == pytest.approx(after.chosen.times_enough)  # type: ignore[union-attr]


def test_a_block_of_builds_is_each_build_by_itself() -> None:
    """End switches that stand a little otherwise in every build: arrays against one at a time."""
    built = build(design(SHED))
    drive = built.drive
    assert isinstance(drive, LinearActuator)
    assert drive.stop_in is not None
    moved = 1e-3 * np.array([-1.5, 0.0, 2.0])
    many = ends_in_blocks(
        built.turner, drive, {"actuator.stop_in": drive.stop_in + moved}, anew=False
    )
    for place, shift in enumerate(moved):
        one = ends_with(built.turner, drive, {"actuator.stop_in": shift})
        assert [many.low[place], many.high[place]] == pytest.approx([one.low, one.high], abs=1e-9)


def test_the_build_of_an_actuator_is_judged_in_the_harder_direction() -> None:
    run = printed("tolerance", f"examples/{SHED}", "--builds", "400")
    assert run.returncode == 0, run.stderr
    (line,) = [row for row in run.stdout.splitlines() if "hardest turn, N" in row]
    found = sized(SHED)
    assert found.cycle is not None
    planned = [case.planned for case in found.cycle.loads]
    hardest = found.cycle.shaft_torque[planned, 1].max()
    assert float(line.split("N", 1)[1].split()[0]) == pytest.approx(hardest, abs=0.06)


@pytest.mark.parametrize(
    ("lead", "efficiency", "told"),
    [
        ("3 deg", "0.2 to 0.35", "by the thread between motor and turner"),
        ("5 deg", "0.35 to 0.7", "may hold it and may not"),
        ("20 deg", "0.65 to 0.9", "The motor has to hold"),
    ],
)
def test_a_worm_behind_the_motor_is_said_to_hold_only_where_it_surely_does(
    lead: str, efficiency: str, told: str
) -> None:
    # A thread holds where its friction angle exceeds its lead angle: efficiency 0.35 at 3 degrees
    # is a friction angle of atan(tan 3/0.35) - 3 = 5.5 degrees; 0.7 at 5 is only 2.1, 0.35 is 9.
    worm = {"kind": "worm", "ratio": "10", "lead_angle": lead, "efficiency": efficiency}
    found = size(direct(**{f"gearing__1__{name}": value for name, value in worm.items()}), None)
    (holding,) = [one for one in found.findings if one.id == "holding"]
    assert told in holding.text
