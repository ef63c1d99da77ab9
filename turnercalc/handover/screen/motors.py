"""YOUR MOTORS: best first, how many times enough, and the one reason where one is not fine."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.findings import Answer
from turnercalc.handover.display import Style
from turnercalc.handover.layout import WIDTH, section, wrap
from turnercalc.handover.motor_list import FIELDS
from turnercalc.handover.screen.verdict import about_motor

if TYPE_CHECKING:
    from turnercalc.motors import Motor, MotorResult
    from turnercalc.sizing import Sizing

MOST = 15  # told on the page; JSON has them all
_TIMES = 55
_ANSWER = WIDTH - 8
_REASON = 7


def your_motors(sizing: Sizing, style: Style) -> list[str]:
    """Return every motor of the file in a line or two, then the classes that suit."""
    lines = []
    if sizing.motors:
        beside = "> is the one judged above"
        jam = jam_words(sizing)
        lines.append(section("YOUR MOTORS", beside if jam else f"best first; {beside}"))
        lines += wrap(jam, 2) if jam else []
        told = list(sizing.motors[:MOST])
        if sizing.chosen is not None and sizing.chosen not in told:
            told.append(sizing.chosen)
        for result in told:
            lines += _motor(result, result is sizing.chosen, style)
        left = len(sizing.motors) - len(told)
        if left:
            lines += wrap(f"and {left} more, none of them better: --json lists every one.", 4)
    elif sizing.shopping is not None:
        lines += [section("MOTORS"), "  No motor to judge: add -m motors.csv with your own."]
    return lines + _to_buy(sizing, style)


def jam_words(sizing: Sizing) -> str:
    """Return in one sentence for all motors that friction jams the drive; empty if it does not."""
    jammed = [r for r in sizing.motors if r.jammed]
    found = jammed[0].finding("motor_strength") if jammed else None
    return "" if found is None else sentence(found.text)


def _motor(result: MotorResult, chosen: bool, style: Style) -> list[str]:
    motor, answer = result.motor, result.verdict.value
    mark = "> " if chosen else "  "
    told = figures(motor, style)
    name = style.letters(told if motor.called_by_title else f"{motor.id}  {told}")
    lines = wrap(name, 6, mark, width=_TIMES - 2)
    shown = "?" if result.verdict is Answer.UNKNOWN else answer
    lines[0] = lines[0].ljust(_TIMES) + times_words(result).ljust(_ANSWER - _TIMES)
    lines[0] += style.paint(shown, answer)
    if result.verdict is not Answer.FINE and result.why and says_more(result):
        lines += wrap(style.words(sentence(result.why)), _REASON)
    for text in (*with_a_stage(result), *without_stages(result)):
        lines += wrap(style.words(text), _REASON)
    return lines


def with_a_stage(result: MotorResult) -> list[str]:
    """Return the stock stage that would make a motor fit, in a sentence."""
    staged = result.staged
    if staged is None:
        return []
    pairs = " and ".join(f"{motor}-to-{driven}" for motor, driven in staged.pairs)
    one = len(staged.pairs) == 1
    pair = f"{'A' if one else 'Two stages of'} {pairs} tooth {staged.kind}"
    enough = staged.result.times_enough
    how = "" if enough is None else f": {enough:.1f} times enough"
    if staged.result.verdict is Answer.FINE:
        return [f"{pair} {'makes' if one else 'make'} it do{how}."]
    return [f"{pair} {'makes' if one else 'make'} it {staged.result.verdict.value}{how}."]


def without_stages(result: MotorResult) -> list[str]:
    """Return what the motor would be without the stages of the design, where that differs."""
    alone = result.without_stages
    if alone is None or alone.times_enough is None or alone.verdict is result.verdict:
        return []
    return [f"Without the gearing: {alone.verdict.value}, {alone.times_enough:.1f} times enough."]


def says_more(result: MotorResult) -> bool:
    """Tell whether the reason says more than the figure beside it, or than all jammed ones."""
    if result.jammed and result.verdict is Answer.NO:
        return False
    deciding = result.deciding
    return not (
        deciding is not None
        and deciding.id == "motor_strength"
        and result.why == deciding.text
        and result.dependable_from == "rated"
    )


def sentence(text: str) -> str:
    """Return a text with the capital and the full stop of a sentence."""
    return text[0].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def figures(motor: Motor, style: Style) -> str:
    """Return a motor in a few words: what it is, its speed, its torque and of which kind."""
    parts = [motor.title or (motor.motor_class or "motor").replace("_", " ")]
    for name in ("rated_speed", "unnamed_speed", "free_speed", "travel_speed"):
        value = getattr(motor, name)
        if value is not None:
            parts.append(style.show(value, FIELDS[name].kind))
            break
    for name in (
        "rated_torque",
        "unnamed_torque",
        "stall_torque",
        "starting_torque",
        "holding_torque",
        "force",
    ):
        value = getattr(motor, name)
        if value is not None:
            kind = name.removesuffix("_torque").replace("unnamed", "of unsaid kind")
            size = style.show(value, FIELDS[name].kind)
            parts.append(size if name == "force" else f"{size} {kind}")
            break
    return ", ".join(parts)


def times_words(result: MotorResult) -> str:
    """Return how many times enough a motor is, or why there is no such figure."""
    if result.times_enough is None:
        return "not used" if result.verdict is Answer.UNKNOWN else ""
    if result.jammed:
        return "jams"
    if result.deciding is not None and result.deciding.id == "motor_speed":
        return "wrong speed"
    if not math.isfinite(result.times_enough):
        return "no load"
    return f"{result.times_enough:.1f} times"


def _to_buy(sizing: Sizing, style: Style) -> list[str]:
    """Return the classes of motor that suit this turner, and what to look for in a listing."""
    if sizing.shopping is None:
        return []
    told_above = sizing.chosen is None or (
        sizing.verdict is not Answer.FINE and about_motor(sizing)
    )
    lines = [] if told_above else wrap(style.to_buy(f"To buy: {sizing.shopping.text}"), 4, "  ")
    names = [kind.name for kind in sizing.shopping.suitable_classes if kind.suits]
    if not names:
        return lines + wrap("No common class of motor suits as it stands.", 4, "  ")
    return lines + wrap(style.letters(f"Classes that suit: {'; '.join(names)}."), 4, "  ")
