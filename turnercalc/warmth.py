"""What the motor inside does to the warmth of the box, and in how warm a room that still works.

Set against each other: heat of fan, motor and eggs, and what passes the walls. Air that is let in
and out carries heat away as well, and is left out: the cautious side, since it only helps here.
"""

from __future__ import annotations

from dataclasses import dataclass

from turnercalc.design import Design
from turnercalc.mechanics.thermal import steady_rise
from turnercalc.motors import Demand, MotorResult

#: Heat of fertile eggs in the last days of incubation, by their weight when set: about 0.14 W for
#: a hen's egg of 60 g (from memory of measurements with broiler eggs) [W/kg].
EGG_HEAT = 0.14 / 0.060


@dataclass(frozen=True)
class Warmth:
    """Heat inside the box and what becomes of it.

    Attributes
    ----------
    motor_average : float or None
        Of the motor, over the day [W]; 0 outside the box, None where it is not known.
    motor_standing : float or None
        While it stands between moves [W].
    motor_running : float or None
        While it runs [W].
    motor_warmest : float or None
        In the warmest ten minutes [W].
    fan : float or None
        [W]; None where the design does not say.
    eggs : float
        Of all eggs in the last days [W].
    wall_area : float
        [m2]
    area_given : bool
        Whether the design says it; else that of the inside faces.
    conductance : float or None
        Of all walls [W/K]; None where the insulation is not given.
    set_point : float
        [degC]
    average_rise, running_rise : float or None
        What the motor alone adds to the box over its room, averaged over the day, and if it ran
        on and on [K].
    warmest_room : float or None
        Warmest room in which the set point still holds with the heater off: fan and the motor's
        warmest ten minutes [degC].
    warmest_room_with_eggs : float or None
        The same in the last days, with the heat of the eggs [degC].
    room : float or None
        How warm the room gets, by the design [degC].
    """

    motor_average: float | None
    motor_standing: float | None
    motor_running: float | None
    motor_warmest: float | None
    fan: float | None
    eggs: float
    wall_area: float
    area_given: bool
    conductance: float | None
    set_point: float
    average_rise: float | None
    running_rise: float | None
    warmest_room: float | None
    warmest_room_with_eggs: float | None
    room: float | None


def warmth(design: Design, egg_mass: float, demand: Demand, chosen: MotorResult | None) -> Warmth:
    """Return the heat inside the box and what becomes of it.

    Parameters
    ----------
    design : Design
        For its box.
    egg_mass : float
        Of all eggs together [kg].
    demand : Demand
        For where the motor stands.
    chosen : MotorResult or None
        Without one the heat of a motor inside is not known.
    """
    box = design["box"]
    area = box.wall_area if box.wall_area is not None else inside_area(box)
    walls = None if box.insulation is None else area * box.insulation.transmittance
    eggs = EGG_HEAT * egg_mass
    average, standing, running, warmest = _of_motor(demand, chosen)

    def rise(power: float | None) -> float | None:
        if power is None or walls is None:
            return None
        return float(steady_rise(power, walls))

    def room_for(power: float | None) -> float | None:
        warmer = rise(power)
        return None if warmer is None else box.temperature - warmer

    always = None if warmest is None else warmest + (box.fan_power or 0.0)
    return Warmth(
        motor_average=average,
        motor_standing=standing,
        motor_running=running,
        motor_warmest=warmest,
        fan=box.fan_power,
        eggs=eggs,
        wall_area=area,
        area_given=not any(a.field == "box.wall_area" for a in design.taken_for_granted()),
        conductance=walls,
        set_point=box.temperature,
        average_rise=rise(average),
        running_rise=rise(running),
        warmest_room=room_for(always),
        warmest_room_with_eggs=room_for(None if always is None else always + eggs),
        room=box.room,
    )


def inside_area(box: object) -> float:
    """Return the area of a box's inside faces [m2]."""
    w, h, d = (float(getattr(box, name)) for name in ("width", "height", "depth"))
    return 2.0 * (w * h + w * d + h * d)


def _of_motor(
    demand: Demand, chosen: MotorResult | None
) -> tuple[float | None, float | None, float | None, float | None]:
    """Return average, standing, running and warmest heat inside the box [W]."""
    if not demand.inside:
        return 0.0, 0.0, 0.0, 0.0
    if chosen is None:
        return None, None, None, None
    return (
        chosen.average_heat_in_box,
        chosen.electric.standing_power if chosen.electric is not None else None,
        chosen.electric.power if chosen.electric is not None else None,
        chosen.warmest_heat_in_box,
    )
