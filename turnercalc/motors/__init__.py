"""Motors: reading a listing, classes, what may be counted on, and matching with a demand."""

from turnercalc.motors.case import Move
from turnercalc.motors.classes import MotorClass, motor_class, motor_classes
from turnercalc.motors.clean import to_csv
from turnercalc.motors.demand import Demand
from turnercalc.motors.dependable import Dependable, dependable
from turnercalc.motors.electric import Electric
from turnercalc.motors.line import Line
from turnercalc.motors.listing import read_motors
from turnercalc.motors.matching import MotorResult, judge, rank
from turnercalc.motors.motor import (
    Duty,
    Motor,
    MotorFile,
    MotorRow,
    Outcome,
    Possible,
    Rating,
    Reading,
    StartDirection,
    Volts,
)
from turnercalc.motors.shopping import Shopping, Suitable, shopping_line
from turnercalc.motors.staged import Staged, trains, with_stages

__all__ = [
    "Demand",
    "Dependable",
    "Duty",
    "Electric",
    "Line",
    "Motor",
    "MotorClass",
    "MotorFile",
    "MotorResult",
    "MotorRow",
    "Move",
    "Outcome",
    "Possible",
    "Rating",
    "Reading",
    "Shopping",
    "Staged",
    "StartDirection",
    "Suitable",
    "Volts",
    "dependable",
    "judge",
    "motor_class",
    "motor_classes",
    "rank",
    "read_motors",
    "shopping_line",
    "to_csv",
    "trains",
    "with_stages",
]
