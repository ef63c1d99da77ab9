"""Every example of every turner and drive: drawn, listed, and true to its own motion."""

import numpy as np
import pytest

from turnercalc import turners
from turnercalc.advice.workshop import Plan
from turnercalc.handover.drawings.bundle import sheets_of, templates_of
from turnercalc.handover.drawings.marks import Circle, Label, Line
from turnercalc.handover.drawings.sheets import PAPERS
from turnercalc.parts.poses import poses
from turnercalc.parts.swept import swept
from turnercalc.sight import BAR, Sight

from .plans import EXAMPLES, plan_of

FILES = sorted(file.name for file in EXAMPLES.glob("*.toml"))
#: Sights that bend or whose ends belong to different parts.
NOT_RIGID = ("rod", "tube", "spring")


@pytest.fixture(params=FILES)
def plan(request: pytest.FixtureRequest) -> Plan:
    return plan_of(request.param)


def seen(plan: Plan) -> tuple[Sight, ...]:
    turner, drive = plan.sizing.turner, plan.sizing.drive
    motion = drive.close(turner.path(), drive.positions(turner.travel, 48))
    return poses(turner, drive, motion)


def test_there_is_an_example_for_every_way_of_turning() -> None:
    said = {plan_of(file).sizing.design.turner for file in FILES}
    assert said == set(turners.kinds())


def test_rigid_bars_keep_their_length_all_the_way(plan: Plan) -> None:
    bars = [s for s in seen(plan) if s.shape == BAR and s.name not in NOT_RIGID]
    for bar in bars:
        lengths = np.hypot(np.diff(bar.x, axis=0), np.diff(bar.y, axis=0))
        assert lengths == pytest.approx(np.broadcast_to(lengths[:, :1], lengths.shape)), bar.name


def test_everything_seen_is_somewhere(plan: Plan) -> None:
    for sight in seen(plan):
        assert np.isfinite(sight.x).all(), sight.name
        assert np.isfinite(sight.y).all(), sight.name


def test_every_hole_has_its_place(plan: Plan) -> None:
    for hole in plan.panel.holes:
        assert np.isfinite([hole.across, hole.up]).all()
        assert 0.0 <= hole.across <= plan.panel.width
    for piece in plan.made.pieces:
        assert piece.says
        assert piece.count >= 1
        assert np.isfinite([(hole.x, hole.y) for hole in piece.holes]).all()


def test_pins_that_are_drawn_are_where_the_holes_are_drilled(plan: Plan) -> None:
    """Shafts and pivots that stand still are among the fixed holes."""
    fixed = [(f.x, f.y) for f in plan.made.fixed]
    for sight in seen(plan):
        if sight.name in ("shaft", "pivot") and sight.stands_still:
            for x, y in zip(sight.x[:, 0], sight.y[:, 0], strict=True):
                away = [np.hypot(x - fx, y - fy) for fx, fy in fixed]
                assert min(away) < 1e-9, sight.name


def test_the_swept_outline_is_closed_and_holds_both_ends(plan: Plan) -> None:
    found = plan.sizing
    for x, y in swept(found.turner, (found.ends.low, found.ends.high), mesh=3e-3):
        assert (x[0], y[0]) == (x[-1], y[-1])


@pytest.mark.parametrize("paper", PAPERS)
def test_sheets_stay_on_their_paper(plan: Plan, paper: str) -> None:
    size = PAPERS[paper]
    for sheet in sheets_of(plan, paper=size):
        for mark in sheet.marks:
            assert isinstance(mark, Line | Circle | Label)
            for x, y in mark.corners:
                assert 5.0 <= x <= size.width - 5.0, (sheet.id, mark)
                assert 5.0 <= y <= size.height - 5.0, (sheet.id, mark)


def test_a_cradles_runner_is_cut_to_the_radius_and_width_of_the_file() -> None:
    """The file says: runner radius 6-5/16 in, 10-3/4 in straight across; marked in inches."""
    plan = plan_of("beach-cooler-cradle.toml", "us")
    drawing = next(d for d in templates_of(plan) if d.id == "runner")
    (edge,) = [m for m in drawing.marks if isinstance(m, Line) and m.part == "cut"]
    points = np.array(edge.points)
    arc = points[:-2]  # the last two are its straight top
    # the circle through three points of the arc, from the perpendiculars of two chords
    a, b, c = arc[0], arc[len(arc) // 2], arc[-1]
    middle = np.linalg.solve(
        2.0 * np.array([b - a, c - a]), np.array([b @ b - a @ a, c @ c - a @ a])
    )
    away = np.hypot(*(arc - middle).T)
    assert away == pytest.approx(np.full(len(arc), (6 + 5 / 16) * 25.4), abs=0.1)
    assert np.hypot(*(c - a)) == pytest.approx((10 + 3 / 4) * 25.4, abs=0.1)


@pytest.mark.parametrize("paper", PAPERS)
def test_no_sheet_is_empty(plan: Plan, paper: str) -> None:
    """A tile with nothing but register marks would be printed for nothing."""
    for sheet in sheets_of(plan, ("templates",), paper=PAPERS[paper]):
        lines = [mark for mark in sheet.marks if not isinstance(mark, Label)]
        assert any(mark.part == "cut" for mark in lines), sheet.id
