"""Is the motor strong enough: running, in the bad corner, from rest, over the move, holding."""

from __future__ import annotations

from turnercalc import units
from turnercalc.findings import Answer, Finding
from turnercalc.motors.case import Case
from turnercalc.motors.motor import StartDirection
from turnercalc.tables import limit

LONG_RUN = 60.0  # [s]; windings of motors this small warm through in a few minutes (from memory)
NEXT_TO_NOTHING = 0.02  # of the dependable torque: friction of any gearbox holds that
MOST_TIMES = 1e6


def shown(case: Case, torque: float) -> str:
    """Return a torque, or a force for a motor that moves in a line, for people."""
    return units.show(torque, "force" if case.demand.linear else "torque")


def times(value: float) -> str:
    """Return a ratio as people say it."""
    return "many times" if value > 100.0 else f"{value:.1f} times"


def where(case: Case, peak: tuple[float, str, int, int]) -> str:
    """Return which load asks for a peak."""
    return f' with the load "{peak[1]}"' if peak[1] else ""


def strength(case: Case) -> Finding:
    """Times enough against the wanted safety factor, at middle friction."""
    rule = limit("times_enough")
    fine = case.demand.safety_factor
    value = case.times_enough
    base = {
        "id": "motor_strength",
        "title": "Strong enough",
        "unit": "ratio",
        "limit_fine": fine,
        "limit_no": 1.0,
        "reason": rule.reason,
        "source": rule.source,
        "fields": ("motor.safety_factor",),
    }
    if value is None:
        return Finding(
            answer=Answer.UNKNOWN,
            text="The listing gives no torque that may be counted on.",
            ask=_ask_torque(case),
            **base,  # type: ignore[arg-type]
        )
    if case.hardest[0] <= 0.0:
        text = "Nothing is asked of it: no planned load resists."
        return Finding(answer=Answer.FINE, text=text, value=MOST_TIMES, **base)  # type: ignore[arg-type]
    answer = _answer(value, fine)
    need = f"The hardest turn{where(case, case.hardest)} needs {shown(case, case.hardest[0])}"
    text = f"{need}; it gives {_gives(case)}: {times(value)} enough, {fine:g} wanted."
    if case.start_direction is not StartDirection.REVERSIBLE and len(case.directions) > 1:
        if not case.demand.both_directions_needed:
            text += f" {_start_words(case.start_direction)}, so the harder way counts."
    return Finding(
        answer=answer,
        text=text,
        value=min(value, MOST_TIMES),
        **base,  # type: ignore[arg-type]
    )


def _answer(value: float, fine: float) -> Answer:
    if value < min(1.0, fine):
        return Answer.NO
    return Answer.FINE if value >= fine else Answer.MARGINAL


def _start_words(start: StartDirection) -> str:
    if start is StartDirection.UNDEFINED:
        return "It may start either way"
    return "It turns one way only"


def _gives(case: Case) -> str:
    counted = case.counted
    torque = shown(case, counted.torque or 0.0)
    if counted.source == "rated":
        return torque
    listed = shown(case, counted.listed or 0.0)
    what = {
        "share of stall": "stall torque",
        "share of pull-out": "largest torque",
        "share of holding": "holding torque",
        "share of starting": "starting torque",
        "share of force": "force",
    }.get(counted.source, "listed torque, of which it is not said what kind it is,")
    return f"{torque}, {_share_words(counted.share)} of the {what} of {listed}"


def _share_words(share: float) -> str:
    named = {0.25: "a quarter", 0.5: "half", 1.0: "all"}
    return named.get(share, f"{share:.0%}")


def _ask_torque(case: Case) -> str:
    if case.traits.linear:
        return "Ask the seller for its force, in N or kgf."
    return "Ask the seller for the rated torque, and at what speed."


def torque_kind(case: Case) -> Finding | None:
    """A torque of which the listing does not say what kind it is."""
    counted = case.counted
    if counted.certain or counted.torque is None:
        return None
    listed = shown(case, counted.listed or 0.0)
    cautious, kindest = case.times_enough or 0.0, case.kindest_times or 0.0
    fine = case.demand.safety_factor
    alike = _answer(cautious, fine) == _answer(kindest, fine)
    if kindest < 1.0:
        text = f"Not said which torque its {listed} is (too weak either way)."
    elif alike:
        text = f"Not said which torque its {listed} is (it does either way)."
    else:
        text = (
            f"Not said which torque its {listed} is. As a rated torque it would be "
            f"{times(kindest)} enough; {_share_words(counted.share)} of it was counted."
        )
    return Finding(
        id="motor_torque_kind",
        title="Which torque is listed",
        answer=Answer.UNKNOWN,
        text=text,
        reason="A motor stalls or burns where its stall torque is taken for its rated torque.",
        source="common practice, no source",
        ask="Ask the seller whether it is the rated or the stall torque.",
        caps_verdict=not alike,
    )


def corner(case: Case) -> Finding | None:
    """Hardest planned load, high friction, from rest, low supply."""
    value = case.corner
    if value is None:
        return None
    rule = limit("motor_corner")
    if case.hardest_corner[0] <= 0.0:
        value = MOST_TIMES
    low = f"{case.traits.supply_low:.0%} of its supply"
    text = (
        f"From rest at high friction{where(case, case.hardest_corner)} it takes "
        f"{shown(case, case.hardest_corner[0])}; on {low} it has "
        f"{shown(case, value * case.hardest_corner[0])} left: {times(value)} enough."
    )
    if value >= MOST_TIMES:
        text = "No planned start resists."
    return Finding(
        id="motor_corner",
        title="The bad corner",
        answer=Answer.FINE if value >= 1.0 else Answer.NO,
        text=text,
        value=min(value, MOST_TIMES),
        unit="ratio",
        limit_fine=1.0,
        limit_no=1.0,
        reason=rule.reason,
        source=rule.source,
    )


def starting(case: Case) -> Finding | None:
    """Whether it starts where a move may have stopped."""
    torque = case.starting_torque
    if torque is None:
        return None
    need = case.hardest_corner[0]
    value = torque / need if need > 0.0 else MOST_TIMES
    known = case.motor.starting_torque is not None
    brushed = case.traits.starting_share is None
    if known or (brushed and case.motor.stall_torque is not None):
        how, source = "", "listing"
    elif brushed:
        how, source = "at least, since a brushed motor gives most at standstill", "from memory"
    else:
        share = case.traits.starting_share or 0.0
        how = f"{_share_words(share)} of what it gives running, as its class does"
        source = "table of motor classes (from memory)"
    note = f" ({how})" if how else ""
    return Finding(
        id="motor_starting",
        title="Starts anywhere",
        answer=Answer.FINE if value >= 1.0 else Answer.NO,
        text=(
            f"It starts against {shown(case, torque)}{note}; the hardest start, at high "
            f"friction, takes {shown(case, need)}."
        ),
        value=min(value, MOST_TIMES),
        unit="ratio",
        limit_fine=1.0,
        limit_no=1.0,
        reason="A power cut may stop it anywhere, and friction at rest is higher than running.",
        source=source,
    )


def rms(case: Case) -> Finding | None:
    """Root mean square of the torque over one move in time, against what it may give for long."""
    if case.line is None or case.counted.torque is None:
        return None
    value = case.rms_torque()
    if value is None:
        return None  # it does not get through, which the strength already says
    longest = max((long for _, long in case.move_times()), default=0.0)
    limit_torque = case.counted.continuous
    answer, text = Answer.FINE, f"Over a move it gives {shown(case, value)} on average (RMS)"
    ask = ""
    if longest <= LONG_RUN:
        text += f", for {longest:.0f} s: too short to heat it through."
    elif limit_torque is None:
        answer = Answer.UNKNOWN
        ask = "Ask the seller for the rated (continuous) torque."
        text += f", for {longest:.0f} s; what it may give for so long is not listed."
    elif value > limit_torque:
        answer = Answer.MARGINAL
        text += f", for {longest:.0f} s; it is rated for {shown(case, limit_torque)}."
    else:
        text += f"; it is rated for {shown(case, limit_torque)}."
    return Finding(
        id="motor_rms",
        title="Warms up over the move",
        answer=answer,
        text=text,
        value=value,
        unit=case.unit,
        limit_fine=limit_torque,
        reason="Heat follows the square of the torque over the time it runs; the pause between "
        "moves does not carry the load and does not count.",
        source="equivalent torque: G. K. Dubey, Fundamentals of Electrical Drives, chapter 4",
        ask=ask,
    )


def holding(case: Case) -> Finding:
    """Whether it stays where it parks when it is off."""
    need = case.demand.holding_torque
    enough = case.counted.torque or 0.0
    base = {
        "id": "motor_holding",
        "title": "Stays where it parks",
        "value": need,
        "unit": case.unit,
        "reason": "Judged with the lowest friction: what friction holds today may slip tomorrow.",
        "source": "definition",
    }
    if need <= NEXT_TO_NOTHING * enough or need <= 0.0:
        text = "Where it parks the load does not turn it."
        return Finding(answer=Answer.FINE, text=text, **base)  # type: ignore[arg-type]
    push = f"Where it parks the load turns it with {shown(case, need)}"
    holds = case.motor.holds_when_off
    if holds is None and case.motor.holding_torque is not None and not case.traits.all_steppers:
        holds = True
    if holds is None and case.traits.certain:
        holds = case.traits.holds_when_off
    if holds is False:
        text = (
            f"{push}, and it does not hold when off. Park it on a rest point, keep a brake on "
            "it, or drive through a worm."
        )
        return Finding(answer=Answer.MARGINAL, text=text, **base)  # type: ignore[arg-type]
    if holds is None:
        text = f"{push}; whether it holds when off is not listed."
        ask = "Turn its shaft by hand with the power off, or hang the load on it overnight."
        return Finding(answer=Answer.UNKNOWN, text=text, ask=ask, **base)  # type: ignore[arg-type]
    listed = case.motor.holding_torque
    bears = listed if listed is not None else enough
    if bears < need:
        text = f"{push}; it holds {shown(case, bears)}."
        return Finding(answer=Answer.MARGINAL, text=text, limit_fine=bears, **base)  # type: ignore[arg-type]
    return Finding(answer=Answer.FINE, text=f"{push}; it holds when off.", **base)  # type: ignore[arg-type]
