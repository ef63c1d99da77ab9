"""The commands that answer from many sizings, run as a person runs them."""

import json
from pathlib import Path

from turnercalc.design import read_design
from turnercalc.sizing import size

from .conftest import Run

EXAMPLE = str(Path(__file__).parents[2] / "examples" / "larder-rack.toml")
MOTORS = str(Path(__file__).parents[2] / "examples" / "motors.csv")


def narrow(text: str) -> bool:
    return all(len(line) <= 80 for line in text.splitlines())


def test_lengths_page_json_and_files(run: Run, tmp_path: Path) -> None:
    within = ("--within", "arm.length=80..80mm", "--within", "crank.height=-240..-180mm")
    tmp_path = tmp_path / "new"  # a folder that is not there is made
    outcome = run("lengths", EXAMPLE, *within, "--write", str(tmp_path), "--trays")
    assert outcome.code == 0
    assert narrow(outcome.out)
    assert "trays fit" in outcome.out
    record = json.loads(run("lengths", EXAMPLE, *within, "--trays", "--json").out)
    files = sorted(tmp_path.glob("*.toml"))
    assert len(files) == len(record["suggestions"]) > 0
    for file, told in zip(files, record["suggestions"], strict=True):
        sizing = size(read_design(file))
        assert sizing.cycle is not None
        assert sizing.verdict.value == told["verdict"]
        for field, text in told["set"].items():
            assert f'--set {field}="{text}"' in outcome.out
            assert sizing.design.origin[field].text == text
    again = run("lengths", EXAMPLE, *within, "--write", str(tmp_path))
    assert again.code == 2, "nothing is overwritten unless asked"


def test_lengths_that_cannot_be_are_a_no(run: Run) -> None:
    outcome = run("lengths", EXAMPLE, "--set", "box.width=200 mm")
    assert outcome.code == 1
    assert "does not fit the box by itself" in outcome.out


def test_lengths_with_a_wrong_field_or_range(run: Run) -> None:
    assert "Nearest: crank.height" in run("lengths", EXAMPLE, "--within", "crank.hieght=1..2mm").err
    assert "runs backwards" in run("lengths", EXAMPLE, "--within", "crank.height=-2..-9mm").err


def test_tolerance_page_and_json(run: Run) -> None:
    arguments = ("tolerance", EXAMPLE, "-m", MOTORS, "--builds", "500", "--seed", "4")
    outcome = run(*arguments)
    assert outcome.code == 0
    assert narrow(outcome.out)
    assert "seed 4" in outcome.out
    assert outcome.err == ""
    record = json.loads(run(*arguments, "--json").out)
    assert record["builds"] == 500
    assert 0.9 < record["share_inside"] <= 1.0
    assert json.loads(run(*arguments, "--json").out) == record


def test_sweep_csv_json_and_pictures(run: Run, tmp_path: Path) -> None:
    vary = ("--vary", "crank.radius=50..60mm:5mm", "--vary", "link.length=200..220mm:20mm")
    outcome = run("sweep", EXAMPLE, *vary)
    assert outcome.code == 0
    head, *rows = outcome.out.splitlines()
    assert head == (
        "crank.radius_mm,link.length_mm,high_end_deg,low_end_deg,peak_shaft_torque_Nm,"
        "peak_shaft_torque_anticlockwise_Nm,peak_shaft_torque_clockwise_Nm,better_direction,"
        "goes_through,reason"
    )
    assert len(rows) == 6
    record = json.loads(run("sweep", EXAMPLE, *vary, "--json").out)
    assert record["shape"] == [3, 2]
    assert record["columns"]["crank.radius_mm"] == [50, 50, 55, 55, 60, 60]
    picture = tmp_path / "map.png"
    assert run("sweep", EXAMPLE, *vary, "--friction", "none", "--plot", str(picture)).code == 0
    assert picture.read_bytes().startswith(b"\x89PNG")
    line = tmp_path / "line.svg"
    assert run("sweep", EXAMPLE, *vary[:2], "--show", "ends", "--plot", str(line)).code == 0
    assert "left side down" in line.read_text() or line.stat().st_size > 5000
    twice = run("sweep", EXAMPLE, *vary, "--vary", "crank.radius=50..55mm")
    assert twice.code == 2
    assert "crank.radius is varied twice" in twice.err
    words = run(
        "sweep",
        EXAMPLE,
        "--vary",
        "trays.filled=in any order|in mirror pairs",
        "--plot",
        str(tmp_path / "x.png"),
    )
    assert words.code == 2
    assert "Only figures" in words.err


def test_sensitivity_page_and_json(run: Run) -> None:
    outcome = run("sensitivity", EXAMPLE)
    assert outcome.code == 0
    assert narrow(outcome.out)
    record = json.loads(run("sensitivity", EXAMPLE, "--json").out)
    part, _, figure = record["effects"][0]["field"].partition(".")
    assert f"[{part}]" in outcome.out
    assert figure in outcome.out
    assert run("sensitivity", EXAMPLE, "--set", "link.length=150 mm").code == 2


def test_compare_page_and_json(run: Run, tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    other.write_text(Path(EXAMPLE).read_text().replace('"56 mm"\nruns', '"50 mm"\nruns'))
    outcome = run("compare", EXAMPLE, str(other), "-m", MOTORS)
    assert outcome.code == 0
    assert narrow(outcome.out)
    assert "crank.radius" in outcome.out
    record = json.loads(run("compare", EXAMPLE, str(other), "--json").out)
    assert record["fields"][0]["name"] == "crank.radius"
    assert run("compare", EXAMPLE).code == 2


def test_gears_page_and_json(run: Run) -> None:
    outcome = run("gears", "2.4")
    assert outcome.code == 0
    assert narrow(outcome.out)
    assert "exact" in outcome.out
    record = json.loads(run("gears", "12:5", "--json", "--stages", "1").out)
    assert record["trains"][0]["ratio"] == 2.4
    assert "no list of teeth" in run("gears", "2", "--teeth", "many").err
    for odd in ("0", "-2", "-0.5", "abc", "12/", "5 mm", "", "30 %"):
        refused = run("gears", odd)
        assert refused.code == 2
        assert f"{odd}" in refused.err
        assert "2.4, 12:5 or 60/7" in refused.err
        assert "0.3" not in refused.err


def test_capacity_page_csv_json_and_chart(run: Run, tmp_path: Path) -> None:
    arguments = ("capacity", EXAMPLE, "-m", MOTORS, "--most", "2")
    chart = tmp_path / "chart.png"
    outcome = run(*arguments, "--chart", str(chart))
    assert outcome.code == 0
    assert narrow(outcome.out)
    assert chart.read_bytes().startswith(b"\x89PNG")
    rows = run(*arguments, "--csv").out.splitlines()
    record = json.loads(run(*arguments, "--json").out)
    assert len(rows) - 1 == len(record["designs"][0]["motors"]) > 10
    assert "the box holds 105 (3 trays)" in outcome.out
    assert run("capacity", EXAMPLE).code == 2


def test_capacity_answers_with_no_motor_and_a_link_too_short(run: Run, tmp_path: Path) -> None:
    short = run("capacity", EXAMPLE, "-m", MOTORS, "--most", "1", "--set", "link.length=120 mm")
    assert short.code == 0
    assert "Nothing is carried, whatever the motor. The link is 83.0 mm too short" in short.out
    empty = tmp_path / "empty.csv"
    empty.write_text("name,speed,torque,torque is,supply\n")
    none = run("capacity", EXAMPLE, "-m", str(empty), "--most", "1")
    assert "the box holds 105 (3 trays)" in none.out
    assert "empty.csv lists no motor." in none.out
    for arguments in (("--csv",), ("--json",), ("--chart", str(tmp_path / "chart.png"))):
        assert run("capacity", EXAMPLE, "-m", str(empty), "--most", "1", *arguments).code == 0


def test_capacity_tells_one_unit_in_a_sentence(run: Run) -> None:
    told = " ".join(
        run("capacity", EXAMPLE, "-m", MOTORS, "--most", "1", "--units", "us").out.split()
    )
    assert "needs 6.18 lbf·in; it gives 9.91 lbf·in" in told
    for sentence in told.split(". "):
        assert not ("ozf·in" in sentence and "lbf·in" in sentence), sentence


def test_capacity_of_several_files_tells_what_goes_in_and_the_motor_that_just_does(
    run: Run,
) -> None:
    shed = str(Path(EXAMPLE).with_name("potting-shed-rack.toml"))
    told = run("capacity", EXAMPLE, shed, "-m", MOTORS, "--most", "1").out.splitlines()
    lines = {line.split()[0]: " ".join(line.split()) for line in told[-2:]}
    assert lines["larder-rack.toml"] == "larder-rack.toml 105 105 in any order syn 60, 3 more"
    assert lines["potting-shed-rack.toml"] == "potting-shed-rack.toml 72 none - -"


def test_names_of_motors_as_long_as_shop_pages_have_them_fit(run: Run, tmp_path: Path) -> None:
    long = "A worm gearmotor with a name as long as a shop page gives it"
    file = tmp_path / "long.csv"
    file.write_text(
        f"name,what,speed,torque,torque is,supply\n{long},worm,5 rpm,3.2 N·m,rated,12 V DC\n"
    )
    for command in (("capacity", "--most", "1"), ("match",)):
        outcome = run(command[0], EXAMPLE, "-m", str(file), *command[1:])
        assert narrow(outcome.out)
        assert long in outcome.out
    begun = run("size", EXAMPLE, "-m", str(file), "--set", 'motor.have="A"')
    assert '--set motor.have="A"' in outcome.out
    assert begun.code in (0, 1)
    assert long[:20] in begun.out


def test_match_page_and_json(run: Run) -> None:
    outcome = run("match", EXAMPLE, "-m", MOTORS, "--as-drawn")
    assert outcome.code == 0
    assert narrow(outcome.out)
    record = json.loads(run("match", EXAMPLE, "-m", MOTORS, "--as-drawn", "--json").out)
    assert record["motors"][0]["verdict"] == record["motors"][0]["build_verdict"] == "fine"
    assert "The design names worm 5: fine, chain 12 to 15." in outcome.out
    assert "wiper" in outcome.out.partition("SETTINGS")[2]
    told = " ".join(outcome.out.split())
    assert "jack no, as it is: It moves in a line" in told
    assert run("match", EXAMPLE).code == 2
    assert 'no "cheese"' in run("match", EXAMPLE, "-m", MOTORS, "--stage", "cheese").err


def test_match_fits_the_screen_with_two_stages(run: Run) -> None:
    drum = str(Path(EXAMPLE).with_name("tool-chest-drum.toml"))
    outcome = run("match", drum, "-m", MOTORS)
    assert narrow(outcome.out)
    assert "other crank" not in outcome.out


def test_match_says_why_nothing_turns(run: Run, tmp_path: Path) -> None:
    short = ("--set", "link.length=120 mm", "--as-drawn")
    outcome = run("match", EXAMPLE, "-m", MOTORS, *short)
    assert outcome.code == 1
    assert "As drawn it turns with no motor. The link is 83.0 mm too short" in outcome.out
    empty = tmp_path / "empty.csv"
    empty.write_text("name,speed,torque,torque is,supply\n")
    outcome = run("match", EXAMPLE, "-m", str(empty))
    assert outcome.code == 1
    assert "empty.csv lists no motor." in outcome.out
    other = str(Path(EXAMPLE).with_name("potting-shed-rack.toml"))
    outcome = run("match", other, "-m", MOTORS)
    assert 'names the motor "shed 60", which motors.csv does not list' in " ".join(
        outcome.out.split()
    )


def test_wrong_steps_and_errors_are_answered(run: Run) -> None:
    assert "a step is above 0" in run("lengths", EXAMPLE, "--step", "0 mm").err
    assert "an error is 0 or more" in run("tolerance", EXAMPLE, "--marking", "-1mm").err
    assert "none of the words" in run("sweep", EXAMPLE, "--vary", "trays.filled=blue").err
    assert run("sweep", EXAMPLE).code == 2
    assert 'has no "cheese"' in run("gears", "2", "--kind", "cheese").err
