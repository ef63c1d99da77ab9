"""What the words of a listing say: direction, holding, duty, protection, price."""

from __future__ import annotations

import re
from functools import lru_cache

from turnercalc.errors import UnitError
from turnercalc.motors.motor import Duty, StartDirection
from turnercalc.units.numbers import read_number

_REVERSIBLE = re.compile(
    r"\bnot? (?:be )?revers\w*|\bnon[- ]?revers\w*"
    r"|(?P<yes>\brevers(?:ible|ing)\b|\bbi-?directional\b|\bboth (?:ways|directions|senses)\b"
    r"|\btwo[- ](?:way|direction\w*)\b|\bcc?w ?(?:/|&|and|or|\+|,) ?cc?w\b|\bforward\W+reverse\b"
    r"|\bcw ?ccw\b|\bas wired\b|\beither direction\b)"
)
_UNDEFINED = re.compile(
    r"\beither way\b|\brandom\w*|\bundefined\b|\bunpredictab\w*|\bopen\b|\bany direction\b"
    r"|\bcc?w ?or ?cc?w at random\b|\bvar(?:ies|ying)\b|\buncontrolled\b"
)
_ONE_WAY = re.compile(
    r"\bone[- ](?:way|direction\w*)\b|\buni-?directional\b|\bsingle direction\b|\b(?:cw|ccw) only\b"
    r"|^ ?c?cw$|\bonly c?cw\b|^(?:anti|counter)?-?clockwise(?: only)?$|\bsingle rotation\b"
)
_HOLDS_NOT = re.compile(
    r"\b(?:not?|non|isn'?t|without|doesn'?t)[- ](?:self[- ]?lock\w*|hold\w*)"
    r"|\bback-?driv(?:es|able)"
)
_HOLDS = re.compile(
    r"\bself[- ]?lock(?:ing|s)?\b(?![- :]*(?:torque|force|\d))|\bholds? (?:its )?(?:position|load)"
    r"|\bholds when off\b|\bnon[- ]?back-?driv\w*|\bwith (?:a )?brake\b|\bpower[- ]off brake\b"
)
_IP = re.compile(r"\bip ?-?([0-6x][0-9x])k?\b")
_S_TYPE = re.compile(r"\bs(10|[1-9])\b[-:, (]*(?:(\d+(?:[.,]\d+)?) ?(min\w*|%|s\b|sec\w*|h\b))?")
_ON_OFF = re.compile(
    r"(\d+(?:[.,]\d+)?) ?(s|sec\w*|min\w*|h|hours?)\.? ?(?:on|run\w*)\b[ ,/;:&+-]*(?:and )?"
    r"(\d+(?:[.,]\d+)?) ?(s|sec\w*|min\w*|h|hours?)\.? ?(?:off|rest\w*|pause|stop\w*|cool\w*)"
)
_PERCENT_DUTY = re.compile(
    r"(?:duty|service|ed|cdf|on time)\D{0,14}?(\d+(?:[.,]\d+)?) ?%"
    r"|(\d+(?:[.,]\d+)?) ?% ?(?:duty|ed\b|on\b|max|cycle|$)"
)
_PERCENT = re.compile(r"(\d+(?:[.,]\d+)?) ?%")
_SHORT_TIME = re.compile(
    r"(?:max\w*|at most|not (?:over|more than)|up to|short[- ]time|continuous run\w*)\D{0,20}?"
    r"(\d+(?:[.,]\d+)?) ?(s|sec\w*|min\w*|h|hours?)\b"
)
_JUST_A_TIME = re.compile(r"(\d+(?:[.,]\d+)?) ?(s|sec\w*|min\w*|h|hours?)")
_CONTINUOUS = re.compile(r"\bcontinuous(?:ly)?\b(?! (?:torque|current|run\w* \d))|\b24 ?h|\b100 ?%")
_CURRENCY = {"£": "GBP", "$": "USD", "€": "EUR", "eur": "EUR", "usd": "USD", "gbp": "GBP"}
_PRICE = re.compile(
    r"(£|\$|€|eur|usd|gbp)\s*(\d[\d.,']*)|(\d[\d.,']*)\s*(£|\$|€|eur|usd|gbp|dollars?|euros?|pounds?)"
)
_SECONDS = {"s": 1.0, "m": 60.0, "h": 3600.0}
_YES = frozenset({"yes", "y", "true", "1", "x", "ok", "holds"})
_NO = frozenset({"no", "n", "false", "0"})


_INSULATION = re.compile(
    r"\binsul(?:ation|\.)?[ .]*(?:class|cl\.?|grade)?[ :.]*(?:is )?([aebfh])\b(?!-)"
)
_JUST_A_CLASS = re.compile(r"(?:class|cl\.?|grade)?[ :]*([aebfh])\b.{0,12}")


@lru_cache(maxsize=16384)
def start_direction(text: str) -> StartDirection | None:
    """Return which way the words say that a motor starts, or None."""
    if _UNDEFINED.search(text):
        return StartDirection.UNDEFINED
    match = _REVERSIBLE.search(text)
    if match is not None:
        return StartDirection.REVERSIBLE if match["yes"] else StartDirection.ONE_WAY
    return StartDirection.ONE_WAY if _ONE_WAY.search(text) else None


@lru_cache(maxsize=16384)
def holds_when_off(text: str) -> bool | None:
    """Return whether the words say that a motor holds its load when off, or None."""
    if _HOLDS_NOT.search(text) and not re.search(r"non[- ]?back", text):
        return False
    return True if _HOLDS.search(text) else None


def yes_or_no(text: str) -> bool | None:
    """Return what a cell of yes and no says, or None."""
    first = text.strip(" .!").split(" ")[0].strip(",;:")
    return True if first in _YES else False if first in _NO else None


@lru_cache(maxsize=16384)
def protection(text: str) -> str | None:
    """Return the IP code in a text, or None."""
    match = _IP.search(text)
    return f"IP{match[1].upper()}" if match else None


@lru_cache(maxsize=16384)
def insulation(text: str, in_its_column: bool = False) -> str | None:
    """Return the class of insulation (IEC 60085) that a text names, or None.

    ``insulation class B``, ``ins. cl. F``; in a column of its own the letter alone.
    """
    match = _INSULATION.search(text)
    if match is None and in_its_column:
        match = _JUST_A_CLASS.fullmatch(text)
    return match[1].upper() if match else None


def _plain(number: str) -> float:
    return float(number.replace(",", "."))


@lru_cache(maxsize=16384)
def duty(text: str, in_duty_column: bool = False) -> Duty | None:
    """Return the duty a text names, or None.

    ``S2 10 min``, ``S3 25 %``, ``2 min on 18 min off``, ``duty 10 %``, ``continuous``.
    """
    match = _S_TYPE.search(text)
    if match is not None:
        return _duty_type(match)
    match = _ON_OFF.search(text)
    if match is not None:
        on = _plain(match[1]) * _SECONDS[match[2][0]]
        off = _plain(match[3]) * _SECONDS[match[4][0]]
        return Duty("S3", share=on / (on + off), cycle=on + off) if on > 0 else None
    match = _PERCENT_DUTY.search(text)
    if match is None and in_duty_column:
        match = _PERCENT.search(text)
    if match is not None:
        share = _plain(next(filter(None, match.groups()))) / 100.0
        if 0.0 < share <= 1.0:
            return Duty("S1") if share == 1.0 else Duty("S3", share=share)
    if not in_duty_column:
        return None
    return _duty_in_its_column(text)


def _duty_type(match: re.Match[str]) -> Duty | None:
    kind = f"S{match[1]}"
    if kind == "S1":
        return Duty("S1")
    amount = _plain(match[2]) if match[2] else None
    if kind == "S2":
        run = amount * _SECONDS[match[3][0]] if amount and match[3] != "%" else None
        return Duty("S2", run_time=run)
    share = amount / 100.0 if amount and match[3] == "%" and 0.0 < amount <= 100.0 else None
    return Duty(kind, share=share)


def _duty_in_its_column(text: str) -> Duty | None:
    match = _SHORT_TIME.search(text) or _JUST_A_TIME.fullmatch(text)
    if match is not None:
        run = _plain(match[1]) * _SECONDS[match[2][0]]
        return Duty("S2", run_time=run) if run > 0.0 else None
    if _CONTINUOUS.search(text):
        return Duty("S1")
    if "intermittent" in text:
        return Duty("S3")
    return Duty("S2") if "short" in text else None


@lru_cache(maxsize=16384)
def price(text: str, bare: bool = False) -> tuple[float, str] | str | None:
    """Return amount and currency of a price, why it cannot be read, or None where there is none.

    `bare` lets a number without a currency count: its column is one of prices.
    """
    match = _PRICE.search(text)
    if match is not None:
        amount = match[2] or match[3]
        sign = match[1] or match[4]
        currency = _CURRENCY.get(sign[:3], _CURRENCY.get(sign[:1], sign[:3].upper()))
        currency = {"DOL": "USD", "POU": "GBP"}.get(currency, currency)
    else:
        found = re.search(r"\d[\d.,']*", text) if bare else None
        if found is None:
            return None
        amount, currency = found[0], ""
    try:
        return read_number(amount.replace("'", "").rstrip(".,")), currency
    except UnitError as error:
        return str(error)
