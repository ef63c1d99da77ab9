"""Everything computed about a design that the checks judge; `sizing.Sizing` adds the answers."""

from __future__ import annotations

from dataclasses import dataclass, field

from turnercalc.cycle import TurnCycle
from turnercalc.design import Design
from turnercalc.drives.base import Closing, Drive
from turnercalc.drives.stages import Stages
from turnercalc.ingredients import Ingredients
from turnercalc.loads import Family
from turnercalc.motors import Demand, MotorResult, Shopping
from turnercalc.parts.clearances import Clearances
from turnercalc.swing import AsBuilt, Ends
from turnercalc.timing import Running, Timing
from turnercalc.turners.base import Turner, TurnerKind
from turnercalc.warmth import Warmth


@dataclass(frozen=True)
class Evidence:
    """What was computed, before anything is judged.

    Attributes
    ----------
    design : Design
        What was asked.
    kind : TurnerKind
        The way of turning.
    ingredients : Ingredients
        The eggs, how they sit, and the sections in SI.
    turner, drive, stages
        The built objects.
    closing : Closing
        Whether the drive gets through.
    ends : Ends
        The two ends of the swing; NaN where the drive does not close.
    as_built : AsBuilt or None
        The ends with marking errors and play.
    cycle : TurnCycle or None
        Every planned and unplanned load at low, middle and high friction; None: does not close.
    starting : TurnCycle or None
        The same from rest, friction level ``starting``.
    families : tuple of Family
        The load cases told in one line each.
    better_direction : int
        0 anticlockwise, 1 clockwise.
    clearances : Clearances or None
        Room inside the box and between the parts.
    demand : Demand or None
        What the motor's own shaft must give.
    motors : tuple of MotorResult
        Every motor of the file, best first.
    chosen : MotorResult or None
        The motor the design names, else the best; None without a usable motor.
    shopping : Shopping or None
        What to buy.
    timing : Timing or None
        Move times, timer settings and counts.
    running : Running or None
        Moves to either side, timers, power cuts, running all day.
    warmth : Warmth or None
        Heat of the motor inside, and what it does to the box.
    """

    design: Design
    kind: TurnerKind
    ingredients: Ingredients
    turner: Turner
    drive: Drive
    stages: Stages
    closing: Closing
    ends: Ends
    as_built: AsBuilt | None
    cycle: TurnCycle | None
    starting: TurnCycle | None
    families: tuple[Family, ...]
    better_direction: int
    clearances: Clearances | None
    demand: Demand | None
    motors: tuple[MotorResult, ...]
    chosen: MotorResult | None
    shopping: Shopping | None
    timing: Timing | None
    running: Running | None = field(default=None, kw_only=True)
    warmth: Warmth | None = field(default=None, kw_only=True)

    def own_fields(self, *names: str) -> tuple[str, ...]:
        """Return the paths of the turner's own fields that go by these names, in that order."""
        return tuple(
            f"{section}.{name}"
            for name in names
            for section, model in self.kind.sections.items()
            if name in model.model_fields and self.design.get(section) is not None
        )

    @property
    def told_direction(self) -> int:
        """The direction that is shown: the better one; where it runs both ways, the harder."""
        return 1 - self.better_direction if self.drive.both_ways else self.better_direction
