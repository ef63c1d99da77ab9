"""Motors: reading a listing, classes, what may be counted on, and matching with a demand."""

from turnercalc.motors.listing import read_motors
from turnercalc.motors.motor import Motor, MotorFile, MotorRow, Reading

__all__ = ["Motor", "MotorFile", "MotorRow", "Reading", "read_motors"]
