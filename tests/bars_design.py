"""A design of rolling bars to be changed line by line, and what its checks find."""

from __future__ import annotations

from functools import cache

from turnercalc.design import Design, read_design
from turnercalc.findings import Finding
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size

#: Invented; two goose-like lanes would do, four show more.
TEXT = """
turnercalc = 1
name = "bars"
turner = "rolling bars"
drive = "turning shaft"
drawn_from = "the motor side"

[box]
width = "400 mm"
height = "300 mm"
depth = "460 mm"
temperature = "37.5 C"

[eggs]
kind = "goose"
weighed = "1 egg = 155 g"
typical = "85 x 57.5 mm"
largest = "92 x 63 mm"
smallest = "78 x 53 mm"
lie = "on the side, along the bars"

[turning]
egg_turn = "180 deg"
sense = "alternate"
turns_per_day = 24
last_day = 26

[bars]
count = 5
diameter = "25 mm"
pitch = "68 mm"
length = "420 mm"
weight = "130 g"
material = "aluminium tube"
wall = "1.5 mm"
surface = "bare aluminium"
eggs_per_lane = 4
stop_spacing = "98 mm"
under_bars = "18 mm below the bar middles"
journal_diameter = "8 mm"
journal = "steel in bronze, oiled"
joined_by = "round belts, bar to bar"
driven_bar = 3
belt_pull = "20 N"

[motor]
supply = "12 V"
stands = "outside the box"
stopped_by = "timer"
"""

MOTORS = """name,what,speed,torque,torque is,supply,notes
worm 6,worm gearmotor,6 rpm,3 N.m,rated,12 V DC,stall 8 N.m at 2.4 A
weak,worm gearmotor,6 rpm,0.3 N.m,rated,12 V DC,stall 0.8 N.m at 1 A
one way,shaded-pole gearmotor,6 rpm,4 N.m,rated,12 V DC,one direction
"""


def bars_design(**changes: str | None) -> Design:
    """Return the design with settings changed; ``bars__pitch`` stands for ``bars.pitch``."""
    settings = {path.replace("__", "."): value for path, value in changes.items()}
    return read_design(TEXT, settings)


@cache
def motors() -> MotorFile:
    """Return three motors, all but one good."""
    return read_motors(MOTORS)


def sized(**changes: str | None) -> Sizing:
    """Return the sizing of the changed design, with the motors at hand."""
    return size(bars_design(**changes), motors())


def found(check: str, **changes: str | None) -> Finding:
    """Return the one finding of a check."""
    (finding,) = [f for f in size(bars_design(**changes)).findings if f.id == check]
    return finding
