"""Which torque, which speed: the words that stand with a figure.

Listings say ``stall 70 kg.cm``, ``70 kg.cm (stall)``, ``no load 10, load 8`` or nothing. The
word before a figure counts before the word after it, within the same clause.
"""

from __future__ import annotations

import re
from functools import lru_cache

# In this order: "no load" before "load", "self-locking" before "locked".
_WORDS = (
    (
        "free",
        re.compile(r"\bno[- ]?load\w*|\bun-?loaded|\bfree\b|\bidl\w+|\bempty\b|\bno[- ]?ld\b"),
    ),
    ("holding", re.compile(r"\bself[- ]?lock\w*|\bhold\w*|\bbrak\w*|\bdetent\w*|\bstatic\b")),
    ("starting", re.compile(r"\bstart\w*|\bpull[- ]?in\b|\binitial\b")),
    (
        "stall",
        re.compile(
            r"\bstall\w*|\block\w*|\bblock\w*|\bmax\w*|\bpeak\b|\bbreak-?down\b|\bpull[- ]?out\b"
            r"|\blimit\w*|\binstant\w*|\bultimate\b"
        ),
    ),
    (
        "rated",
        re.compile(
            r"\brat(?:ed|ing)\b|\bnom(?:inal)?\b|\b(?:full[- ])?load(?:ed)?\b|\bwork(?:ing)?\b"
            r"|\bcont(?:inuous)?\b|\brun(?:ning)?\b|\bnormal\b|\bdynamic\b|\beffective\b"
        ),
    ),
)
_OUTPUT = re.compile(r"\bout(?:put)?\b|\bmech\w*|\bshaft power\b|\bat the shaft\b")
_INPUT = re.compile(r"\bin(?:put)?\b|\bconsum\w*|\belectric\w*|\bdraws?\b|\buses\b")
_CLAUSE_END = re.compile(r"[,;()|\[\]\n\x00/&]|\. | - | · | and ")
_TORQUE_WORD = re.compile(r"torque|force|moment|\btq\b|[:=]\s*$")
_LOCKING = re.compile(r"self[- ]?lock\w*|\bworm\b|\bbrak\w*|\bstatic\b")
_LAST_WORDS = 28  # characters; further off, a word belongs to something else


@lru_cache(maxsize=16384)
def label_in(text: str) -> str:
    """Return the label a text gives: free, holding, starting, stall, rated, or nothing."""
    return next((name for name, pattern in _WORDS if pattern.search(text)), "")


def label_before(text: str, start: int, floor: int) -> str:
    """Return the label that the words just before a figure give it."""
    clause = _CLAUSE_END.split(text[max(floor, start - 60) : start])[-1]
    clause = clause[-_LAST_WORDS:]
    name = _last_label(clause)
    return name if _meant(name, clause) else ""


def label_after(text: str, end: int, ceiling: int) -> str:
    """Return the label that the words just after a figure give it."""
    following = text[end:ceiling].lstrip(" ([")
    clause = _CLAUSE_END.split(following)[0][:_LAST_WORDS]
    name = next((n for n, pattern in _WORDS if pattern.match(clause)), "")
    return name if _meant(name, clause) else ""


def ends_clause(text: str, start: int, end: int) -> bool:
    """Whether a clause ends between two figures, not counting a bracket that opens at once."""
    return _CLAUSE_END.search(text[start:end].lstrip(" (")) is not None


@lru_cache(maxsize=16384)
def _last_label(clause: str) -> str:
    """Return the label whose word stands last in the clause: nearest to the figure."""
    best, place = "", -1
    for name, pattern in _WORDS:
        for match in pattern.finditer(clause):
            if match.end() > place:
                best, place = name, match.end()
    return best


def _meant(name: str, clause: str) -> bool:
    # "self-locking" alone praises the gear; it labels a figure only as a torque.
    if name != "holding" or not _LOCKING.search(clause):
        return bool(name)
    return bool(_TORQUE_WORD.search(clause))


def power_side(text: str) -> str:
    """Return ``output_power`` where the words say so, ``input_power`` else."""
    if _OUTPUT.search(text) and not _INPUT.search(text):
        return "output_power"
    return "input_power"
