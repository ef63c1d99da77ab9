"""Drawings measured as they come out of the printer, mirrored, read back, and audited."""

import io
import re
import sys
import xml.etree.ElementTree as ET
from functools import cache

import ezdxf
import numpy as np
import pytest
from ezdxf import audit, units

from turnercalc.advice.workshop import Plan
from turnercalc.errors import OutputError
from turnercalc.handover import parts_list
from turnercalc.handover.display import Style
from turnercalc.handover.drawings import embedded, side_view
from turnercalc.handover.drawings.bundle import WHAT, files, sheets_of, templates_of
from turnercalc.handover.drawings.marks import Circle, Drawing, Label, Line
from turnercalc.handover.drawings.sheets import PAPERS, field
from turnercalc.handover.ends_words import ends_told
from turnercalc.swing import ends

from . import rendered
from .plans import plan_of

NEAR = 0.2  # mm on paper, what the printed page has to keep
PIVOT, PIN = 4.0, 3.0  # mm, radii of the holes for pins of 8 and 6 mm


@cache
def printed(what: str, paper: str = "a4", number: int = 0) -> np.ndarray:
    """Return a page of the example as it comes out of the printer."""
    return rendered.page(pdf_of(plan_of(), what, paper), number)


def pdf_of(plan: Plan, what: str, paper: str = "a4", *, behind: bool = False) -> bytes:
    found = files(plan, "pdf", [what], stem="x", paper=PAPERS[paper], behind=behind)
    (content,) = found.values()
    assert isinstance(content, bytes)
    return content


# --- printed at 300 dots an inch ----------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("what", ["side", "holes", "templates"])
def test_check_rulers_measure_what_they_say(paper: str, what: str) -> None:
    dark = printed(what, paper)
    foot = dark[int(dark.shape[0] * 0.85) :]
    lengths = {rendered.millimetres(n) for _, _, n in rendered.level_strokes(foot)}
    for wanted in (100.0, 4 * rendered.INCH):
        assert min(abs(length - wanted) for length in lengths) < NEAR, (wanted, lengths)


@pytest.mark.parametrize(
    ("paper", "width", "height"), [("a4", 210.0, 297.0), ("letter", 215.9, 279.4)]
)
def test_pages_are_as_large_as_their_paper(paper: str, width: float, height: float) -> None:
    """ISO 216 and ANSI/ASME Y14.1 sizes, from memory."""
    dark = printed("side", paper)
    assert rendered.millimetres(dark.shape[1]) == pytest.approx(width, abs=NEAR)
    assert rendered.millimetres(dark.shape[0]) == pytest.approx(height, abs=NEAR)


@pytest.mark.parametrize("paper", PAPERS)
def test_holes_of_crank_and_arm_are_as_far_apart_as_in_the_file(paper: str) -> None:
    """The file says: crank radius 56 mm, arm length 80 mm."""
    sheets = sheets_of(plan_of(), ["templates"], paper=PAPERS[paper])
    number = next(i for i, sheet in enumerate(sheets) if "arm" in sheet.id)
    assert "crank" in sheets[number].id
    dark = printed("templates", paper, number)
    pivot = rendered.rings(dark, PIVOT, 1)[0]
    shaft = rendered.rings(dark, 2.0, 1)[0]
    pins = rendered.rings(dark, PIN, 4)  # those of the link may stand on the sheet too
    arm = min(pins, key=lambda pin: abs(rendered.apart(pivot, pin) - 80.0))
    crank = min(pins, key=lambda pin: abs(rendered.apart(shaft, pin) - 56.0))
    assert rendered.apart(pivot, arm) == pytest.approx(80.0, abs=NEAR)
    assert rendered.apart(shaft, crank) == pytest.approx(56.0, abs=NEAR)
    assert rendered.apart(arm, crank) > 20.0  # not the same hole twice


def test_the_link_is_at_true_size_too() -> None:
    plan = plan_of(link__length="150 mm", crank__height="150 mm below pivot")
    content = pdf_of(plan, "templates")
    found = []
    for number, sheet in enumerate(sheets_of(plan, ["templates"])):
        if "link" in sheet.id:
            pins = rendered.rings(rendered.page(content, number), PIN, 4)
            found += [rendered.apart(a, b) for i, a in enumerate(pins) for b in pins[:i]]
    assert min(abs(length - 150.0) for length in found) < NEAR


def test_a_scaled_drawing_is_true_to_its_scale() -> None:
    """Pivots 140 mm apart in the file, drawn 1:5 or whatever the sheet says."""
    (sheet,) = sheets_of(plan_of(), ["holes"])
    said = next(m.text for m in sheet.marks if isinstance(m, Label) and "Scale" in m.text)
    scale = 1.0 / float(re.search(r"1:([\d.]+)", said)[1])  # type: ignore[index]
    dark = printed("holes")
    radius = max(scale * PIVOT, 0.8)
    places = rendered.rings(dark, radius, 4)
    places = places[np.argsort(places[:, 1])]  # from the top: pivots 3, 2, 1 and the shaft
    for upper, lower, across, up in (
        (0, 1, 0.0, 140.0),
        (1, 2, 0.0, 140.0),
        (2, 3, 56.0, 220.0),
    ):
        dx, dy = (rendered.millimetres(d) for d in places[lower] - places[upper])
        assert dx == pytest.approx(scale * across, abs=NEAR)
        assert dy == pytest.approx(scale * up, abs=NEAR)


# --- tiles --------------------------------------------------------------------------------------


def test_tiles_share_a_strip_and_their_crosses_lie_on_each_other() -> None:
    """The tie bar, 300 mm long: joined on the crosses its end holes are 280 mm apart."""
    plan = plan_of()
    sheets = [s for s in sheets_of(plan, ["templates"]) if s.id.startswith("tie_bar-")]
    assert [s.id for s in sheets] == ["tie_bar-A1", "tie_bar-B1"]
    squares = [
        sorted(
            m.points[0]
            for m in s.marks
            if isinstance(m, Line) and m.part == "register" and m.closed
        )
        for s in sheets
    ]
    shifts = {
        (round(a[0] - b[0], 6), round(a[1] - b[1], 6))
        for a, b in zip(squares[0], squares[1], strict=True)
    }
    (shift,) = shifts
    holes = [
        [(m.x, m.y) for m in s.marks if isinstance(m, Circle) and m.part == "holes"] for s in sheets
    ]
    joined = {(round(x, 3), round(y, 3)) for x, y in holes[0]}
    joined |= {(round(x + shift[0], 3), round(y + shift[1], 3)) for x, y in holes[1]}
    up = sorted(y for _, y in joined)
    assert np.diff(up) == pytest.approx([140.0, 140.0])


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
@pytest.mark.parametrize("system", ["metric", "us", "both"])
def test_nothing_is_drawn_beyond_the_paper(paper, system: str) -> None:  # type: ignore[no-untyped-def]
    room = field(paper)
    for sheet in sheets_of(plan_of(system=system), paper=paper, system=system):
        for mark in sheet.marks:
            for x, y in mark.corners:
                assert 9.9 <= x <= paper.width - 9.0, (sheet.id, mark)
                assert 9.0 <= y <= paper.height - 9.9, (sheet.id, mark)
        words = [m for m in sheet.marks if isinstance(m, Label)]
        foot = [m for m in words if m.y < room.low and m.x < 60.0]
        assert len({m.y for m in foot}) == len(foot)  # no two lines of the title on each other


def test_the_distance_of_shaft_and_pivots_is_on_no_template() -> None:
    plan = plan_of()
    names = {name for piece in plan.made.pieces if piece.template for name in (piece.id,)}
    assert names == {"crank", "link", "arm", "tie_bar"}
    for piece in plan.made.pieces:
        holes = {hole.name for hole in piece.holes}
        assert not ({"shaft"} & holes and {"pivot"} & holes)
    (sheet,) = sheets_of(plan, ["holes"])
    assert any(
        isinstance(m, Label) and "Never take the shaft's distance" in m.text for m in sheet.marks
    )
    assert "measure it out, never off paper" in parts_list.page(plan, Style())


# --- the other side -----------------------------------------------------------------------------


def holes_of(drawing: Drawing) -> list[tuple[float, float, float]]:
    return sorted(
        (round(m.x, 6), round(m.y, 6), m.radius)
        for m in drawing.marks
        if isinstance(m, Circle) and m.part == "holes"
    )


def test_a_slanting_arm_seen_from_behind_is_the_mirror_picture() -> None:
    plan = plan_of(arm__angle="25 deg")
    front, back = (
        next(d for d in templates_of(plan, behind=behind) if d.id == "arm")
        for behind in (False, True)
    )
    assert holes_of(back) == sorted((-x, y, r) for x, y, r in holes_of(front))
    # with the tray level the arm points right, and 25 degrees up, as seen from the door side
    (px, py, _), (ax, ay, _) = sorted(holes_of(front), key=lambda hole: -hole[2])
    assert np.degrees(np.arctan2(ay - py, ax - px)) == pytest.approx(25.0)
    told = [
        next(m.text for m in d.marks if isinstance(m, Label) and "face" in m.text)
        for d in (front, back)
    ]
    assert told == ["This face looks to the door side.", "This face looks away from the door side."]


def test_printed_from_both_sides_it_mirrors_in_pixels() -> None:
    plan = plan_of(arm__angle="25 deg")
    slants = []
    for behind in (False, True):
        content = pdf_of(plan, "templates", behind=behind)
        for number, sheet in enumerate(sheets_of(plan, ["templates"], behind=behind)):
            if "arm" in sheet.id:
                dark = rendered.page(content, number)
                pivot = rendered.rings(dark, PIVOT, 1)[0]
                pins = rendered.rings(dark, PIN, 3)
                pin = min(pins, key=lambda p: abs(rendered.apart(pivot, p) - 80.0))
                slants.append(pin - pivot)
    (right, down), (right_behind, down_behind) = slants
    assert rendered.millimetres(right + right_behind) == pytest.approx(0.0, abs=NEAR)
    assert rendered.millimetres(down - down_behind) == pytest.approx(0.0, abs=NEAR)
    assert rendered.millimetres(right) == pytest.approx(80.0 * np.cos(np.radians(25.0)), abs=NEAR)


def test_holes_from_behind_are_counted_from_the_same_wall() -> None:
    plan = plan_of()
    front, back = (
        files(plan, "svg", ["holes"], stem="x", behind=behind) for behind in (False, True)
    )
    for text in ("286 mm", "110 mm", "230 mm"):
        assert all(text in str(one["x-holes.svg"]) for one in (front, back))
    assert "seen from behind" in str(back["x-holes.svg"])


# --- printed sizes ------------------------------------------------------------------------------


@pytest.mark.parametrize("system", ["metric", "us", "both"])
@pytest.mark.parametrize(
    "settings",
    [{}, {"crank__radius": "55.3 mm", "arm__length": "79.4 mm", "link__length": "221.7 mm"}],
)
def test_printed_sizes_read_back_give_the_tilt_that_is_told(
    system: str, settings: dict[str, str]
) -> None:
    """Typed back into the design as they stand on the page."""
    plan = plan_of(system=system, **settings)
    rows = parts_list.dimension_rows(plan)[1:]
    said = {row[0].replace(" ", ".", 1).replace(" ", "_"): row[1] for row in rows}
    said = {path: re.sub(r" \([^)]*\)", "", text) for path, text in said.items()}
    assert set(said) == set(plan.marked.lengths) - set(plan.made.marked)
    before = plan.marked.before.design
    from turnercalc.building import build

    built = build(before.replace(said))
    found, told = ends(built.turner, built.drive), plan.sizing.ends
    page = ends_told(plan.sizing)
    left, right = (float(text) for text in re.findall(r"([\d.]+)°", page))
    for end, other, printed in ((found.high, told.high, left), (-found.low, -told.low, right)):
        assert np.degrees(end) == pytest.approx(np.degrees(other), abs=0.01)
        assert np.degrees(end) == pytest.approx(printed, abs=0.3)
    designed = plan.marked.before.ends
    worst = max(abs(found.high - designed.high), abs(found.low - designed.low))
    assert np.degrees(worst) < (0.3 if system != "us" else 0.5)


def test_the_holes_printed_on_the_drawing_give_the_motor_place_of_the_file() -> None:
    """Shaft 56 mm right of the lowest pivot and 220 mm below it, from the ordinates alone."""
    found = ET.fromstring(str(files(plan_of(), "svg", ["holes"], stem="x")["x-holes.svg"]))
    texts = [e.text or "" for e in found.iter("{http://www.w3.org/2000/svg}text")]
    figures = [float(t.removesuffix(" mm")) for t in texts if re.fullmatch(r"[\d.]+ mm", t)]
    assert sorted(figures) == [110.0, 230.0, 286.0, 330.0, 470.0, 610.0]


# --- files --------------------------------------------------------------------------------------


def test_dxf_is_read_back_without_errors() -> None:
    made = files(plan_of(), "dxf", ["side", "holes", "templates"], stem="x")
    assert {"x-side.dxf", "x-holes.dxf", "x-arm.dxf", "x-crank.dxf"} <= set(made)
    for name, text in made.items():
        document = ezdxf.read(io.StringIO(str(text)))
        found: audit.Auditor = document.audit()
        assert found.errors == [], name
        assert found.fixes == [], name
        assert document.units == units.MM


def test_dxf_holes_are_circles_at_true_size_on_the_cutting_layer() -> None:
    text = files(plan_of(), "dxf", ["templates"], stem="x")["x-arm.dxf"]
    space = ezdxf.read(io.StringIO(str(text))).modelspace()
    circles = [e for e in space.query("CIRCLE") if e.dxf.layer == "CUT"]
    assert sorted(e.dxf.radius for e in circles) == pytest.approx([3.0, 4.0])
    one, other = (np.array(e.dxf.center) for e in circles)
    assert np.hypot(*(one - other)[:2]) == pytest.approx(80.0)


def test_svg_sheets_are_well_formed_and_as_large_as_their_paper() -> None:
    made = files(plan_of(), "svg", stem="x", paper=PAPERS["letter"])
    for text in made.values():
        root = ET.fromstring(str(text))
        assert root.get("width") == "215.9mm"
        assert root.get("height") == "279.4mm"


def test_names_are_escaped() -> None:
    plan = plan_of(name='<b>"A & B"</b> $x$')
    for text in files(plan, "svg", stem="x").values():
        ET.fromstring(str(text))
    assert b"%PDF" in pdf_of(plan, "lists")
    ET.fromstring(embedded(side_view(plan.sizing)))


def test_embedded_pictures_say_what_they_show_and_load_nothing() -> None:
    text = embedded(side_view(plan_of().sizing), id_prefix="p1-")
    root = ET.fromstring(text)
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "p1-side-title p1-side-desc"
    assert "44.4° left side down" in text
    assert "href" not in text
    assert "url(" not in text
    classes = {e.get("class") for e in root.iter() if e.get("class")}
    assert {"tray", "egg", "arm", "tie-bar", "crank", "link", "swept", "box"} <= classes


def test_the_same_plan_gives_the_same_bytes() -> None:
    one, other = (files(plan_of(), "pdf", ["holes"], stem="x") for _ in (0, 1))
    assert one == other


def test_black_and_white_only() -> None:
    for sheet in sheets_of(plan_of()):
        for mark in sheet.marks:
            fill = "" if isinstance(mark, Label) else mark.fill
            # white is the paper, behind figures that lie on other lines
            assert fill in ("", "#000000", "#8a8a8a", "#ffffff")


def test_without_ezdxf_it_is_said_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(OutputError, match=r"pip install 'turnercalc\[dxf\]'"):
        files(plan_of(), "dxf", ["holes"], stem="x")


def test_lists_alone_are_no_dxf() -> None:
    with pytest.raises(OutputError, match=r"write them as \.pdf or \.svg"):
        files(plan_of(), "dxf", ["lists"], stem="x")


def test_a_design_that_does_not_close_is_drawn_as_far_as_it_goes() -> None:
    plan = plan_of(link__length="150 mm")
    assert plan.dimensions == ()
    assert "53.0 mm too short" in " ".join(parts_list.page(plan, Style()).split())
    assert [sheet.id for sheet in sheets_of(plan, ["side", "holes"])] == ["side", "holes"]


@pytest.mark.parametrize("what", WHAT)
def test_every_part_is_drawn_alone(what: str) -> None:
    assert sheets_of(plan_of(), [what])
