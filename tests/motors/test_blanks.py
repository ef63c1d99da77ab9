"""What is not known never makes a motor better, and a long pause never makes it pass."""

import tomllib
from dataclasses import fields, replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motors.demands import RPM, demand
from turnercalc.errors import MotorFileError
from turnercalc.fields import Supply
from turnercalc.findings import Answer
from turnercalc.motors import Motor, judge, read_motors

ROOT = Path(__file__).parents[2]
SUPPLY = Supply((12.0,), (230.0,), 50.0)
# Not judged at all is worse than any answer but no.
GOOD = {Answer.FINE: 3, Answer.MARGINAL: 2, Answer.UNKNOWN: 1, Answer.NO: 1}
#: What a motor is called, not what it is.
NAMES = {"id", "line", "title", "notes", "currency", "class_from", "motor_class", "candidates"}
OPTIONAL = [f.name for f in fields(Motor) if f.name not in NAMES]
EMPTY = {"ratings": (), "volts": (), "frequencies": ()}


@cache
def motors() -> tuple[Motor, ...]:
    """Every motor that can be used, of the corpus and of the example."""
    found = list(read_motors(ROOT / "examples" / "motors.csv").motors)
    for file in sorted((ROOT / "tests" / "data" / "listings").glob("*.toml")):
        for listing in tomllib.loads(file.read_text(encoding="utf-8"))["listing"]:
            try:
                found += read_motors(listing["text"]).motors
            except MotorFileError:
                continue
    return tuple(found)


def blanked(motor: Motor, name: str) -> Motor:
    """The motor as it would be read without one of its cells."""
    kept = tuple(r for r in motor.ratings if r.field != name)
    return replace(motor, **{"ratings": kept, name: EMPTY.get(name)})


DEMANDS = st.builds(
    lambda scale, inside, hold, side, fast, interval: demand(
        torque=demand().torque * scale,
        corner_torque=demand().corner_torque * scale,
        stands="inside the box" if inside else "outside the box",
        holding_torque=hold * scale,
        side_load=side,
        speed_max=fast * RPM,
        interval_s=interval,
    ),
    scale=st.sampled_from((0.02, 0.1, 0.3, 1.0, 2.5)),
    inside=st.booleans(),
    hold=st.sampled_from((0.0, 0.5, 2.0)),
    side=st.sampled_from((None, 15.0, 60.0)),
    fast=st.sampled_from((3.0, 15.0, 80.0)),
    interval=st.sampled_from((900.0, 3600.0, 28800.0)),
)


def filled(motor: Motor) -> list[str]:
    return [name for name in OPTIONAL if getattr(motor, name) not in (None, ())]


@settings(max_examples=400, deadline=None)
@given(st.data(), DEMANDS)
def test_blanking_a_cell_keeps_or_worsens_the_verdict_and_is_named(data, asked):
    motor = data.draw(st.sampled_from(motors()))
    name = data.draw(st.sampled_from(filled(motor)))
    before, after = judge(motor, asked), judge(blanked(motor, name), asked)
    assert GOOD[after.verdict] <= GOOD[before.verdict], (motor.id, name, before.why, after.why)
    if GOOD[after.verdict] < GOOD[before.verdict]:
        known = {f.id for f in before.unknown}
        named = [f for f in after.findings if f.answer is not Answer.FINE and f.id not in known]
        assert named, (motor.id, name)
        assert all(f.ask for f in after.unknown)


def test_every_cell_of_every_motor_blanked_once():
    asked = [demand(), demand(stands="inside the box", holding_torque=0.5)]
    worse = []
    for motor in motors():
        for name in filled(motor):
            for one in asked:
                before, after = judge(motor, one).verdict, judge(blanked(motor, name), one).verdict
                if GOOD[after] > GOOD[before]:
                    worse.append((motor.id, motor.title, name, before, after))
    assert not worse


@settings(max_examples=150, deadline=None)
@given(st.data(), DEMANDS, st.floats(1.0, 200.0))
def test_a_longer_interval_never_improves_a_verdict(data, asked, times):
    motor = data.draw(st.sampled_from(motors()))
    before = judge(motor, asked)
    after = judge(motor, replace(asked, interval_s=asked.interval_s * times))
    assert GOOD[after.verdict] <= GOOD[before.verdict]
    for one, other in zip(before.findings, after.findings, strict=True):
        assert one.id == other.id
        assert other.answer is one.answer


@pytest.mark.parametrize("line", (ROOT / "examples" / "motors.csv").read_text().splitlines()[1:])
def test_blanking_a_cell_of_the_example_file(line):
    head = (ROOT / "examples" / "motors.csv").read_text().splitlines()[0]
    whole = read_motors(f"{head}\n{line}\n").rows[0]
    if not whole.used:
        pytest.skip("a row that breaks physics: a blank may take away what shows it")
    for place in range(2, len(line.split(","))):
        cells = line.split(",")
        cells[place] = ""
        row = read_motors(f"{head}\n{','.join(cells)}\n").rows[0]
        before, after = judge(whole, demand()), judge(row, demand())
        assert GOOD[after.verdict] <= GOOD[before.verdict], (line, place)
