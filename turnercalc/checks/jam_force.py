"""What a part that catches near its end takes from the motor, and what gives first."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.checks.structure import link_of, loaded_pins
from turnercalc.checks.wording import millimetres
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.parts.strength import pin_gives_at

ID = "jam_force"
TITLE = "If it catches"
#: So near to a rest point a catch is looked at; nearer still the force has no bound [rad].
BEFORE_REST = np.radians(5.0)
ADVICE = "A slipping joint, or a pin that is meant to shear, spares the rest."

Array = NDArray[np.float64]


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the force of a stalled motor on a part that is held fast, and the weakest part."""
    stall = stalled_torque(evidence)
    forces = pin_forces_of_a_stall(evidence, stall) if stall else {}
    if not stall or not forces:
        return
    most = max(forces.values())
    gives = dict(_gives_at(evidence, forces))
    words = wording_of(evidence.drive)
    bar = f"the {words.bar}" if words.bar else "its pins"
    near = (
        f"{np.degrees(BEFORE_REST):.0f}° of {words.head} before its end"
        if evidence.ends.rests
        else "on its way"
    )
    who = evidence.chosen.motor.id if evidence.chosen else "the motor"
    text = f"Caught {near} it takes up to {_rough(most)} from {who} through {bar}."
    if gives:
        weakest = min(gives, key=lambda name: gives[name])
        bears = gives[weakest]
        if bears < most:
            text += f" The {weakest} gives first, at {_rough(bears)}. {ADVICE}"
        else:
            text += f" The weakest there, the {weakest}, stands {_rough(bears)}."
    else:
        text += f" {ADVICE}"
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=text,
        value=most,
        unit="N",
        reason="Near a rest point a crank has next to no lever, so that its motor pushes without "
        "bound; what gives is the weakest part, not the motor.",
        source="virtual work without friction; working stresses doubled for what gives",
        fields=("motor.have",),
    )


def stalled_torque(evidence: Evidence) -> float | None:
    """Return what the chosen motor gives at the driving shaft when it stalls [N·m or N]."""
    found = evidence.chosen.finding("motor_stall") if evidence.chosen else None
    if found is None or not found.value:
        return None
    return found.value * evidence.stages.ratio * evidence.stages.efficiency.high


def pin_forces_of_a_stall(evidence: Evidence, stall: float) -> dict[str, float]:
    """Return the largest force on each pin of the drive, the turner held fast [N].

    By virtual work: one newton-metre at the coordinate asks q' at the shaft, so the stalled
    torque T holds T/q' against whatever keeps the turner fast.
    """
    cycle = evidence.cycle
    if cycle is None:
        return {}
    motion, path = cycle.motion, evidence.turner.path()
    away = _away_from_rest(evidence, motion.position)
    with np.errstate(divide="ignore", invalid="ignore"):
        held = np.where(away, stall / np.abs(motion.rate), np.nan)
    found = evidence.drive.react(motion, path, held, np.ones(1), ("none",))
    return {
        name: float(np.nanmax(np.where(np.isfinite(force), force, np.nan)))
        for name, force in found.pins.items()
        if np.isfinite(force).any()
    }


def _away_from_rest(evidence: Evidence, position: Array) -> NDArray[np.bool_]:
    if not evidence.ends.rests or evidence.drive.position_unit != "rad":
        return np.ones(position.shape, bool)
    ends = np.array([evidence.ends.low_position, evidence.ends.high_position])
    off = position[:, None] - ends
    off = np.abs(np.arctan2(np.sin(off), np.cos(off))).min(axis=1)
    return np.asarray(off >= BEFORE_REST - 1e-9)


def _gives_at(evidence: Evidence, forces: dict[str, float]) -> Iterator[tuple[str, float]]:
    """Yield what each part in the way of the force bears before it gives [N]."""
    for pin in loaded_pins(evidence):
        if pin.name in forces:
            size = f"{millimetres(pin.diameter, 1).replace('.0 ', ' ')} {pin.name}"
            yield size, pin_gives_at(pin.diameter, pin.made_of)
    bar = link_of(evidence)
    if bar is not None:
        yield "link", min(bar.bows_at, 2.0 * bar.stands)


def _rough(force: float) -> str:
    """Return a force to two figures: nobody knows it better."""
    return units.show(float(f"{force:.2g}"), "force")
