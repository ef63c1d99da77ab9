"""Motors for the tests: of one class, as a listing with the figures given would say."""

from typing import Any

from turnercalc.motors import Motor, Volts, motor_class

DC12, AC230 = (Volts(12.0, 12.0, "dc"),), (Volts(230.0, 230.0, "ac"),)


def motor(name: str, **figures: Any) -> Motor:
    """Return a motor of a class, on 12 V DC or on 230 V 50 Hz; figures in SI."""
    mains = motor_class(name).is_mains
    plain = {
        "id": name,
        "motor_class": name,
        "class_from": "listed",
        "candidates": (name,),
        "volts": AC230 if mains else DC12,
        "frequencies": (50.0,) if mains else (),
    }
    return Motor(**{**plain, **figures})
