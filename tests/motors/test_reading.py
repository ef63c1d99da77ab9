"""Motor files in every wrapping; what cannot be read explains itself; a clean copy loses none."""

import cProfile
import datetime
import io
import pstats

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.guard import comes_to_an_end
from turnercalc.errors import MotorFileError, UnknownNameError
from turnercalc.motors import read_motors, to_csv
from turnercalc.motors.motor import Outcome

TABLE = """name;what;speed;torque;torque is;supply;power;price
A;turntable motor;5/6 rpm;4 kgf·cm;;220-240 V 50/60 Hz;4 W;£6
B;worm gearmotor;6 rpm;30 kg·cm;rated;12 V DC;;€18
C;reversible synchronous gearmotor;2.5/3 rpm;45 kg/cm;rated;230 V;14 W;£31
"""


def facts(file):
    return [(r.motor.id, r.motor.any_torque, r.motor.any_speed, r.motor.price) for r in file]


WRAPPED = {
    "utf-8": TABLE.encode(),
    "utf-8 with its mark": TABLE.encode("utf-8-sig"),
    "utf-16": TABLE.encode("utf-16"),
    "utf-16 big end first, no mark": TABLE.encode("utf-16-be"),
    "utf-16 little end first, no mark": TABLE.encode("utf-16-le"),
    "utf-32": TABLE.encode("utf-32"),
    "Windows code page": TABLE.encode("cp1252"),
    "Windows line ends": TABLE.replace("\n", "\r\n").encode(),
    "old Macintosh line ends": TABLE.replace("\n", "\r").encode(),
    "no line end at the end": TABLE.rstrip("\n").encode(),
    "blank lines before and after": ("\n\n" + TABLE + "\n\n").encode(),
    "tabs": TABLE.replace(";", "\t").encode(),
    "pipes": TABLE.replace(";", " | ").encode(),
    "commas": TABLE.replace(";", ",").encode(),
}


@pytest.mark.parametrize("data", WRAPPED.values(), ids=WRAPPED)
def test_every_wrapping_gives_the_same_motors(data):
    assert facts(read_motors(data)) == facts(read_motors(TABLE))


def test_latin_1_keeps_its_signs():
    text = TABLE.replace("€", "£")
    assert facts(read_motors(text.encode("latin-1"))) == facts(read_motors(text))


def test_a_file_by_its_path(tmp_path):
    path = tmp_path / "motors.csv"
    path.write_text(TABLE, encoding="utf-8")
    file = read_motors(path)
    assert file.name == "motors.csv"
    assert facts(file) == facts(read_motors(TABLE))


def test_a_spreadsheet_file():
    book = openpyxl.Workbook()
    for line in TABLE.splitlines():
        book.active.append(line.split(";"))
    out = io.BytesIO()
    book.save(out)
    assert facts(read_motors(out.getvalue())) == facts(read_motors(TABLE))


def test_a_spreadsheet_that_made_a_date_of_the_speed():
    book = openpyxl.Workbook()
    book.active.append(["name", "what", "speed", "rated torque", "supply"])
    book.active.append(
        ["A", "synchronous motor", datetime.datetime(2026, 6, 5), "4 kg.cm", "230 V"]
    )
    out = io.BytesIO()
    book.save(out)
    (row,) = read_motors(out.getvalue())
    assert [r.hertz for r in row.motor.ratings] == [50.0, 60.0]


@pytest.mark.parametrize(
    ("source", "says"),
    [
        ("Dear sir, I have no motor yet.", "no table of motors was found"),
        (b"%PDF-1.7 ...", "is a PDF"),
        (b"PK\x03\x04 not really", "does not open as one"),
        (b"\x89PNG\r\n", "is a picture"),
    ],
)
def test_what_is_no_motor_file_says_so(source, says):
    with pytest.raises(MotorFileError, match=says):
        read_motors(source)


@pytest.mark.parametrize(
    ("source", "says"),
    [
        ("", "is empty"),
        ("   \n\n  ", "is empty"),
        (b"\xef\xbb\xbf", "is empty"),
        ("name;what;speed;torque;supply\n", "no motor under it"),
    ],
)
def test_a_file_without_a_motor_is_a_file_to_shop_with(source, says):
    file = read_motors(source)
    assert len(file) == 0
    assert says in file.remarks[0]
    assert to_csv(file)


def test_a_missing_file_is_named(tmp_path):
    with pytest.raises(MotorFileError, match=r"none\.csv cannot be opened"):
        read_motors(tmp_path / "none.csv")


def test_one_bad_row_never_stops_the_rest():
    file = read_motors(
        "name,what,rated torque,speed,supply\n"
        "a,worm gear motor,10 kg.cm,5 rpm,12 V\n"
        "b,\x00\x01\x02,ten,fast,12 elephants\n"
        "c,worm gear motor,20 kg.cm,5 rpm,12 V\n"
    )
    assert [row.used for row in file] == [True, False, True]
    assert "no torque" in file.rows[1].refused


def test_a_motor_is_found_by_its_name():
    file = read_motors(TABLE)
    assert file.row(" b ").motor.id == "B"
    with pytest.raises(UnknownNameError, match="It has: A, B, C"):
        file.row("zebra 900")


def test_two_motors_of_one_name_are_remarked():
    file = read_motors(TABLE + "B;worm gearmotor;3 rpm;60 kg·cm;rated;12 V DC;;\n")
    assert any('"B" stands in line 3 and again in line 5' in remark for remark in file.remarks)


def test_doubts_and_refusals_are_told_with_a_note():
    for row in read_motors(TABLE + "D;motor;1/2 rpm;30 N;;12 V;;\n"):
        for reading in row.readings:
            if reading.outcome in (Outcome.DOUBTED, Outcome.REFUSED):
                assert reading.note


# -- a clean copy ------------------------------------------------------------------------------

RICH_HEADS = (
    "name;what;class;rated torque;stall torque;speed;supply;duty;IP;ambient;radial load;"
    "direction;holds when off;price;weight;notes"
)
RICH_ROWS = (
    "a;worm gear motor;;10-20 kg.cm;60 kg.cm;no load 6 rpm, load 5 rpm;12-24 V DC;S2 10 min;IP54;"
    "50 C;80 N;reversible;yes;£12,50;0.45 kg;strong",
    "b;synchronous motor;;4 kgf.cm;;5/6 rpm;110/220-240 V AC 50/60 Hz;S1;;;;either way;;;;",
    "c;;stepper;holding 1.9 N.m;;;24 V;2 min on 18 min off;;;;;no;;;",
    "d;servo;;;9.4 kg·cm(4.8 V), 11 kg·cm(6 V);0.20 s/60° (4.8V), 0.16 s/60° (6V);4.8-6 V;"
    "S3 25 %;;;;;;;;",
    "e;gear motor;;;;20 rpm;12 V;;;;;;;;;60 kg.cm, 8 W",
)
RICH = "\n".join((RICH_HEADS, *RICH_ROWS))


def comparable(motor):
    kept = vars(motor).copy()
    kept.pop("line")
    return kept


@pytest.mark.parametrize("text", [TABLE, RICH])
def test_a_clean_copy_reads_back_as_the_same_motors(text):
    first = read_motors(text)
    again = read_motors(to_csv(first))
    assert [comparable(r.motor) for r in again] == [comparable(r.motor) for r in first]
    assert [r.used for r in again] == [r.used for r in first]
    assert to_csv(again) == to_csv(first)


# -- any text ----------------------------------------------------------------------------------

WORDS = st.sampled_from(
    [
        *("12 V", "5/6 rpm", "30 kg.cm", "4 kgf·cm", "rated", "stall", "torque", "speed", "supply"),
        *("name", "power", "8 W", "5-Jun", "1,500", "±10%", "220-240V 50/60Hz", "≥4", "n/a", "-"),
        *("0.16 s/60°", "0 s/60°", "1e999 rpm", "9" * 80 + " rpm", "(6 V)", "@", "1/0 rpm", "kg"),
        *(";", ",", "|", "\t", "\n", '"', "\n\n", ":", " ", "|---|", "worm gear motor", "1:50"),
        *("S2 10 min", "0 min on 0 min off", "IP54", "£3", "£1,500", "duty 0 %", "5 turns in 0 s"),
    ]
)


def reads_or_explains(text):
    with comes_to_an_end():
        try:
            file = read_motors(text)
        except MotorFileError as error:
            told = [str(error)]
        else:
            told = [row.refused or row.motor.id for row in file] or list(file.remarks)
            to_csv(file)
    assert told
    assert all(told)


@settings(max_examples=300, deadline=None)
@given(st.lists(WORDS, max_size=60).map("".join))
def test_any_heap_of_listing_words_reads_or_explains_itself(text):
    reads_or_explains(text)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=400))
def test_any_text_reads_or_explains_itself(text):
    reads_or_explains(text)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_read_or_explain_themselves(data):
    reads_or_explains(data)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=60), st.text(max_size=60), st.text(max_size=60))
def test_any_cells_under_good_heads_read_or_explain_themselves(one, two, three):
    cells = (cell.replace(";", " ").replace("\n", " ") for cell in (one, two, three))
    reads_or_explains("name;what;rated torque;speed;supply\nx;" + ";".join(cells) + ";12 V\n")


@pytest.mark.parametrize(
    "text",
    [
        "9" * 200_000,
        "5 " * 100_000,
        "1-" * 100_000 + "5 rpm",
        "," * 100_000,
        '"' * 99_999,
        "5/" * 9999,
    ],
)
def test_hostile_length_takes_bounded_time(text):
    reads_or_explains("name,what,rated torque,speed,supply\na,b,4 kg.cm,5 rpm," + text)
    reads_or_explains(text)


def test_work_grows_no_faster_than_the_file():
    """Counted in calls of functions, which no busy machine changes."""

    def calls(count):
        rows = [
            f"M{i},worm gear motor {i},{i % 97 + 1} kg.cm,{i % 31 + 1}.5 rpm,12 V"
            for i in range(count)
        ]
        text = "name,what,rated torque,speed,supply\n" + "\n".join(rows)
        counter = cProfile.Profile()
        counter.enable()
        found = read_motors(text)
        counter.disable()
        assert len(found) == count
        return pstats.Stats(counter).total_calls

    calls(200)  # what is worked out once and kept
    small, large = calls(500), calls(2000)
    assert large < 4.5 * small  # four times the rows
