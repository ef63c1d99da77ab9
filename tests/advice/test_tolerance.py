"""Tolerance: against builds made one by one with scipy, and against linear theory."""

import json
import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from scipy import optimize, stats

from tests.contracts.fitting import combinations, starter_with
from turnercalc import turners
from turnercalc.advice.tolerance import Judged, judge_build, read_half_known
from turnercalc.advice.tolerance.blocks import with_values
from turnercalc.advice.tolerance.builds import ends_with_play, peaks_at_once
from turnercalc.advice.tolerance.errors import normal
from turnercalc.advice.tolerance.friction import FITTED, LOOKED_AT, fit_friction
from turnercalc.advice.tolerance.goal import goal_of
from turnercalc.advice.tolerance.tally import Regression, Tally
from turnercalc.building import build
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design, read_design
from turnercalc.errors import TurnercalcError, UnitError, UnknownNameError
from turnercalc.handover.display import Style
from turnercalc.handover.tolerance_page import as_json, page, percent
from turnercalc.loads import peaks
from turnercalc.motors import read_motors
from turnercalc.sizing import size
from turnercalc.swing import ends_with, lengths, sensitivities
from turnercalc.tables import Range3

EXAMPLES = Path(__file__).parents[2] / "examples"
MARKED = ("arm.length", "crank.radius", "link.length", "crank.across", "crank.height")


@cache
def larder() -> Design:
    return read_design(EXAMPLES / "larder-rack.toml")


@cache
def judged(**settings: float) -> Judged:
    return judge_build(larder(), read_motors(EXAMPLES / "motors.csv"), count=4000, **settings)  # type: ignore[arg-type]


def drawn_lengths(count: int, seed: int = 5, mark: float = 1e-3) -> dict[str, np.ndarray]:
    rng = np.random.default_rng(seed)
    meant = lengths(build(larder()).turner, build(larder()).drive)
    return {path: meant[path] + mark / 1.96 * rng.standard_normal(count) for path in MARKED}


def ends_by_root_finding(arm: float, r: float, b: float, x: float, y: float) -> tuple[float, float]:
    """Return both ends: the pin on its circle at b, found by brentq at crank angles that scipy
    moves until the arm stands still. Nothing of the package is used.
    """

    def tilt(theta: float) -> float:
        ax, ay = x + r * math.cos(theta), y + r * math.sin(theta)

        def miss(q: float) -> float:
            return math.hypot(arm * math.cos(q) - ax, arm * math.sin(q) - ay) - b

        return float(optimize.brentq(miss, -1.4, 1.4, xtol=1e-14))

    found = []
    for sign in (1.0, -1.0):
        coarse = min(np.linspace(0, 2 * math.pi, 73), key=lambda t: sign * tilt(t))
        best = optimize.minimize_scalar(
            lambda t: sign * tilt(t),  # noqa: B023 - used at once
            bounds=(coarse - 0.1, coarse + 0.1),
            method="bounded",
            options={"xatol": 1e-9},
        )
        found.append(sign * float(best.fun))
    return found[0], found[1]


def test_ends_of_builds_are_those_of_root_finding() -> None:
    drawn = drawn_lengths(25)
    many = ends_with_play(build(larder()), drawn, [])
    for i in range(25):
        low, high = ends_by_root_finding(*(float(drawn[path][i]) for path in MARKED))
        assert many.low[i] == pytest.approx(low, abs=1e-9)
        assert many.high[i] == pytest.approx(high, abs=1e-9)


def test_play_is_like_an_error_of_the_link_at_either_end() -> None:
    drawn = drawn_lengths(5)
    rng = np.random.default_rng(3)
    at_low, at_high = (rng.uniform(-2e-4, 2e-4, 5) for _ in range(2))
    many = ends_with_play(build(larder()), drawn, [(at_low, at_high)])
    for i in range(5):
        values = {path: float(drawn[path][i]) for path in MARKED}
        link = values["link.length"]
        low, _ = ends_by_root_finding(*({**values, "link.length": link + at_low[i]}).values())
        _, high = ends_by_root_finding(*({**values, "link.length": link + at_high[i]}).values())
        assert (many.low[i], many.high[i]) == pytest.approx((low, high), abs=1e-9)


def test_peaks_of_builds_are_those_of_full_cycles() -> None:
    """Every build on its own through the whole cycle, friction and all, at errors of 3 mm."""
    built = build(larder())
    loads = [case for case in built.turner.load_cases() if case.family == "right rows only"]
    meant = dict(lengths(built.turner, built.drive))
    scale = dict.fromkeys(meant, 3e-3 / 1.96)
    tried = drawn_lengths(FITTED + LOOKED_AT, seed=11, mark=3e-3)
    fit = fit_friction(built, tried, meant, scale, loads, (0, 1))
    drawn = drawn_lengths(25, mark=3e-3)
    fast = peaks_at_once(built, drawn, loads, fit)
    off = []
    for i in range(25):
        one = build(larder().replace({path: float(drawn[path][i]) for path in MARKED}, si=True))
        cycle = turn_cycle(one.turner, one.drive, loads, levels=("middle",))
        full = peaks(cycle)[:, 0]
        off.append(fast[i].max() / full.max() - 1.0)
        np.testing.assert_allclose(fast[i].max(axis=0), full.max(axis=0), rtol=6e-3)
    told = float(np.sqrt(np.mean(np.square(off))))
    assert told < 2.0 * fit.error + 2e-4, "as near as is told"
    plain = peaks_at_once(built, drawn, loads, None).max(axis=(1, 2))
    assert np.std(fast.max(axis=(1, 2)) / plain) > fit.error, "the fit does something"


def test_friction_is_fitted_where_it_is_most_of_the_peak() -> None:
    """One tray on a slotted lever: with friction as drawn, builds would be off by percents."""
    design = read_design(EXAMPLES / "tool-cupboard-rack.toml", {"slot.off_line": "8 mm"})
    built = build(design)
    meant = dict(lengths(built.turner, built.drive))
    loads = [case for case in built.turner.load_cases() if case.planned][:2]
    rng = np.random.default_rng(3)
    tried, drawn = (
        {p: v + 3e-3 / 1.96 * rng.standard_normal(n) for p, v in meant.items()}
        for n in (FITTED + LOOKED_AT, 10)
    )
    fit = fit_friction(built, tried, meant, dict.fromkeys(meant, 3e-3 / 1.96), loads, (0, 1))
    fast = peaks_at_once(built, drawn, loads, fit)
    for i in range(10):
        one = build(design.replace({path: float(drawn[path][i]) for path in meant}, si=True))
        cycle = turn_cycle(one.turner, one.drive, loads, levels=("middle",))
        np.testing.assert_allclose(fast[i], peaks(cycle)[:, 0], rtol=6e-3)


def test_values_put_into_a_design_are_those_of_a_file_that_says_them() -> None:
    changes = {"trays.empty_weight": 0.700, "pivots.friction": Range3(0.2, 0.2, 0.2)}
    quick = build(with_values(larder(), changes))
    said = {"trays.empty_weight": "700 g", "pivots.friction": "0.2"}
    slow = build(larder().replace(said))
    loads = slow.turner.load_cases()[:2]
    one, other = (
        turn_cycle(b.turner, b.drive, loads, count=36).shaft_torque for b in (quick, slow)
    )
    np.testing.assert_allclose(one, other, rtol=1e-12)


def test_share_inside_is_that_of_builds_made_one_by_one() -> None:
    """400 builds of our own drawing with root finding; the shares agree within their errors."""
    found = judge_build(larder(), count=4000, marking=4e-3, seed=8)
    count, mark = 400, 4e-3
    rng = np.random.default_rng(99)
    meant = lengths(build(larder()).turner, build(larder()).drive)
    inside = 0
    for _ in range(count):
        values = {path: meant[path] + mark / 1.96 * rng.standard_normal() for path in MARKED}
        ends = []
        for end in (0, 1):
            loose = rng.uniform(-2e-4, 2e-4)
            shifted = {**values, "link.length": values["link.length"] + loose}
            ends.append(ends_in_closed_form(*shifted.values())[end])
        tilts = (-ends[0], ends[1])
        inside += math.radians(40) <= min(tilts) and max(tilts) <= math.radians(50)
    share = inside / count
    error = math.sqrt(share * (1 - share) / count)
    assert found.inside is not None
    assert found.inside_error is not None
    assert 0.3 < share < 0.95, "a share worth comparing"
    assert abs(found.inside - share) < 4 * math.hypot(error, found.inside_error)


def ends_in_closed_form(arm: float, r: float, b: float, x: float, y: float) -> tuple[float, float]:
    """Crank and link in line: the cosine rule in the triangle pivot, shaft, pin."""
    ground, direction = math.hypot(x, y), math.atan2(y, x)
    ends = [
        direction + math.acos((arm**2 + ground**2 - reach**2) / (2 * arm * ground))
        for reach in (b - r, b + r)
    ]
    return ends[0], ends[1]


def test_the_closed_form_of_this_test_is_that_of_its_root_finding() -> None:
    drawn = drawn_lengths(3)
    for i in range(3):
        values = [float(drawn[path][i]) for path in MARKED]
        assert ends_in_closed_form(*values) == pytest.approx(
            ends_by_root_finding(*values), abs=1e-8
        )


def test_small_errors_spread_the_ends_as_linear_theory_says() -> None:
    """The variance is the sum of (slope x deviation) squared; slopes by central differences."""
    found = judge_build(larder(), count=20000, marking=1e-4)
    built = build(larder())
    sigma = 1e-4 / 1.959964
    for end in ("low", "high"):
        parts = {
            s.field: (getattr(s, end) * sigma) ** 2
            for s in sensitivities(built.turner, built.drive)
        }
        link = next(s for s in sensitivities(built.turner, built.drive) if s.field == "link.length")
        play = (getattr(link, end) * 2e-4) ** 2 / 3
        total = sum(parts.values()) + play
        spread = getattr(found, end)
        assert spread.deviation == pytest.approx(math.sqrt(total), rel=0.03)
        for field, part in parts.items():
            assert spread.shares.get(field, 0.0) == pytest.approx(part / total, abs=0.02)
        assert spread.shares["link.pin_play"] == pytest.approx(play / total, abs=0.02)


def test_same_seed_same_answer_and_another_seed_another() -> None:
    again = judge_build(larder(), read_motors(EXAMPLES / "motors.csv"), count=4000)
    assert again.peak == judged().peak
    assert (again.inside, again.low) == (judged().inside, judged().low)
    assert judge_build(larder(), count=1000, seed=2).low != judge_build(larder(), count=1000).low


def test_two_seeds_agree_within_their_standard_errors() -> None:
    one, other = (judge_build(larder(), count=3000, seed=s, marking=4e-3) for s in (1, 2))
    assert one.inside is not None
    assert other.inside is not None
    error = math.hypot(one.inside_error or 0.0, other.inside_error or 0.0)
    assert abs(one.inside - other.inside) < 4.5 * error


def test_the_accuracy_told_gives_95_of_100() -> None:
    told = judge_build(larder(), count=2000, marking=4e-3).accuracy
    assert told is not None
    found = judge_build(larder(), count=8000, marking=told, seed=77).inside
    assert found == pytest.approx(0.95, abs=0.02)


def test_no_accuracy_helps_where_the_lengths_as_meant_are_at_a_limit() -> None:
    steep = read_design(EXAMPLES / "larder-rack.toml", {"crank.radius": "49.5 mm"})
    assert judge_build(steep, count=500).accuracy == 0.0


def test_a_half_known_number_matters_most_and_moves_the_middle() -> None:
    field, span = read_half_known(larder(), 'crank.radius="54 mm +/- 4 mm"')
    found = judge_build(larder(), count=2000, half_known={field: span})
    assert found.design["crank"].radius == pytest.approx(0.054)
    assert next(iter(found.low.shares)) == "crank.radius"
    assert found.low.shares["crank.radius"] > 0.8


def test_a_half_known_egg_floor_spreads_the_peak_but_not_the_ends() -> None:
    field, span = read_half_known(larder(), "trays.egg_floor=-35..5 mm")
    found = judge_build(larder(), count=2000, half_known={field: span})
    usual = judge_build(larder(), count=2000)
    assert found.low.deviation == usual.low.deviation
    assert found.peak.shares["trays.egg_floor"] > 0.1


def test_what_the_file_half_knows_is_drawn_and_a_setting_takes_it_out() -> None:
    told = read_design(EXAMPLES / "larder-rack.toml", {"crank.radius": "54 mm ± 4 mm"})
    field, span = read_half_known(larder(), "crank.radius=54 mm +/- 4 mm")
    one = judge_build(told, count=800)
    other = judge_build(larder(), count=800, half_known={field: span})
    assert one.low == other.low
    assert one.peak == other.peak
    known = judge_build(told.replace({"crank.radius": "54 mm"}), count=800)
    assert known.low.deviation < 0.5 * one.low.deviation


def test_half_known_places_are_read_in_the_words_of_the_file() -> None:
    field, span = read_half_known(larder(), 'crank.across="56 mm +/- 5 mm left of pivot"')
    assert (field, span) == ("crank.across", pytest.approx((-0.061, -0.051)))
    with pytest.raises(UnitError, match="could be -5 mm"):
        read_half_known(larder(), "crank.radius=35 mm +/- 40 mm")
    with pytest.raises(UnitError, match="outside what it may be"):
        read_half_known(larder(), "crank.radius=0..40 mm")


def test_a_box_that_may_lean_spreads_neither_end_but_the_share_inside() -> None:
    leaning = read_design(EXAMPLES / "larder-rack.toml", {"box.leans": "0 deg +/- 8 deg"})
    found, level = judge_build(leaning, count=4000), judge_build(larder(), count=4000)
    assert found.inside is not None
    assert level.inside is not None
    # 44.4 degrees to both sides, so that between 40 and 50 it may lean 4.4 either way: of 8
    assert found.inside == pytest.approx(4.4 / 8.0, abs=0.06)
    assert level.inside > 0.99


def test_wrong_words_are_answered() -> None:
    with pytest.raises(UnknownNameError, match=r"Nearest: crank\.radius"):
        read_half_known(larder(), "crank.radios=50 mm")
    with pytest.raises(UnitError, match="56 what"):
        read_half_known(larder(), "crank.radius=56")
    with pytest.raises(UnitError, match="says no number"):
        read_half_known(larder(), "trays.filled=in any order")
    short = read_design(EXAMPLES / "larder-rack.toml", {"link.length": "150 mm"})
    with pytest.raises(TurnercalcError, match="does not go through"):
        judge_build(short, count=100)


def test_shares_are_told_to_the_digits_that_are_known() -> None:
    assert percent(0.7252, 0.007) == "72.5 % (± 0.7)"
    assert percent(0.99995, 0.00005) == "99.995 % (± 0.005)"
    assert percent(1.0, 0.0016) == "100 % (± 0.2)"
    assert percent(0.99999) == "over 99.9 %"


def test_bell_curve_from_even_numbers() -> None:
    p = np.concatenate([np.linspace(1e-9, 1 - 1e-9, 2001), [1e-12, 1 - 1e-12]])
    np.testing.assert_allclose(normal(p), stats.norm.ppf(p), rtol=2e-9, atol=2e-9)


def test_tally_is_numpy_on_all_numbers() -> None:
    rng = np.random.default_rng(0)
    values = rng.gamma(3.0, 2.0, 50_000)
    tally = Tally()
    for block in np.array_split(values, 37):
        tally.add(block)
    assert tally.mean == pytest.approx(values.mean(), rel=1e-12)
    assert tally.deviation == pytest.approx(values.std(ddof=1), rel=1e-12)
    assert (tally.least, tally.most) == (values.min(), values.max())
    for share in (0.025, 0.5, 0.975):
        assert tally.quantile(share) == pytest.approx(np.quantile(values, share), rel=5e-3)


def test_quantiles_of_a_few_numbers_are_exact_however_they_come() -> None:
    values = np.random.default_rng(1).standard_normal(600)
    tally = Tally()
    for value in values:
        tally.add(np.array([value]))
    assert tally.quantile(0.025) == pytest.approx(np.quantile(values, 0.025), rel=1e-12)
    for value in np.random.default_rng(2).standard_normal(4000):
        tally.add(np.array([value]))
    assert tally.quantile(0.5) == pytest.approx(0.0, abs=0.08)


def test_regression_gives_the_shares_of_a_linear_sum() -> None:
    rng = np.random.default_rng(0)
    x = rng.standard_normal((40_000, 3)) * [1.0, 2.0, 0.5]
    regression = Regression(3)
    for block in np.array_split(x, 11):
        regression.add(block, 7.0 + block @ [1.0, 1.0, 4.0])
    np.testing.assert_allclose(regression.shares(), [1 / 9, 4 / 9, 4 / 9], atol=0.01)


@pytest.mark.parametrize("name", ["apple-crate-cradle", "seed-tray-grid", "potting-shed-rack"])
def test_what_takes_no_arrays_is_built_one_by_one(name: str) -> None:
    """A cradle that rolls, a grid that slides, a rod: the ends of every build are its own."""
    design = read_design(EXAMPLES / f"{name}.toml")
    built = build(design)
    meant = lengths(built.turner, built.drive)
    rng = np.random.default_rng(4)
    drawn = {path: value + 5e-4 * rng.standard_normal(3) for path, value in meant.items()}
    many = ends_with_play(built, drawn, [])
    for at in range(3):
        changes = {path: float(values[at]) - meant[path] for path, values in drawn.items()}
        one = ends_with(built.turner, built.drive, changes)
        assert many.low[at] == pytest.approx(one.low, abs=1e-9)
        assert many.high[at] == pytest.approx(one.high, abs=1e-9)
    found = judge_build(design, count=40)
    assert found.count == 40
    assert found.low.least <= found.low.nominal <= found.low.most
    assert found.peak.deviation > 0.0


@pytest.mark.parametrize("turner_drive", combinations(), ids=" with ".join)
def test_every_turner_with_every_drive_is_judged_or_told_why_not(
    turner_drive: tuple[str, str],
) -> None:
    """Starters on drives they were not drawn for: many do not go through, and one jams."""
    turner, drive = turner_drive
    design = starter_with(turners.kinds()[turner], drive)
    sizing = size(design)
    jams = sizing.cycle is not None and bool(np.isnan(peaks(sizing.cycle)[:, 1]).any())
    if sizing.cycle is None or jams:
        with pytest.raises(TurnercalcError, match=r"does not go through|Friction jams"):
            judge_build(design, count=30)
        return
    found = judge_build(design, count=30)
    assert found.goes_through > 0.5
    assert found.peak.low <= found.peak.mean <= found.peak.high
    assert found.turn is not None
    text = page(found, Style("metric"))
    assert max(len(line) for line in text.splitlines()) <= 80
    assert json.loads(as_json(found))["builds"] == 30


def test_a_design_that_friction_jams_is_told_so() -> None:
    tied_in_line = starter_with(turners.kinds()["tilting_trays"], "slotted_lever")
    with pytest.raises(TurnercalcError, match="Friction jams the design as meant"):
        judge_build(tied_in_line, count=30)


def test_shares_are_told_apart_with_few_builds_too() -> None:
    found = judge_build(larder(), count=400)
    assert sum(found.peak.shares.values()) < 1.6
    assert max(found.low.shares, key=lambda path: found.low.shares[path]) in MARKED


def test_nothing_is_marked_better_than_exactly() -> None:
    exact = judge_build(larder(), count=400, marking=0.0)
    assert exact.low.deviation < judge_build(larder(), count=400).low.deviation
    with pytest.raises(ValueError, match="0 or more"):
        judge_build(larder(), marking=-1e-3)


@pytest.mark.parametrize(
    ("asked", "least", "most"), [(45, 40, 50), (40, 40, 50), (38, 33, 50), (60, 40, 65)]
)
def test_a_build_is_right_by_the_limits_that_the_page_judges_by(
    asked: float, least: float, most: float
) -> None:
    """Only who asks for less or more than usual is judged by what was asked for."""
    goal = goal_of(size(larder().replace({"turning.tilt": f"{asked} deg each side"})))
    assert goal is not None
    assert np.degrees([goal.least, goal.most]) == pytest.approx([least, most])
