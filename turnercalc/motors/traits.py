"""What is reckoned with for a motor whose class is one, or could be several.

Where only the figures of a listing hint at its class, the worst of all the classes it could be
is reckoned with: what is not known never makes a motor better.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from turnercalc.motors.classes import MotorClass, motor_class, motor_classes
from turnercalc.motors.motor import Motor, StartDirection

_HARDEST_FIRST = (StartDirection.UNDEFINED, StartDirection.ONE_WAY, StartDirection.REVERSIBLE)
_SLOWEST_FIRST = ("straight", "induction", "synchronous", "stepped")


@dataclass(frozen=True)
class Traits:
    """The habits reckoned with.

    Attributes
    ----------
    classes : tuple of MotorClass
        All that the motor could be.
    certain : bool
        Whether the listing's words settle the class.
    line : str
        Form of the torque-speed line.
    share_that_counts, rated_share : float
        [ratio]
    starting_share : float or None
        As in `MotorClass`.
    start_direction : StartDirection
    holds_when_off : bool or None
    heat_at_rest : str
    speed_drop, supply_low : float
        [ratio]
    side_load : float or None
        [N]
    run_down : (float, float)
        Shortest and longest time from switching off to standstill, without load [s].
    corner_speed : float or None
        Speed above which a stepper's torque falls [rad/s]; None for any other motor.
    """

    classes: tuple[MotorClass, ...]
    certain: bool
    line: str
    share_that_counts: float
    rated_share: float
    starting_share: float | None
    start_direction: StartDirection
    holds_when_off: bool | None
    heat_at_rest: str
    speed_drop: float
    supply_low: float
    side_load: float | None
    run_down: tuple[float, float]
    corner_speed: float | None

    @property
    def only(self) -> MotorClass | None:
        """The class, where it is one."""
        return self.classes[0] if len(self.classes) == 1 else None

    @property
    def name(self) -> str:
        """What to call it."""
        if self.only is not None:
            return self.only.name
        return "motor of unknown class"

    @property
    def all_steppers(self) -> bool:
        """Whether a holding torque is the figure that counts."""
        return all(c.counted_figure == "holding" for c in self.classes)

    @property
    def all_mains(self) -> bool:
        """Whether it runs on alternating current in any case."""
        return all(c.is_mains for c in self.classes)

    @property
    def any_mains(self) -> bool:
        """Whether it could be one that runs on alternating current."""
        return any(c.is_mains for c in self.classes)

    @property
    def linear(self) -> bool:
        """Whether it moves in a line."""
        return all(c.is_linear for c in self.classes)


def traits_of(motor: Motor) -> Traits:
    """Return the habits to reckon with for a motor."""
    names = motor.candidates or ((motor.motor_class,) if motor.motor_class else ())
    return _traits(tuple(names), motor.class_from in ("listed", "words"))


@lru_cache(maxsize=512)
def _traits(names: tuple[str, ...], certain: bool) -> Traits:
    if names:
        classes = tuple(motor_class(name) for name in names)
    else:
        classes = tuple(c for c in motor_classes() if not c.is_linear)
    starts = {c.start_direction for c in classes}
    holds = {c.holds_when_off for c in classes}
    side_loads = [c.side_load for c in classes]
    return Traits(
        classes=classes,
        certain=certain and len(classes) == 1,
        line=next(form for form in _SLOWEST_FIRST if any(c.line == form for c in classes)),
        share_that_counts=min(c.share_that_counts for c in classes),
        rated_share=min(c.rated_share for c in classes),
        starting_share=_least(c.starting_share for c in classes),
        start_direction=next(start for start in _HARDEST_FIRST if start in starts),
        holds_when_off=holds.pop() if len(holds) == 1 else None,
        heat_at_rest=_hottest(classes),
        speed_drop=max(c.speed_drop for c in classes),
        supply_low=min(c.supply_low for c in classes),
        side_load=None if None in side_loads else _least(side_loads),
        run_down=(min(c.run_down_low for c in classes), max(c.run_down_high for c in classes)),
        corner_speed=_least(c.speed_high for c in classes if c.counted_figure == "holding"),
    )


def _least(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _hottest(classes: tuple[MotorClass, ...]) -> str:
    kinds = {c.heat_at_rest for c in classes}
    return next(k for k in ("holding current", "while powered", "none") if k in kinds)
