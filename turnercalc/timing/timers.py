"""What to set on each kind of timer that people have, or why it cannot do it."""

from __future__ import annotations

import math
from dataclasses import dataclass

#: What an ordinary slot timer (plug-in clock with pins) switches at the least [s].
SLOT = 900.0
SLOTS_A_DAY = 96
#: Switching times that seconds timers of the rail and plug-in kind usually keep in a day
#: (common practice, no source).
PROGRAMS_A_DAY = 20
#: Steps in which the times are set [s].
SECONDS_STEP = 1.0
REPEAT_STEP = 0.1
LONGEST_FINE_ON = 10.0  # a repeat-cycle timer has its tenths on the ranges up to so much [s]

PARK, ENDS, CLOCK, STEPS = "park switch", "end switches", "timer", "counted steps"


@dataclass(frozen=True)
class Setting:
    """One kind of timer.

    Attributes
    ----------
    id : str
        ``seconds_timer``, ``repeat_cycle_timer`` or ``slot_timer``.
    name : str
    does : bool
        Whether it can do the job.
    on_time, off_time : float or None
        To set [s]; None where it cannot.
    off_by : float or None
        Where nothing but the clock stops the shaft: by how much one move can be off because the
        timer has steps [rad or m].
    text : str
        The setting, or why it cannot.
    """

    id: str
    name: str
    does: bool
    on_time: float | None
    off_time: float | None
    off_by: float | None
    text: str


@dataclass(frozen=True)
class Task:
    """What a timer has to do.

    Attributes
    ----------
    stopped_by : str
        ``park switch``, ``end switches``, ``timer`` or ``counted steps``.
    reverses : bool
        Whether the motor goes to and fro.
    interval : float
        From the start of one move to the start of the next [s].
    shortest, longest : float
        A single move [s].
    run_time : float
        What the clock alone would be set to [s].
    shaft_speed : float
        [rad/s or m/s]
    """

    stopped_by: str
    reverses: bool
    interval: float
    shortest: float
    longest: float
    run_time: float
    shaft_speed: float


def settings(task: Task) -> tuple[Setting, ...]:
    """Return what to set on a repeat-cycle timer, a seconds timer and a slot timer."""
    return _repeat(task), _seconds(task), _slot(task)


def start_pulse(task: Task, step: float) -> float | None:
    """Return how long a timer has to bridge a park switch [s], or None where no step fits.

    Half of the shortest move: long enough to be off the switch, too short for a second move.
    """
    pulse = math.floor(0.5 * task.shortest / step + 1e-9) * step
    if pulse <= 0.0:
        pulse = step
    return pulse if pulse < 0.9 * task.shortest else None


def _alternates(task: Task) -> bool:
    """Whether the timer's contact says which way, and the end switches do the rest."""
    return task.stopped_by == ENDS and task.reverses


def _too_often(task: Task) -> str:
    if task.longest < task.interval:
        return ""
    return f"A turn takes up to {time_words(task.longest)} and the next is due before that."


# -- each kind -----------------------------------------------------------------------------------


def _repeat(task: Task) -> Setting:
    what = ("repeat_cycle_timer", "Repeat-cycle timer")
    if late := _too_often(task):
        return _cannot(*what, late)
    if _alternates(task):
        text = f"on {time_words(task.interval)}, off the same. {_BY_RELAY}"
        return Setting(*what, True, task.interval, task.interval, None, text)
    step = REPEAT_STEP if task.shortest <= LONGEST_FINE_ON else SECONDS_STEP
    return _pulsed(task, what, step, "")


def _seconds(task: Task) -> Setting:
    what = ("seconds_timer", "Seconds timer")
    if late := _too_often(task):
        return _cannot(*what, late)
    moves = 86400.0 / task.interval
    programs = moves / 2.0 if _alternates(task) else moves
    wanted = math.ceil(programs - 1e-9)
    note = f"It takes {wanted} switching times a day"
    note += f"; many keep {PROGRAMS_A_DAY}." if wanted > PROGRAMS_A_DAY else "."
    if _alternates(task):
        text = f"on {time_words(task.interval)}, off the same. {note} {_BY_RELAY}"
        return Setting(*what, True, task.interval, task.interval, None, text)
    return _pulsed(task, what, SECONDS_STEP, note)


def _slot(task: Task) -> Setting:
    what = ("slot_timer", "Slot timer")
    slot = time_words(SLOT)
    if late := _too_often(task):
        return _cannot(*what, late)
    slots = task.interval / SLOT
    fits = slots >= 1.0 and abs(slots - round(slots)) < 1e-9
    if not fits:
        return _cannot(
            *what,
            f"its slots are {slot}, and {time_words(task.interval)} is no whole number of them.",
        )
    if _alternates(task):
        text = (
            f"{round(slots)} {'slot' if round(slots) == 1 else 'slots'} on, as many off, all "
            f"round the dial. {_BY_RELAY}"
        )
        return Setting(*what, True, task.interval, task.interval, None, text)
    if task.stopped_by == STEPS:
        text = f"one slot in {round(slots)} on, if your control starts on the switching alone."
        if slots < 2.0:
            return _cannot(*what, f"with a turn every {slot} it would never switch off between.")
        return Setting(*what, True, SLOT, task.interval - SLOT, None, text)
    runs = f"about {SLOT / max(task.run_time, 1e-9):.0f} turns on end"
    if task.stopped_by == CLOCK:
        then = f"the motor would make {runs} and stop anywhere"
    else:
        then = f"the switch would be bridged all the while, for {runs}"
    return _cannot(*what, f"it cannot switch for less than {slot}; {then}.")


_BY_RELAY = "Its contact works a changeover relay that says which way; the end switches stop it."


def _pulsed(task: Task, what: tuple[str, str], step: float, note: str) -> Setting:
    """Return the setting of a timer that switches on for a short while."""
    if task.stopped_by == CLOCK:
        on = max(round(task.run_time / step), 1) * step
        off_by = abs(task.shaft_speed) * max(0.5 * step, abs(on - task.run_time))
        text = f"on {time_words(on)}, off {time_words(task.interval - on)}. {note}".strip()
        if task.reverses:
            text += " It has to turn the motor round each time."
        return Setting(*what, True, on, task.interval - on, off_by, text)
    pulse = step if task.stopped_by == STEPS else start_pulse(task, step)
    if pulse is None:
        return _cannot(
            *what,
            f"its shortest on-time of {time_words(step)} is too long: a turn takes only "
            f"{time_words(task.shortest)}, and it would start the next.",
        )
    ends = "The control does the rest." if task.stopped_by == STEPS else "The switch does the rest."
    text = f"on {time_words(pulse)}, off {time_words(task.interval - pulse)}. {ends} {note}".strip()
    return Setting(*what, True, pulse, task.interval - pulse, None, text)


def _cannot(id_: str, name: str, why: str) -> Setting:
    return Setting(id_, name, False, None, None, None, f"no. {why[0].upper()}{why[1:]}")


def time_words(seconds: float) -> str:
    """Return a time as it is set: ``2.5 s``, ``59 min 57 s``, ``1 h``."""
    tenths = round(seconds * 10.0)
    if tenths < 600:
        return f"{tenths / 10:g} s"
    whole = round(seconds, 1)
    hours, rest = divmod(whole, 3600.0)
    minutes, left = divmod(rest, 60.0)
    parts = [(hours, "h"), (minutes, "min"), (round(left, 1), "s")]
    return " ".join(f"{value:g} {unit}" for value, unit in parts if value)
