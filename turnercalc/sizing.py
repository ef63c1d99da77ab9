"""Design and motors in, one complete frozen answer out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from turnercalc import checks, motors, timing
from turnercalc.building import Built, alike, build
from turnercalc.checks.evidence import Evidence
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.demanding import asked_of_shaft, behind
from turnercalc.design import Design
from turnercalc.drives.base import Closing
from turnercalc.drives.stages import Stages
from turnercalc.findings import Answer, Assumed, Finding, worst
from turnercalc.loads import Family, better_direction, families
from turnercalc.motors import Demand, MotorFile, MotorResult
from turnercalc.parts.clearances import Clearances, clearances
from turnercalc.swing import AsBuilt, Ends, as_built, ends
from turnercalc.turners.base import LoadCase
from turnercalc.turners.wording import wording_of
from turnercalc.warmth import warmth


@dataclass(frozen=True)
class Sizing(Evidence):
    """One complete answer about a design: everything computed, and every question judged.

    Attributes
    ----------
    findings : tuple of Finding
        The checks of the turner, in the order they are told; a motor's own findings stand with
        the motor in `motors`.
    verdict : Answer
        fine, marginal or no, over all findings that count and the chosen motor.
    reason : Finding
        The one finding that decides the verdict.
    assumed : tuple of Assumed
        What was taken for granted.
    unknown : tuple of Finding
        What is not known, each with what to ask or test.
    """

    findings: tuple[Finding, ...]
    verdict: Answer
    reason: Finding
    assumed: tuple[Assumed, ...]
    unknown: tuple[Finding, ...]

    @property
    def exit_code(self) -> int:
        """0 for fine or marginal, 1 for no."""
        return 1 if self.verdict is Answer.NO else 0


def size(
    design: Design,
    motor_file: MotorFile | None = None,
    *,
    count: int = 360,
    stock_stages: bool = True,
    like: Evidence | None = None,
) -> Sizing:
    """Return the complete answer for a design.

    Parameters
    ----------
    design : Design
        As read; nothing in it is changed.
    motor_file : MotorFile, optional
        The builder's own motors; without it the answer holds a shopping line only.
    count : int
        Positions of the drive in one cycle.
    stock_stages : bool
        Whether motors that do not fit are also looked at behind a stock stage.
    like : Evidence, optional
        A sizing of a similar design. Where turner, drive and box are the same, what they do is
        taken over from it; the answer is no other.

    Raises
    ------
    DesignError, CombinationError
        The design cannot be built, with what is wrong.
    UnknownNameError
        It names a motor the file does not have.
    NotTurnedError
        The animal's eggs are not turned.
    """
    evidence = gather_evidence(
        design, build(design), motor_file, count, stock_stages=stock_stages, like=like
    )
    findings = checks.run(evidence)
    return conclude(evidence, findings)


@dataclass(frozen=True)
class Moved:
    """What turner and drive do together, whichever motor turns them; as in `Evidence`."""

    closing: Closing
    ends: Ends
    as_built: AsBuilt | None = None
    cycle: TurnCycle | None = None
    starting: TurnCycle | None = None
    families: tuple[Family, ...] = ()
    better_direction: int = 0
    clearances: Clearances | None = None


def move(design: Design, built: Built, count: int) -> Moved:
    """Return what a built design does over its cycle; only its ends where it does not close."""
    turner, drive = built.turner, built.drive
    closing, swing = drive.closing(turner.path()), ends(turner, drive)
    if not closing.closes or not np.isfinite(swing.total):
        return Moved(closing, swing)
    loads = turner.load_cases()
    cycle = turn_cycle(turner, drive, loads, count=count)
    return Moved(
        closing=closing,
        ends=swing,
        as_built=as_built(turner, drive, drive.play),
        cycle=cycle,
        starting=turn_cycle(turner, drive, loads, levels=("starting",), count=count),
        families=families(cycle),
        better_direction=better_direction(cycle),
        clearances=room(design, built, cycle, swing),
    )


def taken_over(design: Design, built: Built, count: int, like: Evidence) -> Moved | None:
    """Return what another sizing found out where turner, drive and box are no others; else None."""
    if like.cycle is None or design["box"] != like.design["box"]:
        return None
    if built.drive.positions(built.turner.travel, count).size != like.cycle.motion.position.size:
        return None
    if not alike(built.turner, like.turner) or not alike(built.drive, like.drive):
        return None
    return Moved(**{field.name: getattr(like, field.name) for field in fields(Moved)})


def gather_evidence(
    design: Design,
    built: Built,
    motor_file: MotorFile | None,
    count: int,
    *,
    stock_stages: bool = True,
    like: Evidence | None = None,
) -> Evidence:
    """Return everything computed about a built design; see `size`."""
    moved = taken_over(design, built, count, like) if like else None
    moved = moved or move(design, built, count)
    common: dict[str, Any] = {
        "design": design,
        "kind": built.kind,
        "ingredients": built.ingredients,
        "turner": built.turner,
        "drive": built.drive,
        "stages": built.stages,
        **vars(moved),
    }
    if moved.cycle is None or moved.starting is None:
        return Evidence(
            **common,
            demand=None,
            motors=(),
            chosen=None,
            shopping=None,
            timing=None,
        )
    cycle, swing = moved.cycle, moved.ends
    of_shaft = asked_of_shaft(design, built, cycle, moved.starting, swing)
    asked = behind(of_shaft, built.stages)

    def asked_behind(stages: Stages) -> Demand:
        return behind(of_shaft, stages)

    ranked = motors.rank(motor_file, asked) if motor_file else ()
    if stock_stages and not asked.linear:
        ranked = motors.with_stages(ranked, built.stages, asked_behind)
    chosen = choose(design, motor_file, ranked)
    timed = timing.plan_timing(design, built, cycle, asked, chosen)
    return Evidence(
        **common,
        demand=asked,
        motors=ranked,
        chosen=chosen,
        shopping=motors.shopping_line(asked),
        timing=timed,
        running=timing.plan_running(
            cycle, asked, chosen, timed, swing, anywhere=wording_of(built.turner).anywhere
        ),
        warmth=warmth(design, egg_mass(built, cycle.loads), asked, chosen),
    )


def egg_mass(built: Built, loads: Sequence[LoadCase]) -> float:
    """Return the mass of the eggs when the turner is full [kg]."""
    return max(case.egg_count for case in loads) * float(built.ingredients.lot.typical.mass)


def choose(
    design: Design, motor_file: MotorFile | None, ranked: Sequence[MotorResult]
) -> MotorResult | None:
    """Return the motor the design names, else the best that can be judged at all."""
    wanted = design["motor"].have
    if not motor_file:
        return None  # without a file, or with an empty one, there is only shopping to do
    if wanted is None:
        return next((result for result in ranked if result.verdict is not Answer.UNKNOWN), None)
    row = motor_file.row(wanted)
    return next(result for result in ranked if result.row is row)


def room(design: Design, built: Built, cycle: TurnCycle, swing: Ends) -> Clearances:
    """Return the room around everything that moves."""
    box = design["box"]
    from_left = built.turner.origin_from_left
    return clearances(
        built.turner,
        cycle.motion,
        (swing.low, swing.high),
        width=box.width,
        height=box.height,
        origin_across=None if from_left is None else from_left - 0.5 * box.width,
    )


def conclude(evidence: Evidence, findings: tuple[Finding, ...]) -> Sizing:
    """Return the sizing: the verdict, the one reason, what is assumed and what is unknown."""
    own = evidence.chosen.findings if evidence.chosen else ()
    judged = [finding for finding in (*own, *findings) if finding.caps_verdict]
    verdict = worst([finding.answer for finding in judged])
    unknown = [finding for finding in (*findings, *own) if finding.answer is Answer.UNKNOWN]
    return Sizing(
        **{field.name: getattr(evidence, field.name) for field in fields(Evidence)},
        findings=findings,
        verdict=verdict,
        reason=deciding(judged, verdict),
        assumed=evidence.design.taken_for_granted(),
        unknown=tuple(unknown),
    )


def deciding(judged: Sequence[Finding], verdict: Answer) -> Finding:
    """Return the finding that decides a verdict: answers before unknowns."""
    known = [finding for finding in judged if finding.answer is verdict]
    unknown = [finding for finding in judged if finding.answer is Answer.UNKNOWN]
    if verdict is Answer.MARGINAL:
        return (known or unknown)[0]
    return (known or list(judged))[0]
