"""What can be changed about a cradle: every change, re-run with its settings, keeps its word."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc.advice import Advice, advise
from turnercalc.advice.best_change import peak, times_enough
from turnercalc.advice.moves import (
    Proposal,
    cradle_eye,
    cradle_height,
    cradle_shaft,
    mirror_pairs,
    proposals,
    runner_radius,
    runner_rubber,
    runner_straps,
    runner_width,
)
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[2] / "examples"
CRATE, COOLER, CHEST = "apple-crate-cradle", "beach-cooler-cradle", "linen-chest-arc"
MOTORS = {CRATE: "motors.csv", COOLER: "actuators.csv", CHEST: "motors.csv"}
Settings = tuple[tuple[str, str | None], ...]

WOOD = ("cradle.runners", "plywood on plywood")
TROUBLES: dict[str, tuple[str, Settings]] = {
    "runners that slide": (CRATE, (WOOD,)),
    "uneven ends": (CRATE, (("link.length", "440 mm"),)),
    "a link too short": (CRATE, (("link.length", "350 mm"),)),
    "a weak motor": (CRATE, (("motor.have", "worm 12"),)),
    "runners too narrow": (CRATE, (("cradle.runner_width", "215 mm"),)),
    "an arc too narrow": (CHEST, (("cradle.runner_width", "290 mm"),)),
    "an arc in any order": (
        CHEST,
        (("cradle.filled", "in any order"), ("motor.have", "worm 12")),
    ),
    "no straps": (COOLER, (("cradle.straps", "none"),)),
    "an eye too low": (COOLER, (("actuator.eye_height", "1 in above contact"),)),
}


@cache
def motors(name: str) -> MotorFile:
    return read_motors(EXAMPLES / MOTORS[name])


@cache
def sized(name: str, settings: Settings = ()) -> Sizing:
    design = read_design(EXAMPLES / f"{name}.toml", dict(settings))
    return size(design, motors(name))


@cache
def advised(trouble: str) -> Advice:
    name, settings = TROUBLES[trouble]
    return advise(sized(name, settings), motors(name))


@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_change_delivers_what_it_promises_when_re_run(trouble: str) -> None:
    name, settings = TROUBLES[trouble]
    before = sized(name, settings)
    changes = advised(trouble).changes
    assert before.verdict is not Answer.FINE
    assert changes
    for change in changes:
        design = before.design.replace(dict(change.settings))
        again = size(design, motors(name))
        assert again.verdict is change.verdict_after
        assert peak(again) == pytest.approx(change.peak_after, rel=1e-9)
        assert times_enough(again) == pytest.approx(change.times_enough_after, rel=1e-9)


@pytest.mark.parametrize(
    ("trouble", "expected"),
    [
        ("runners that slide", "crossed_straps"),
        ("uneven ends", "even_ends"),
        ("a weak motor", "add_stage"),
        ("runners too narrow", "wider_runners"),
        ("an arc too narrow", "wider_runners"),
        ("no straps", "crossed_straps"),
        ("an eye too low", "fixed_eye"),
    ],
)
def test_what_is_wrong_is_what_gets_changed(trouble: str, expected: str) -> None:
    assert expected in {change.id for change in advised(trouble).changes}


@pytest.mark.parametrize("name", MOTORS)
def test_all_that_is_said_is_in_a_cradles_own_words(name: str) -> None:
    for proposal in proposals(sized(name)):
        assert "pivot" not in f"{proposal.say} {' '.join(proposal.settings.values())}"


def ids(found: list[Proposal]) -> set[str]:
    return {proposal.id for proposal in found}


def test_rubber_is_offered_only_where_it_grips_better() -> None:
    assert not list(runner_rubber.propose(sized(CRATE)))
    assert not list(runner_rubber.propose(sized(CHEST)))
    (found,) = runner_rubber.propose(sized(CRATE, (WOOD,)))
    assert found.settings == {"cradle.runners": "rubber on wood"}
    measured = sized(CRATE, (WOOD, ("cradle.grip", "0.2 to 0.3")))
    (found,) = runner_rubber.propose(measured)
    again = measured.design.replace(dict(found.settings))
    assert again["cradle"].grip.low == 0.5


def test_straps_are_offered_once_and_only_on_a_floor() -> None:
    assert ids(list(runner_straps.propose(sized(CRATE)))) == {"crossed_straps"}
    assert not list(runner_straps.propose(sized(COOLER)))
    assert not list(runner_straps.propose(sized(CHEST)))


@pytest.mark.parametrize("name", [CRATE, CHEST])
def test_other_radii_come_with_a_crank_and_a_link_for_the_same_tilt(name: str) -> None:
    before = sized(name)
    found = list(runner_radius.propose(before))
    assert found
    for proposal in found:
        after = size(before.design.replace(dict(proposal.settings)))
        if not np.isfinite(after.ends.total):
            continue  # said so by the sizing, and no advice
        tilt = np.degrees([-after.ends.low, after.ends.high])
        assert tilt == pytest.approx([45.0, 45.0], abs=0.5)
        spare = after.turner.spare_arc(after.ends.low, after.ends.high)  # type: ignore[attr-defined]
        assert min(spare) >= 0.005


@pytest.mark.parametrize("name", [CRATE, CHEST])
def test_every_place_for_the_shaft_turns_to_both_sides_alike_and_fits(name: str) -> None:
    before = sized(name)
    found = [p for p in cradle_shaft.propose(before) if p.id == "move_shaft"]
    assert found
    for proposal in found:
        after = size(before.design.replace(dict(proposal.settings)))
        assert np.degrees([-after.ends.low, after.ends.high]) == pytest.approx([45.0] * 2, abs=0.5)
        assert after.clearances is not None
        assert after.clearances.drive is not None
        assert min(after.clearances.drive.known) > -1e-3


def test_every_place_for_the_eye_is_in_reach_of_the_stroke() -> None:
    before = sized(COOLER)
    found = list(cradle_eye.propose(before))
    assert found
    for proposal in found:
        after = size(before.design.replace(dict(proposal.settings)))
        assert after.closing.closes
        assert np.degrees([-after.ends.low, after.ends.high]) == pytest.approx([45.0] * 2, abs=0.1)


def test_a_higher_tray_brings_the_eggs_nearer_to_the_arcs_middle() -> None:
    before = sized(CRATE)
    peaks = {}
    for proposal in cradle_height.propose(before):
        after = size(before.design.replace(dict(proposal.settings)))
        peaks[after.design["cradle"].egg_floor] = peak(after)
    heights = sorted(peaks)
    assert [peaks[h] for h in heights] == sorted(peaks.values(), reverse=True)


def test_wider_runners_are_offered_only_where_they_are_too_narrow() -> None:
    assert not list(runner_width.propose(sized(CRATE)))
    narrow = sized(CRATE, (("cradle.runner_width", "215 mm"),))
    (found,) = runner_width.propose(narrow)
    after = size(narrow.design.replace(dict(found.settings)))
    spare = after.turner.spare_arc(after.ends.low, after.ends.high)  # type: ignore[attr-defined]
    assert min(spare) == pytest.approx(0.010, abs=0.001)


def test_mirror_pairs_are_promised_about_the_contact() -> None:
    (found,) = mirror_pairs.propose(sized(CRATE))
    assert found.settings == {"cradle.filled": "in mirror pairs"}
    assert found.say == "Fill and empty rows in mirror pairs about the level contact."
    assert not list(mirror_pairs.propose(sized(CHEST)))
