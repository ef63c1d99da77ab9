"""How often and until when, as people and timers say it."""

from __future__ import annotations

import re
from dataclasses import replace

from turnercalc import units
from turnercalc.errors import UnitError
from turnercalc.fields import Phrase, count, ratio

DAY = 86400.0  # s

_PER_DAY = re.compile(
    r"(?P<number>[\d.,/]+|once|twice) ?(?:x|×|times?|turns?)? ?(?:a|per|each|every|/) ?day", re.I
)
_EVERY = re.compile(r"(?:once |one turn |1 turn )?(?:every|each|per|an?) ?(?P<time>.+)", re.I)
_TIMER = re.compile(r"h ?(?P<hours>[\d.,]+)", re.I)  # hours between turns, on a digital timer
_DAY = re.compile(r"(?:until |to |up to )?(?:day )?(?P<number>[\d.,]+)(?: days?)?", re.I)
_ONE = {"hour": "1 h", "hourly": "1 h", "day": "1 d", "minute": "1 min", "half hour": "30 min"}
_WORDS = {"once": 1.0, "twice": 2.0}


def read_turns_per_day(text: str) -> float:
    """Read ``24``, ``24 x a day``, ``every 1 h``, ``hourly`` or a timer's ``h 1``.

    Raises
    ------
    UnitError
        It is none of them.
    """
    tidied = " ".join(text.split()).lower()
    if match := _PER_DAY.fullmatch(tidied):
        number = match["number"]
        return _WORDS.get(number) or units.parse(number, "ratio")
    if match := _TIMER.fullmatch(tidied):
        return _turns(units.parse(f"{match['hours']} h", "time"), text)
    every = _EVERY.fullmatch(tidied)
    between = every["time"] if every else tidied
    if every or between in _ONE:
        return _turns(units.parse(_ONE.get(between, between), "time"), text)
    try:
        return units.parse(tidied, "ratio")
    except UnitError:
        message = f'"{text}" does not say how many turns a day.'
        raise UnitError(message, text=text, choices=("24", "every 1 h")) from None


def _turns(seconds: float, text: str) -> float:
    if seconds <= 0.0:
        message = f"{text}: between two turns some time has to pass."
        raise UnitError(message, text=text, choices=("every 1 h",))
    return DAY / seconds


def read_day(text: str) -> float:
    """Read ``18``, ``day 18`` or ``18 days``."""
    match = _DAY.fullmatch(" ".join(text.split()))
    return units.parse(match["number"] if match else text, "count")


TURNS_PER_DAY: Phrase = replace(
    ratio(0.5, 2000.0, example="24"), kind="turns per day", reader=read_turns_per_day
)
LAST_DAY: Phrase = replace(count(1, 100, example="18"), kind="day", reader=read_day)
