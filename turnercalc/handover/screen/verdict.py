"""The verdict, its one reason, and the one change that helps most."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from turnercalc.findings import Answer
from turnercalc.handover.display import Style
from turnercalc.handover.layout import labelled, wrap

if TYPE_CHECKING:
    from turnercalc.advice import Advice, Change
    from turnercalc.sizing import Sizing

_MARGIN = 2
_COLUMN = 13
OTHERS = 2  # changes told besides the best
NAMED = 3  # questions answered better that are told by name
NOTHING_HELPS = (
    "No change that was tried makes it better, nor do several together. "
    "Begin with what is said above."
)

ONLY_BETTER = (
    "No change that was tried makes it work, nor do several together. These only make it better; "
    "what then is still in the way stands beside each."
)


def verdict_block(sizing: Sizing, advice: Advice, style: Style) -> list[str]:
    """Return the block that a builder reads first."""
    word = sizing.verdict.value.upper()
    head = wrap(style.letters(title(sizing)), 11, word.ljust(11))
    head[0] = style.paint(word, sizing.verdict.value) + head[0][len(word) :]
    lines = [*head, "", *_told("Because", reason_words(sizing), style)]
    if not advice.changes and sizing.verdict is not Answer.FINE:
        lines += _told("Do this", NOTHING_HELPS, style)
    nearest = bool(advice.changes) and not advice.works
    if nearest:
        lines += _told("Do this", ONLY_BETTER, style)
    for number, change in enumerate(advice.changes[: 1 + OTHERS]):
        first = "Nearest" if nearest else "Do this"
        lines += _told("Or" if number else first, change_words(change, sizing), style)
        lines += _try_it(change.settings, style)
    return lines + _shopping(sizing, style)


def title(sizing: Sizing) -> str:
    """Return the design's name and the motor it is judged with."""
    if sizing.chosen is not None:
        return f"{sizing.design.name}, motor {sizing.chosen.motor.id}"
    wanted = sizing.design["motor"].have
    return sizing.design.name + (
        ", no motor chosen" if wanted is None else f", motor {wanted} not judged"
    )


def reason_words(sizing: Sizing) -> str:
    """Return the one reason for the verdict."""
    reason = sizing.reason
    text = reason.text
    if sizing.verdict is Answer.FINE and sizing.chosen is None:
        return "Every question about the turner is answered well. Its motor is still open."
    if about_motor(sizing) and sizing.chosen is not None:
        text = f"Motor {sizing.chosen.motor.id}: {text[0].lower()}{text[1:]}"
    return f"{text} {reason.ask}" if reason.answer is Answer.UNKNOWN and reason.ask else text


def about_motor(sizing: Sizing) -> bool:
    """Tell whether it is the motor that decides the verdict."""
    return sizing.chosen is not None and sizing.reason in sizing.chosen.findings


def change_words(change: Change, sizing: Sizing) -> str:
    """Return what to do and what it brings, by the numbers of the change itself."""
    brings = []
    before = sizing.chosen.times_enough if sizing.chosen else None
    after = change.times_enough_after
    if change.peak_after is not None and _differs(change.peak_after, _peak(sizing)):
        unit = "N·m" if sizing.drive.position_unit == "rad" else "N"
        jams = math.isinf(change.peak_after)
        takes = f"the hardest turn takes {change.peak_after:.2f} {unit}"
        brings.append("friction jams it" if jams else takes)
    if after is not None and _differs(after, before):
        brings.append(f"{change.motor_after or 'the motor'} is {after:.1f} times enough")
    if change.move_time_after is not None and _slower(change, sizing):
        brings.append(f"a turn takes up to {change.move_time_after:.0f} s")
    if change.gained:
        brings.append(gained_words(change.gained))
    word = change.verdict_after.value.upper()
    same = change.verdict_after is sizing.verdict
    brings.append(f"this still says {word}" if same else f"this says {word}")
    return f"{change.say} Then {_listed(brings)}{f': {change.still}' if change.still else '.'}"


def gained_words(titles: Sequence[str]) -> str:
    """Return which questions are answered better, the first few by name."""
    named = [f'"{title}"' for title in titles[:NAMED]]
    if len(titles) > NAMED:
        named.append(f"{len(titles) - NAMED} more")
    every = named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"
    return f"{every} {'is' if len(named) == 1 else 'are'} answered better"


def _peak(sizing: Sizing) -> float | None:
    planned = [f for f in sizing.families if f.planned]
    if not planned or sizing.cycle is None:
        return None
    middle = sizing.cycle.levels.index("middle")
    return max(float(f.peaks[middle, sizing.told_direction]) for f in planned)


def _slower(change: Change, sizing: Sizing) -> bool:
    now = sizing.timing.longest_move if sizing.timing else None
    return (
        now is not None
        and change.move_time_after is not None
        and (change.move_time_after > 1.3 * now)
    )


def _differs(one: float | None, other: float | None) -> bool:
    """Tell whether two figures would be read as different."""
    if one is None or other is None:
        return one is not other
    return abs(one - other) > 0.01 * max(abs(one), abs(other))


def _listed(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])}, and {parts[-1]}"


def _try_it(settings: Mapping[str, str], style: Style) -> list[str]:
    """Return the settings to try, one a line, ready to be copied."""
    lines = []
    for number, (field, value) in enumerate(settings.items()):
        first = "Try it:  " if number == 0 else ""
        setting = style.letters(set_text(field, value))
        lines.append(" " * _COLUMN + first.ljust(9) + setting)
    return lines


def set_text(field: str, value: str) -> str:
    """Return a setting as it is typed; the quote marks are those the value leaves free."""
    mark = "'" if '"' in value else '"'
    return f"--set {field}={mark}{value}{mark}"


def _shopping(sizing: Sizing, style: Style) -> list[str]:
    """Return what to buy, where the motor decides or there is none yet."""
    shopping = sizing.shopping
    if shopping is None:
        return []
    if sizing.chosen is None:
        return _told("Buy", shopping.text, style)
    if sizing.verdict is Answer.FINE or not about_motor(sizing):
        return []
    return _told("Or buy", shopping.text, style)


def _told(label: str, text: str, style: Style) -> list[str]:
    words = style.to_buy(text) if "kgf" in text else style.words(text)
    return labelled(label, words, margin=_MARGIN, column=_COLUMN)
