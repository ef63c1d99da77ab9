"""The one-page report in a real browser: the distribution's Chromium, driven by playwright.

Accessibility is judged by axe-core, from the npm registry; ``.ci/run`` installs both. Where they
are not there these tests are left out and say so.
"""

import json
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from turnercalc.advice import advise
from turnercalc.design import read_design
from turnercalc.handover.display import Style
from turnercalc.handover.page import sheet
from turnercalc.motors import read_motors
from turnercalc.parts.frames import frames
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[2] / "examples"
AXE = Path(os.environ.get("AXE_CORE", "/nowhere"))
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

needs_browser = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine")


def made(*settings: tuple[str, str]) -> tuple[Sizing, str]:
    motors = read_motors(EXAMPLES / "motors.csv")
    sizing = size(read_design(EXAMPLES / "larder-rack.toml", dict(settings)), motors)
    return sizing, sheet(sizing, advise(sizing, motors), Style())


@pytest.fixture(scope="module")
def rack() -> tuple[Sizing, str]:
    return made()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    api = pytest.importorskip("playwright.sync_api")
    with api.sync_playwright() as play:
        found = play.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--disable-background-networking"]
        )
        yield found
        found.close()


class Opened:
    """A page in the browser, with everything it complained about or asked for."""

    def __init__(self, browser: Any, html: str, folder: Path, **context: Any) -> None:
        self.file = folder / "sheet.html"
        self.file.write_text(html, encoding="utf-8")
        self.troubles: list[str] = []
        self.requests: list[str] = []
        self.page = browser.new_context(**context).new_page()
        self.page.on("console", lambda message: self.troubles.append(message.text))
        self.page.on("pageerror", lambda error: self.troubles.append(str(error)))
        self.page.on("request", lambda request: self.requests.append(request.url))
        self.page.goto(self.file.as_uri())


@pytest.fixture
def opened(browser: Any, rack: tuple[Sizing, str], tmp_path: Path) -> Opened:
    return Opened(browser, rack[1], tmp_path, viewport={"width": 1200, "height": 900})


# -- without a browser ---------------------------------------------------------------------------


def test_the_page_is_one_file(rack: tuple[Sizing, str]) -> None:
    html = rack[1]
    assert "MARGINAL" in html
    # Nothing is loaded: every src carries its data, and there is no link, import or address.
    assert all(one.startswith("data:") for one in re.findall(r'src="([^"]*)"', html))
    assert "<link" not in html
    assert not re.search(r"url\(|@import|https?://(?!www\.w3\.org/)", html)


def test_what_users_write_is_escaped() -> None:
    evil = "<script>alert(1)</script> & \"quotes\" 'too'"
    table = "id,what,speed,torque,torque is,supply\n"
    motors = read_motors(f"{table}{evil[:25]},worm gear motor,5 rpm,4 N.m,rated,12 V")
    text = (EXAMPLES / "larder-rack.toml").read_text(encoding="utf-8")
    name = next(line for line in text.splitlines() if line.startswith("name"))
    design = read_design(text.replace(name, f"name = {json.dumps(evil)}"), {"motor.have": None})
    sizing = size(design, motors)
    html = sheet(sizing, advise(sizing, motors), Style())
    assert "<script>alert" not in html
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html


def test_frames_stand_where_the_turner_stands(rack: tuple[Sizing, str]) -> None:
    sizing = rack[0]
    assert sizing.cycle is not None
    found = frames(sizing.turner, sizing.drive, sizing.cycle)
    coordinate = sizing.cycle.motion.coordinate[found.indices]
    assert coordinate[found.high_end] == np.max(sizing.cycle.motion.coordinate)
    tray = next(part for part in found.moving if part.sight.name == "tray")
    assert tray.place is not None
    turned = np.unwrap(np.angle(tray.place.turn))
    assert turned - turned[0] == pytest.approx(coordinate - coordinate[0], abs=1e-9)
    # Every rigid part, from any frame, comes back to its own points: checked point by point.
    for part in found.moving:
        if part.place is None:
            continue
        z = part.sight.x + 1j * part.sight.y
        placed = part.place.seen_from(7)
        first = np.where(placed.mirrored, np.conj(z[:, 7:8]), z[:, 7:8])
        assert np.abs(placed.turn * first + placed.shift - z).max() < 2.1e-5


def test_a_design_that_does_not_close_has_a_page_that_stands_still() -> None:
    _, html = made(("link.length", "150 mm"))
    assert "too short" in html
    assert 'id="controls"' not in html
    assert "<script>" not in html


# -- in the browser ------------------------------------------------------------------------------


@needs_browser
def test_it_opens_without_complaint_and_asks_for_nothing(opened: Opened) -> None:
    opened.page.click("#play")
    opened.page.wait_for_timeout(400)
    assert opened.troubles == []
    assert opened.requests == [opened.file.as_uri()]


@needs_browser
@pytest.mark.parametrize("frame", [0, 20, 90, 133, 180])
def test_the_picture_matches_the_pose_to_a_pixel(
    opened: Opened, rack: tuple[Sizing, str], frame: int
) -> None:
    sizing = rack[0]
    assert sizing.cycle is not None
    found = frames(sizing.turner, sizing.drive, sizing.cycle)
    angle = float(sizing.cycle.motion.position[found.indices[frame]])
    path, motion = sizing.turner.path(), sizing.cycle.motion
    # The crank's pin by its own circle, the arm's pin by the path of the turner.
    crank = sizing.design["crank"]
    pins = [
        (
            crank.across + crank.radius * np.cos(angle),
            crank.height + crank.radius * np.sin(angle),
        ),
        tuple(float(v) for v in path.point(motion.coordinate[found.indices[frame]])),
    ]
    shown = opened.page.evaluate(
        """([k, pins]) => {
          const scrub = document.getElementById("scrub");
          scrub.value = k; scrub.dispatchEvent(new Event("input"));
          const svg = document.querySelector(".picture svg");
          const matrix = svg.getScreenCTM();
          const wanted = pins.map(([x, y]) => new DOMPoint(x, -y).matrixTransform(matrix));
          const seen = Array.from(svg.querySelectorAll("circle.moving-pin")).map((circle) => {
            const box = circle.getBoundingClientRect();
            return [box.x + box.width / 2, box.y + box.height / 2];
          });
          return [wanted.map((p) => [p.x, p.y]), seen];
        }""",
        [frame, [[1e3 * x, 1e3 * y] for x, y in pins]],
    )
    wanted, seen = (np.asarray(points) for points in shown)
    for point in wanted:
        assert np.hypot(*(seen - point).T).min() < 1.0


@needs_browser
def test_play_pause_scrub_and_step_by_keyboard(opened: Opened) -> None:
    page = opened.page
    page.focus("#play")
    page.keyboard.press("Enter")
    assert page.inner_text("#play") == "Pause"
    page.wait_for_timeout(500)
    page.keyboard.press("Enter")
    assert page.inner_text("#play") == "Play"
    assert page.input_value("#scrub") != str(json.loads(page.inner_text("#motion"))["ends"][0])
    page.focus("#end-1")
    page.keyboard.press("Space")
    end = page.input_value("#scrub")
    assert "right side down" in page.inner_text("#reading")
    page.focus("#scrub")
    page.keyboard.press("ArrowRight")
    assert int(page.input_value("#scrub")) == int(end) + 1


@needs_browser
def test_load_and_direction_move_the_line_and_the_reading(opened: Opened) -> None:
    page = opened.page
    before = page.get_attribute("#torque-line", "d"), page.inner_text("#reading")
    page.select_option("#load", label="all trays empty")
    empty = page.get_attribute("#torque-line", "d")
    assert empty != before[0]
    page.select_option("#way", "1")
    assert page.get_attribute("#torque-line", "d") != empty
    assert "all trays empty, clockwise" in page.inner_text("#shown-load")


@needs_browser
@pytest.mark.parametrize("width", [360, 1200])
def test_nothing_is_wider_than_the_screen(
    browser: Any, rack: tuple[Sizing, str], tmp_path: Path, width: int
) -> None:
    view = Opened(browser, rack[1], tmp_path, viewport={"width": width, "height": 800})
    assert view.page.evaluate("document.documentElement.scrollWidth") <= width


@needs_browser
@pytest.mark.parametrize("width", [390, 1200])
def test_an_accessibility_engine_finds_nothing(
    browser: Any, rack: tuple[Sizing, str], tmp_path: Path, width: int
) -> None:
    if not AXE.is_file():
        pytest.skip("AXE_CORE does not name axe.min.js")
    # Scripts from outside are refused by the page itself; the engine is let in for this test.
    view = Opened(
        browser, rack[1], tmp_path, viewport={"width": width, "height": 900}, bypass_csp=True
    )
    view.page.add_script_tag(path=str(AXE))
    found = view.page.evaluate("axe.run().then((result) => result.violations)")
    assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found] == []


@needs_browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints_on_two_sheets_at_most(opened: Opened, tmp_path: Path, paper: str) -> None:
    target = tmp_path / "sheet.pdf"
    opened.page.pdf(path=str(target), format=paper)
    pages = re.findall(rb"/Type\s*/Page(?![s\w])", target.read_bytes())
    assert 1 <= len(pages) <= 2
    if shutil.which("pdfinfo"):
        told = subprocess.run(["pdfinfo", str(target)], capture_output=True, text=True, check=True)
        assert f"Pages:           {len(pages)}" in told.stdout


@needs_browser
def test_without_javascript_it_is_a_still_page(
    browser: Any, rack: tuple[Sizing, str], tmp_path: Path
) -> None:
    view = Opened(browser, rack[1], tmp_path, java_script_enabled=False)
    assert view.page.is_hidden("#controls")
    assert view.page.locator(".picture svg .moving-tray").count() == 3
    assert view.page.is_visible("#torque-line")
    assert "stands still" in view.page.inner_text("noscript")


# -- every example -------------------------------------------------------------------------------

DESIGNS = sorted(path.stem for path in EXAMPLES.glob("*.toml"))
MOTORS = {"potting-shed-rack": "actuators.csv", "beach-cooler-cradle": "actuators.csv"}


@needs_browser
@pytest.mark.parametrize("name", DESIGNS)
def test_the_page_of_every_example_opens_fits_a_phone_and_prints(
    browser: Any, tmp_path: Path, name: str
) -> None:
    motors = read_motors(EXAMPLES / MOTORS.get(name, "motors.csv"))
    sizing = size(read_design(EXAMPLES / f"{name}.toml"), motors)
    html = sheet(sizing, advise(sizing, motors), Style())
    view = Opened(
        browser, html, tmp_path, viewport={"width": 360, "height": 800}, bypass_csp=AXE.is_file()
    )
    view.page.click("#play")
    view.page.wait_for_timeout(200)
    view.page.click("#play")
    assert view.page.evaluate("document.documentElement.scrollWidth") <= 360
    if AXE.is_file():
        view.page.add_script_tag(path=str(AXE))
        found = view.page.evaluate("axe.run().then((result) => result.violations)")
        assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found] == []
    assert view.troubles == []
    printed = view.page.pdf(format="A4")
    assert 1 <= len(re.findall(rb"/Type\s*/Page(?![s\w])", printed)) <= 2


def test_the_page_tells_what_is_set_wired_and_looked_after(rack: tuple[Sizing, str]) -> None:
    sizing, html = rack
    told = re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", "", html)))
    assert sizing.running is not None
    for timer in sizing.running.timers:
        assert f"{timer.name}: {timer.text[0].upper()}{timer.text[1:]}" in told
    assert sizing.running.power_cut.do in told
    chosen = sizing.chosen
    assert chosen is not None
    assert chosen.electric is not None
    assert f"Fuse: {chosen.electric.fuse:g} A" in told
