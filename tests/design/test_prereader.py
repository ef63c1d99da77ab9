"""The first reading: what builders type, line by line."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.design.prereader import Sheet, fold, preread
from turnercalc.design.values import Repair
from turnercalc.errors import DesignError

PLAIN = """\
# a comment
turnercalc = 1
name = "Three trays # in a cupboard"   # a comment behind

[box]
width = '18 1/2"'
depth = "1 ft 6 in" # along

[[loads]]
trays = [[6, 6],
         [5, 0]]   # lowest first
"""


def value_of(sheet: Sheet, section: str, name: str) -> object:
    found = [
        entry.value
        for block in sheet.blocks
        if block.name == section
        for entry in block.entries
        if entry.name == name
    ]
    assert len(found) == 1
    return found[0]


def only_value(line: str) -> object:
    sheet = preread("[trays]\n" + line)
    assert sheet.complaints == ()
    return sheet.blocks[1].entries[0].value


def only_complaint(line: str) -> tuple[int | None, str, tuple[str, ...]]:
    sheet = preread("[trays]\n" + line)
    (complaint,) = sheet.complaints
    return complaint.line, complaint.message, complaint.accepted


def test_a_sound_file_is_read_as_the_standard_reader_reads_it() -> None:
    # the outside judge is tomllib, the reader of the standard library
    wanted = tomllib.loads(PLAIN)
    sheet = preread(PLAIN)
    assert value_of(sheet, "", "name") == wanted["name"]
    assert value_of(sheet, "box", "width") == wanted["box"]["width"]
    assert value_of(sheet, "loads", "trays") == wanted["loads"][0]["trays"]
    assert sheet.complaints == ()
    assert sheet.notes == ()


def test_every_field_knows_its_lines_its_text_and_its_comment() -> None:
    sheet = preread(PLAIN)
    trays = sheet.blocks[2].entries[0]
    assert (trays.line, trays.last_line) == (10, 11)
    assert trays.comment == "# lowest first"
    name = sheet.blocks[0].entries[1]
    assert name.text == '"Three trays # in a cupboard"'
    assert name.comment == "# a comment behind"


@pytest.mark.parametrize(
    ("line", "value", "repair"),
    [
        ("pitch = 130 mm", "130 mm", Repair.UNQUOTED),
        ("pitch = 130 mm   # pivot to pivot", "130 mm", Repair.UNQUOTED),
        ("filled = in mirror pairs", "in mirror pairs", Repair.UNQUOTED),
        ('pitch = "18 1/2""', '18 1/2"', Repair.INCH_MARK),
        ('pitch = "18 1/2""   # in "inches"', '18 1/2"', Repair.INCH_MARK),
        ('height = 18 1/2"', '18 1/2"', Repair.UNQUOTED),
        ("height = '1' 6\"'", "1' 6\"", Repair.FEET_AND_INCHES),
        ('height = "1\' 6""', "1' 6\"", Repair.FEET_AND_INCHES),
        ("pitch = “130 mm”", "130 mm", Repair.CURLY_QUOTES),
        ("pitch = „130 mm“", "130 mm", Repair.CURLY_QUOTES),
        ("pitch = ‘130 mm’", "130 mm", Repair.CURLY_QUOTES),
        ("mass = 0,62", "0,62", Repair.DECIMAL_COMMA),
        ("speed = .5", ".5", Repair.UNQUOTED),
        ("speed = 05", "05", Repair.UNQUOTED),
        ('pitch = "130 mm', "130 mm", Repair.STRAY_QUOTE),
        ('pitch = 130 mm"', "130 mm", Repair.STRAY_QUOTE),
        ("since = 2024-01-01", "2024-01-01", Repair.UNQUOTED),
    ],
)
def test_plain_meaning_is_understood_and_what_was_overlooked_is_kept(
    line: str, value: str, repair: Repair
) -> None:
    sheet = preread("[trays]\n" + line)
    assert sheet.complaints == ()
    entry = sheet.blocks[1].entries[0]
    assert entry.value == value
    assert repair in entry.repairs


@pytest.mark.parametrize(
    ("line", "says", "accepted"),
    [
        ("pitch =", "Nothing stands after the equals sign", ()),
        ("pitch =   # later", "Nothing stands after the equals sign", ()),
        ("pitch = '18 1/2''", "feet or inches", ('pitch = "18 1/2 in"', 'pitch = "18 1/2 ft"')),
        ("rows = [1 2]", "with commas", ("rows = [6, 6, 0]",)),
        ('a = "1 mm" b = "2 mm"', "Two settings stand on one line", ()),
        ("pitch 130 mm", "no section, no setting and no comment", ('pitch = "130 mm"',)),
        ("box]", "no section, no setting and no comment", ("# box]",)),
        ("trays", "no section, no setting and no comment", ("[trays]", "# trays")),
        ("rows = 1" + "0" * 30, "too large", ()),
        ("rows = 1" + "0" * 5000, "", ()),
    ],
)
def test_what_has_no_certain_meaning_is_complained_about(
    line: str, says: str, accepted: tuple[str, ...]
) -> None:
    if not says:  # longer than Python turns into a number: kept as text, the field will refuse it
        assert isinstance(only_value(line), str)
        return
    number, message, offered = only_complaint(line)
    assert number == 2
    assert says in message
    assert offered == accepted


def test_two_faulty_lines_are_both_reported_and_the_rest_is_read() -> None:
    sheet = preread("[trays]\nrows = [1 2]\ncount = 3\npitch =\nwidth = '310 mm'")
    assert [complaint.line for complaint in sheet.complaints] == [2, 4]
    assert [entry.name for entry in sheet.blocks[1].entries] == ["count", "width"]
    assert sheet.lost == ("trays.rows", "trays.pitch")


def test_a_list_that_is_never_closed_does_not_swallow_the_file() -> None:
    sheet = preread('[[loads]]\ntrays = [[6, 6],\nname = "x"\n[box]\nwidth = "1 m"')
    assert [complaint.line for complaint in sheet.complaints] == [2]
    assert value_of(sheet, "loads", "name") == "x"
    assert value_of(sheet, "box", "width") == "1 m"


@pytest.mark.parametrize(
    "key",
    ["seat_height", "seat height", "Seat-Height", "SEAT HEIGHT", '"seat height"', " seat  height "],
)
def test_case_spaces_and_hyphens_in_names_do_not_matter(key: str) -> None:
    assert preread(f'{key} = "3 mm"').blocks[0].entries[0].name == "seat_height"


def test_a_colon_is_taken_for_the_equals_sign() -> None:
    assert only_value('pitch: "130 mm"') == "130 mm"
    assert only_value("weighed: 10 eggs = 583 g") == "10 eggs = 583 g"


@pytest.mark.parametrize("header", ["[box", "[box]]", "[ Box ]", "[[box]]", "[box]  # inside"])
def test_section_brackets_are_forgiven(header: str) -> None:
    sheet = preread(header + '\nwidth = "1 m"')
    assert value_of(sheet, "box", "width") == "1 m"


def test_text_behind_a_section_name_is_complained_about_but_the_section_is_kept() -> None:
    sheet = preread('[box] inside measurements\nwidth = "1 m"')
    assert sheet.complaints[0].line == 1
    assert "begins with #" in sheet.complaints[0].message
    assert value_of(sheet, "box", "width") == "1 m"


def test_dotted_names_reach_into_their_section() -> None:
    sheet = preread('crank.radius = "50 mm"\n[box]\ncrank.runs = "to and fro"\nwidth = "1 m"')
    assert value_of(sheet, "box", "width") == "1 m"
    crank = [
        entry.name for block in sheet.blocks if block.name == "crank" for entry in block.entries
    ]
    assert crank == ["radius", "runs"]


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252"]
)
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_every_editor_is_understood(encoding: str, line_end: str) -> None:
    text = line_end.join(["# Größe", "[box]", 'width = "1 m"', 'name = "Gänse"', ""])
    sheet = preread(text.encode(encoding))
    assert sheet.complaints == ()
    assert value_of(sheet, "box", "width") == "1 m"
    assert value_of(sheet, "box", "name") == "Gänse"
    assert bool(sheet.notes) == (encoding == "cp1252")


def test_unbreakable_spaces_and_invisible_marks_are_as_if_not_there() -> None:
    assert only_value("pitch\u00a0= \u200b130\u202fmm") == "130 mm"


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"PK\x03\x04rest", "word-processor"),
        (b"%PDF-1.7", "PDF"),
        (bytes(range(32)) * 20, "characters that no text has"),
        (b"a" * 1_000_001, "No design file is so long"),
    ],
)
def test_what_is_no_text_is_refused_in_words(data: bytes, says: str) -> None:
    with pytest.raises(DesignError, match="cannot be read") as caught:
        preread(data)
    assert says in caught.value.complaints[0].message
    assert "plain text" in caught.value.complaints[0].accepted[0]


@given(st.binary(max_size=400))
def test_no_bytes_upset_it(data: bytes) -> None:
    try:
        sheet = preread(data)
    except DesignError:
        return
    entries = sum(len(block.entries) for block in sheet.blocks)
    assert entries + len(sheet.complaints) <= len(sheet.lines)


@given(st.text(alphabet="[]{}=\"'#,. \n0123456789abmn", max_size=120))
def test_no_heap_of_quotes_and_brackets_upsets_it(text: str) -> None:
    sheet = preread(text)
    for block in sheet.blocks:
        for entry in block.entries:
            assert 1 <= entry.line <= entry.last_line <= len(sheet.lines)


@given(
    st.dictionaries(
        st.from_regex(r"[a-z][a-z_]{0,8}[a-z]", fullmatch=True),
        st.one_of(st.integers(-1000, 1000), st.booleans(), st.lists(st.integers(0, 9), max_size=4)),
        max_size=6,
    )
)
def test_sound_files_agree_with_the_standard_reader(table: dict[str, object]) -> None:
    text = "\n".join(f"{key} = {str(value).lower()}" for key, value in table.items())
    sheet = preread(text)
    assert {entry.key: entry.value for entry in sheet.blocks[0].entries} == tomllib.loads(text)


def test_names_are_folded() -> None:
    assert fold(" “Egg  Floor” ") == "egg_floor"
    assert fold("egg--floor_") == "egg_floor"
