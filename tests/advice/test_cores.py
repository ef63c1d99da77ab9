"""Work on every core: whatever happens to the helpers, every task is done once."""

import math
import os
import sys
from pathlib import Path

import numpy as np
import pytest

from turnercalc.advice import cores
from turnercalc.advice.cores import on_cores
from turnercalc.advice.sweep import sweep
from turnercalc.design import read_design

EXAMPLES = Path(__file__).parents[2] / "examples"
TASKS = [float(value) for value in range(400)]


@pytest.fixture
def eager(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have helpers called in however little there is to do."""
    monkeypatch.setattr(cores, "WORTH", 0.0)


def done(count: int) -> dict[int, float]:
    found = list(on_cores(math.sqrt, TASKS, count))
    assert len(found) == len(TASKS)
    return dict(found)


@pytest.mark.usefixtures("eager")
@pytest.mark.parametrize("count", [1, 2, 3])
def test_every_task_is_done_once(count: int) -> None:
    assert done(count) == {at: math.sqrt(task) for at, task in enumerate(TASKS)}


@pytest.mark.usefixtures("eager")
@pytest.mark.parametrize("python", ["/nowhere/python", "false"])
def test_without_another_python_all_is_done_here(
    python: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "executable", python)
    assert done(2) == {at: math.sqrt(task) for at, task in enumerate(TASKS)}


@pytest.mark.usefixtures("eager")
def test_what_goes_wrong_in_a_helper_is_raised_here() -> None:
    with pytest.raises(ValueError, match="math domain"):
        list(on_cores(math.sqrt, [*TASKS, -1.0, *TASKS], 2))


@pytest.mark.usefixtures("eager")
def test_work_that_cannot_be_sent_is_done_here() -> None:
    found = dict(on_cores(lambda value: 2.0 * value, TASKS, 2))
    assert found == {at: 2.0 * task for at, task in enumerate(TASKS)}


@pytest.mark.usefixtures("eager")
def test_helpers_do_their_share() -> None:
    which = "(__import__('time').sleep(0.02), __import__('os').getpid())[1]"
    workers = [pid for _, pid in on_cores(eval, [which] * 300, 3)]
    assert os.getpid() in workers
    assert len(set(workers)) == 3


def test_little_work_calls_no_helper(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cores, "_together", None)
    assert done(2) == {at: math.sqrt(task) for at, task in enumerate(TASKS)}


@pytest.mark.usefixtures("eager")
@pytest.mark.parametrize("friction", ["none", "middle"])
def test_a_sweep_on_two_cores_is_the_same_to_the_last_bit(friction: str) -> None:
    rng = np.random.default_rng(3)
    count = 6000 if friction == "none" else 400
    vary = {"crank.radius": rng.uniform(0.04, 0.07, count)}
    told: list[int] = []
    one, two = (
        sweep(
            read_design(EXAMPLES / "larder-rack.toml"),
            vary,
            grid=False,
            friction=friction,
            cores=number,
            progress=lambda *so_far: told.append(so_far[0]),
        )
        for number in (1, 2)
    )
    np.testing.assert_array_equal(one.low, two.low)
    np.testing.assert_array_equal(one.peak, two.peak)
    np.testing.assert_array_equal(one.why, two.why)
    assert told[-1] == count
