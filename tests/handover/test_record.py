"""The JSON record: its rules hold for every kind of answer."""

import json
import math
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from turnercalc.handover import record, screen
from turnercalc.handover.display import Style
from turnercalc.handover.numbers import rounded

from .conftest import CASES, Case

GetCase = Callable[[str], Case]

#: Ends of keys that carry a unit, and so must hold a number (or a range, a list, null).
UNITS = {
    "mm", "kg", "N", "Nm", "deg", "s", "rpm", "W", "degC", "g0", "Hz", "V", "A",
    "deg_per_s", "mm_per_s",
}  # fmt: skip

#: Keys of the first release. Within a format number keys are only added, so this only grows.
TOP = {
    "format", "made_with", "design", "verdict", "reason", "best_change", "other_changes",
    "shopping", "tilt", "linkage", "gearing", "loads", "better_direction", "motion", "timer",
    "chosen_motor", "motors", "findings", "sensitivity", "assumed", "unknown", "notes", "exit_code",
}  # fmt: skip
LOAD = {
    "id", "name", "family", "planned", "egg_count", "egg_mass_kg", "peak_load_torque_Nm",
    "peak_shaft_torque_Nm", "peak_at_tilt_deg", "starting_shaft_torque_Nm", "link_force_min_N",
    "link_force_max_N",
}  # fmt: skip
MOTOR = {
    "id", "row", "chosen", "motor_class", "verdict", "times_enough", "corner",
    "dependable_torque_Nm", "dependable_from", "rated_torque_Nm", "stall_torque_Nm",
    "holding_torque_Nm", "free_speed_rpm", "holds_when_off", "average_heat_in_box_W", "findings",
}  # fmt: skip
TILT = {
    "left_down_deg", "right_down_deg", "total_deg", "wanted_each_side_deg", "as_built_min_deg",
    "as_built_max_deg", "play_deg",
}  # fmt: skip
LINKAGE = {
    "closes", "kind", "branch", "min_link_to_arm_deg", "time_ratio", "rest_points_crank_deg",
    "crank_radius_mm", "link_length_mm", "arm_length_mm", "crank_across_mm", "crank_height_mm",
}  # fmt: skip
MOTION = {
    "turns_per_day", "egg_turn_deg", "move_time_s", "peak_speed_deg_per_s",
    "peak_egg_acceleration_g0", "knock_acceleration_g0", "share_of_day_beyond_40deg",
}  # fmt: skip
TIMER = {"interval_s", "stopped_by", "give_up_after_s", "count_day_7", "count_last_day"}
SHOPPING = {
    "rated_torque_min_Nm", "speed_min_rpm", "speed_max_rpm", "mains_frequency_Hz",
    "must_hold_when_off", "motor_classes",
}  # fmt: skip


def read(case: Case, **options: Any) -> dict[str, Any]:
    def refuse(word: str) -> None:
        raise AssertionError(word)

    found = json.loads(record.as_json(case.sizing, case.advice, **options), parse_constant=refuse)
    assert isinstance(found, dict)
    return found


def leaves(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            yield from leaves(inner, (*path, str(number)))
    else:
        yield path, value


@pytest.mark.parametrize("name", CASES)
def test_it_is_read_back_and_no_number_is_infinite(case: GetCase, name: str) -> None:
    for path, value in leaves(read(case(name), with_cycle=True)):
        assert not isinstance(value, float) or math.isfinite(value), path


@pytest.mark.parametrize("name", CASES)
def test_every_null_is_listed_with_its_reason(case: GetCase, name: str) -> None:
    found = read(case(name))
    listed = {gap["field"] for gap in found["unknown"]}
    assert all(gap["why"] for gap in found["unknown"])
    for path, value in leaves(found):
        if value is not None:
            continue
        if path[0] == "motors":
            assert path[2] in found["motors"][int(path[1])]["not_listed"], path
            continue
        keys = [key for key in path if not key.isdigit()]
        if path[0] == "loads":
            keys = ["load", found["loads"][int(path[1])]["id"], *path[2:]]
        if path[0] == "other_changes":
            keys = ["change", found["other_changes"][int(path[1])]["id"], *path[2:]]
        if path[0] == "best_change" and len(path) > 1:
            keys = ["change", found["best_change"]["id"], *path[1:]]
        if path[0] == "findings":
            keys = ["finding", found["findings"][int(path[1])]["id"]]
        assert " ".join(keys) in listed, path


@pytest.mark.parametrize("name", CASES)
def test_a_key_that_ends_in_a_unit_holds_figures(case: GetCase, name: str) -> None:
    for path, value in leaves(read(case(name), with_cycle=True)):
        keys = [key for key in path if not key.isdigit()]
        held = any(re.search(rf"_({'|'.join(UNITS)})$", key) for key in keys)
        if held and "not_listed" not in keys and "set" not in keys:
            assert value is None or isinstance(value, int | float), path
            assert not isinstance(value, bool), path


def test_the_keys_of_the_first_release_are_there(case: GetCase) -> None:
    found = read(case("as it is"))
    assert found["format"] == "turnercalc-sizing/1"
    assert set(found) >= TOP
    assert all(set(load) >= LOAD for load in found["loads"])
    assert all(set(motor) >= MOTOR for motor in found["motors"])
    for name, keys in (
        ("tilt", TILT), ("linkage", LINKAGE), ("motion", MOTION), ("timer", TIMER),
        ("shopping", SHOPPING),
        ("gearing", {"gear_ratio", "gear_ratio_range_needed", "efficiency"}),
        ("design", {"file", "name", "turner", "drive", "drawn_from"}),
        ("reason", {"check", "load", "text"}),
        ("best_change", {"id", "set", "text", "verdict_after", "times_enough_after",
                         "peak_shaft_torque_after_Nm"}),
    ):  # fmt: skip
        assert keys <= set(found[name]), name


def test_the_figures_are_those_of_the_result(case: GetCase) -> None:
    sizing = case("as it is").sizing
    found = read(case("as it is"))
    assert sizing.cycle is not None
    assert sizing.chosen is not None
    assert sizing.demand is not None
    assert found["tilt"]["left_down_deg"] == pytest.approx(math.degrees(sizing.ends.high), rel=1e-5)
    assert found["tilt"]["right_down_deg"] == pytest.approx(
        -math.degrees(sizing.ends.low), rel=1e-5
    )
    for load, record_ in enumerate(found["loads"]):
        peaks = record_["peak_shaft_torque_Nm"]
        for direction, word in enumerate(("anticlockwise", "clockwise")):
            for row, level in enumerate(sizing.cycle.levels):
                wanted = sizing.cycle.shaft_torque[load, row, direction].max()
                assert peaks[word][level] == pytest.approx(wanted, rel=1e-5)
    # times enough is dependable torque over the hardest planned motor torque, charged once
    chosen = next(motor for motor in found["motors"] if motor["chosen"])
    hardest = sizing.demand.hardest(sizing.chosen.directions, sizing.chosen.line.free_speed)[0]  # type: ignore[union-attr]
    assert chosen["times_enough"] == pytest.approx(
        chosen["dependable_torque_Nm"] / hardest, rel=1e-3
    )


def test_ids_are_unique(case: GetCase) -> None:
    found = read(case("as it is"))
    for name in ("loads", "motors", "findings"):
        ids = [entry["id"] for entry in found[name]]
        assert len(ids) == len(set(ids)), name


def test_the_screen_says_the_same_figures(case: GetCase) -> None:
    found = read(case("as it is"))
    text = screen.page(*case("as it is"), screen.Files("a.toml"), Style())
    tilt = found["tilt"]
    assert (
        f"{tilt['left_down_deg']:.1f}° left down, {tilt['right_down_deg']:.1f}° right down, "
        f"{tilt['total_deg']:.1f}° in all"
    ) in text
    chosen = next(motor for motor in found["motors"] if motor["chosen"])
    assert f"{chosen['times_enough']:.1f} times" in text
    assert f"{found['timer']['count_day_7']} after 7 days" in text


@pytest.mark.parametrize(
    ("name", "strict", "code"),
    [
        ("with a chain", False, 0),
        ("with a chain", True, 0),
        ("as it is", False, 0),
        ("as it is", True, 1),
        ("too tight", False, 1),
        ("too tight", True, 1),
    ],
)
def test_exit_codes(case: GetCase, name: str, strict: bool, code: int) -> None:
    assert read(case(name), strict=strict)["exit_code"] == code
    assert record.exit_code(case(name).sizing, strict=strict) == code


def test_findings_point_at_the_lines_that_decide_them(case: GetCase) -> None:
    sizing = case("as it is").sizing
    for finding in read(case("as it is"))["findings"]:
        lines = [sizing.design.line(field) for field in finding["fields"]]
        assert finding["lines"] == [line for line in lines if line is not None]


def test_the_cycles_are_equally_long_arrays(case: GetCase) -> None:
    sizing = case("as it is").sizing
    found = read(case("as it is"), with_cycle=True)
    assert sizing.cycle is not None
    assert len(found["cycles"]) == 2 * len(sizing.cycle.loads)
    for cycle in found["cycles"]:
        arrays = {key: value for key, value in cycle.items() if isinstance(value, list)}
        assert set(arrays) >= {
            "crank_angle_deg", "tilt_deg", "tilt_per_crank", "load_torque_Nm", "shaft_torque_Nm",
            "link_force_N", "link_to_arm_deg",
        }  # fmt: skip
        assert {len(array) for array in arrays.values()} == {360}


@pytest.mark.parametrize(
    ("value", "result"),
    [
        (1.23456789, 1.23457),
        (-0.000123456789, -0.000123457),
        (123456789.0, 123457000.0),
        (0.0, 0.0),
        (float("nan"), None),
        (float("inf"), None),
        (None, None),
    ],
)
def test_numbers_keep_six_digits_and_what_is_no_number_is_null(
    value: float | None, result: float | None
) -> None:
    assert rounded(value) == result
