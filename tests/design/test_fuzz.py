"""Whatever is in a file: a design, or complaints. Never anything else."""

from __future__ import annotations

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.design.test_reading import RACK
from turnercalc.design import complaint_text, read_design
from turnercalc.design.filing import all_paths
from turnercalc.design.wording import same
from turnercalc.design.writer import schema_of, write_design
from turnercalc.errors import DesignError

LINES = RACK.splitlines()
PATHS = all_paths(schema_of(read_design(RACK)))
ODD = [
    "", "=", "[", "]", '"', "'", "#", "\\", "0", "-1", "1e999", "nan", "inf", "[[", "{}", "[{}]",
    "true", "1979-05-27T07:32:00", '"""', "'''", "\u201c", "5 mm", "1,500", "½", "٣ mm", "²",
    "\x00", "\ud800", "10" * 30, "a" * 300, "None", "[1, 2, [3]]", '{kind = "chain"}', "1 ft 6",
    "°", "%s", "{0}", "none",
]  # fmt: skip
TABLES = st.dictionaries(st.text(max_size=5), st.text(max_size=5), max_size=2)
SECTIONS = ("gearing", "loads", "crank", "loads.1.trays")


def read_or_complain(source: str | bytes, sets: dict[str, object] | None = None) -> None:
    try:
        design = read_design(source, sets or {})
    except DesignError as error:
        assert_speaks(error)
        return
    again = read_design(write_design(design))
    for path, value in design.values().items():
        assert same(again.values()[path], value, 1e-12), path


def assert_speaks(error: DesignError) -> None:
    assert complaint_text(error).strip()
    assert error.complaints
    for complaint in error.complaints:
        assert complaint.message


@settings(deadline=None, max_examples=150)
@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    read_or_complain(data)


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    read_or_complain("\n" + text)


@settings(deadline=None, max_examples=150)
@given(st.data())
def test_a_sound_file_with_lines_spoilt(data: st.DataObject) -> None:
    lines = list(LINES)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(lines) - 1))
        line, odd = lines[at], data.draw(st.sampled_from(ODD))
        cut = data.draw(st.integers(0, len(line)))
        kind = data.draw(st.sampled_from(("insert", "value", "cut", "double", "swap", "drop")))
        if kind == "insert":
            lines[at] = line[:cut] + odd + line[cut:]
        elif kind == "value":
            lines[at] = line.partition("=")[0] + "= " + odd
        elif kind == "cut":
            lines[at] = line[:cut]
        elif kind == "double":
            lines.insert(at, line)
        elif kind == "swap":
            other = data.draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], line
        else:
            del lines[at]
    read_or_complain("\n".join(lines) + "\n")


@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.dictionaries(
        st.one_of(st.sampled_from([*PATHS, *SECTIONS]), st.text(max_size=12)),
        st.one_of(
            st.sampled_from(ODD),
            st.text(max_size=20),
            st.integers(),
            st.floats(),
            st.none(),
            st.booleans(),
            st.lists(TABLES, max_size=2),
        ),
        max_size=4,
    )
)  # fmt: skip
def test_any_settings(sets: dict[str, object]) -> None:
    read_or_complain(RACK, sets)


@settings(deadline=None, max_examples=80)
@given(st.sampled_from(PATHS), st.text(max_size=40))
def test_any_value_in_any_field(path: str, text: str) -> None:
    read_or_complain(RACK, {path: text})


def test_every_line_takes_odd_values() -> None:
    chance = random.Random(20240519)
    for at, line in enumerate(LINES):
        for odd in chance.sample(ODD, 6):
            spoilt = [*LINES]
            spoilt[at] = f"{line.partition('=')[0]}= {odd}"
            read_or_complain("\n".join(spoilt))


def test_bytes_turned_over_in_a_sound_file() -> None:
    chance = random.Random(20240518)
    sound = RACK.encode()
    for _ in range(150):
        spoilt = bytearray(sound)
        for _ in range(chance.randint(1, 30)):
            spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
        read_or_complain(bytes(spoilt))


def test_deep_and_long_files() -> None:
    read_or_complain("a = " + "[" * 5000 + "\n")
    read_or_complain("[loads]\ntrays = " + "[" * 300 + "]" * 300 + "\n")
    read_or_complain("\n" * 100_000)
    read_or_complain("[a]\n" * 5_000)
    read_or_complain("\n".join(f"{name} = 1" for name in ("x" * n for n in range(1, 300))))
