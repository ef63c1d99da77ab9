"""Pages pasted as they are: titles, properties below them, tables under both; nothing is lost."""

import pytest

from turnercalc.motors import read_motors

KGF_CM = 0.0980665  # N·m, exact: 9.80665 m/s2 (3rd CGPM, 1901) over 100
LBF_FT = 0.45359237 * 9.80665 * 0.3048  # N·m, exact (NIST SP 811, appendix B.8)

PAGE = """Allotment swap: motors, slow ones first
Sort by: date

12V DC worm gear motor 6 RPM self locking, 8 mm shaft
Rated torque: 25 kg.cm
Stall torque: 70 kg.cm
Rated current: 0.6 A   Stall current: 3 A
$18.99  to be fetched

12V 5RPM DC turbine gear motor
Torque: 30 kg.cm
$15.49

Small planetary gearmotor 12 VDC, 10 rpm, 6 lb-ft stall torque, 1/4" shaft
$34.00
"""
TABLE = "\nItem\tRPM\tTorque\tVoltage\nworm of the shed\t10\t20 kgf.cm rated\t12V\n"
TWO = """Worm gear motor A
Rated torque: 25 kg.cm
No load speed: 6 RPM
Voltage: 12V DC
{between}Planetary gear motor B
Rated torque: 40 kg.cm
No load speed: 10 RPM
Voltage: 12V DC
"""


@pytest.mark.parametrize("below", ["", TABLE])
def test_a_page_of_listings_gives_each_motor_once_with_all_its_lines(below):
    file = read_motors(PAGE + below)
    worm, turbine, planet = (row.motor for row in file.rows[:3])
    assert [row.used for row in file] == [True] * (4 if below else 3)
    assert worm.rated_torque == pytest.approx(25 * KGF_CM)
    assert worm.stall_torque == pytest.approx(70 * KGF_CM)
    assert (worm.rated_current, worm.stall_current) == (0.6, 3.0)
    assert worm.holds_when_off is True
    assert turbine.unnamed_torque == pytest.approx(30 * KGF_CM)
    assert planet.stall_torque == pytest.approx(6 * LBF_FT)
    assert [m.price for m in (worm, turbine, planet)] == [18.99, 15.49, 34.0]
    assert [m.motor_class for m in (worm, planet)] == ["brushed_worm", "brushed_planetary"]


@pytest.mark.parametrize("below", ["", TABLE])
def test_lines_that_no_motor_was_made_of_are_told_with_how_to_write_one(below):
    (remark,) = read_motors(PAGE + below).remarks
    assert remark.startswith("Lines 1 and 2 were not read: ")
    assert "Rated torque: 25 kgf.cm" in remark


def test_lines_above_a_table_are_told_and_comments_are_not():
    table = TABLE.lstrip()
    (remark,) = read_motors(f"Swap day on Sunday\n# own list\n\n{table}").remarks
    assert remark.startswith('Line 1 was not read: "Swap day on Sunday"')
    assert read_motors(f"# own list\n{table}").remarks == ()


@pytest.mark.parametrize("between", ["", "\n", "---\n", "free of cost\n\n"])
def test_a_title_begins_the_next_list_of_properties(between):
    first, second = (row.motor for row in read_motors(TWO.format(between=between)))
    assert (first.id, second.id) == ("Worm gear motor A", "Planetary gear motor B")
    assert (first.motor_class, second.motor_class) == ("brushed_worm", "brushed_planetary")
    assert second.rated_torque == pytest.approx(40 * KGF_CM)
    assert ("free of cost" in first.notes) is ("free" in between)


def test_headings_within_one_list_do_not_divide_it():
    text = "Worm gear motor A\n\nElectric\nVoltage: 12 V\n\nAt the shaft\nRated torque: 2 N.m\n"
    (row,) = read_motors(text + "No load speed: 5 rpm\n").rows
    assert row.motor.id == "Worm gear motor A"
    assert row.motor.rated_torque == pytest.approx(2.0)


def test_one_motor_a_line_stays_one_motor_a_line():
    text = "Worm gear motor, 6 rpm, 30 kgf.cm rated, 12 V\nPlanetary motor, 8 rpm, 4 N.m, 12 V\n"
    assert len(read_motors(text)) == 2


def test_a_long_title_names_its_motor_by_its_first_words():
    table = (
        "Item\tSpeed\tTorque\tVoltage\n"
        "W1 worm gear motor, self locking, 8 mm D shaft\t6 RPM\t25 kg.cm rated\t12V\n"
        "W3 planetary gear motor\t10 rpm\t6 N.m stall\t12V\n"
        "turntable motor for the kitchen corner of the old shed A\t5 rpm\t1 N.m\t12V\n"
        "turntable motor for the kitchen corner of the old shed B\t5 rpm\t1 N.m\t12V\n"
    )
    file = read_motors(table)
    names = [row.motor.id for row in file]
    assert names[:2] == ["W1 worm gear motor", "W3 planetary gear motor"]
    assert names[2] == "turntable motor for the kitchen corner"
    assert len(set(names)) == 4  # the first words name one motor only
    assert all(row.motor.title for row in file)
