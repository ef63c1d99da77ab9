"""Column heads: what a column holds, in which unit, and on which supply."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from turnercalc.motors.cells import scan, tidy
from turnercalc.motors.labels import label_in, power_side
from turnercalc.units.spellings import SPELLINGS, Unit, key

# What a column is about. The first pattern that fits counts, so the narrow ones go first.
_TOPIC_WORDS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "torque kind",
        (
            r"(?:torque|speed) (?:is|kind|type|what)",
            r"(?:kind|type|sort) of (?:the )?torque",
            r"which torque",
        ),
    ),
    (
        "ignored",
        (
            r"\b(?:life\w*|noise|db|colou?r|stock|qty|quantity|moq|delivery|sku|encoder|ppr)\b",
            r"\b(?:pulses?|link|url|image|picture|photo|seller|shop|reviews?|orders?|warranty)\b",
            r"\b(?:certificat\w*|steps? angle|inertia|inductance|resistance|phases?|connector)\b",
            r"\b(?:cable|wire|leads?|package|diameter|dia|size|dimensions?|length|width|height)\b",
            r"\b(?:gear material|material|backlash|shaft)\b(?! load)",
        ),
    ),
    ("side load", (r"\b(?:radial|side|overhung|lateral|transverse)\b",)),
    (
        "holds",
        (
            r"^(?:self[- ]?lock\w*|holds?(?: when off| at rest| position)?|brake)\??$",
            r"^(?:back[- ]?driv\w*|non[- ]?back\w*)\??$",
            r"when off|at rest",
        ),
    ),
    (
        "duty",
        (
            r"\bduty|\bservice\b|\bon time\b|\bon/off\b|\boperation mode\b",
            r"\brunning time\b|\bruns? for\b",
        ),
    ),
    ("insulation", (r"\binsulation\b|\binsul\.",)),
    ("protection", (r"\bprotection|\benclosure|^ip(?:\b|[- ])", r"\bip (?:code|rating|class)")),
    ("ambient", (r"\bambient|\btemperature|\btemp\b|\bsurroundings\b",)),
    ("ratio", (r"\bratio\b|\breduction\b",)),
    ("stroke", (r"\bstroke|\btravel(?! speed)(?:\b| length)|\bextension\b",)),
    ("travel speed", (r"\b(?:travel|linear|rod|moving) speed|\bmm/s\b",)),
    (
        "speed",
        (
            r"\bspeeds?\b|\brpm\b|r\.p\.m|\br/min\b|\brev(?:olution)?s?\b(?!ers)",
            r"\bvelocity|\bturns? per min",
        ),
    ),
    ("torque", (r"\btorques?\b|\bmoment\b|\btq\b|\bstrength\b",)),
    (
        "force",
        (
            r"\bforces?\b|\bthrust|\bpush|\bload capacity|\blifting|\b(?:dynamic|static) load",
            r"\bmax(?:imum)? load|\brated load|\bload\b$",
        ),
    ),
    ("frequency", (r"\bfreq\w*|^hz\b",)),
    ("power", (r"\bpower(?! suppl)\b|\bwatt\w*|\bconsumption|^w$|\boutput$|\binput$",)),
    ("current", (r"\bcurrents?\b(?! type| kind)|\bamp\w*|^a$|^ma$|\bdraw\b",)),
    (
        "voltage",
        (
            r"\bvolt\w*|\bsuppl(?:y|ies)\b|\bv ?[ad]c\b|\belectric\w*|\bmains\b|^v$",
            r"\bruns on\b",
        ),
    ),
    (
        "direction",
        (
            r"\bdirections?\b|\brotation\b|\bturns which way|\breversible\b|\bc?cw\b",
            r"\bsense\b",
        ),
    ),
    ("price", (r"\bprice|\bcosts?\b|[£$€]|\beur\b|\busd\b|\bgbp\b",)),
    ("mass", (r"\bweight|\bmass\b",)),
    (
        "notes",
        (
            r"\bnotes?\b|\bremarks?\b|\bcomments?\b|\bother\b|\bfeatures?\b|\bextras?\b",
            r"\binfo\w*|\bdetails?\b|\bdescription|\bspec\w*",
        ),
    ),
    ("class", (r"\bmotor (?:class|type|kind)|\bclass\b|^kind$|^type$|^type of motor",)),
    (
        "title",
        (
            r"\btitle|\bwhat\b|\bitem\b(?! ?n)|\bproduct\b|^motors?$|\bgear ?motors?\b",
            r"\barticle\b(?! ?n)",
        ),
    ),
    (
        "id",
        (
            r"^(?:id|ref\w*|name|key|letter|tag|no\.?|nr\.?|#|code|label|model|part|pos\w*)\b",
            r"\b(?:item|part|article|order) ?(?:no|number|nr|code|id)\b|\bmodel\b|\bname\b",
        ),
    ),
)
_TOPICS = tuple((topic, re.compile("|".join(words))) for topic, words in _TOPIC_WORDS)
_KIND_OF_TOPIC = {
    "torque": "torque",
    "speed": "rotation",
    "travel speed": "speed",
    "voltage": "voltage",
    "frequency": "frequency",
    "power": "power",
    "current": "current",
    "force": "force",
    "side load": "force",
    "stroke": "length",
    "mass": "mass",
    "ambient": "temperature",
}
_UNIT_PLACE = re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]|(?:/|,|-|\bin\b)\s*([^\s,/()\[\]]+)$")
_LAST_WORD = re.compile(r"[^\s]+$")


@dataclass(frozen=True, eq=False)
class Column:
    """What one column of a listing holds; compared by identity, since cells are looked up by it.

    Attributes
    ----------
    head : str
        The head as it stands; empty for a column without one.
    topic : str
        Such as ``torque``, ``speed``, ``notes``; empty where the head says nothing we know.
    label : str
        rated, starting, stall, holding, free or empty; for a power its field.
    unit : Unit or None
        Unit in the head, for cells that hold bare numbers.
    kind : str
        Kind of quantity of that unit or topic.
    volts, hertz : float or None
        Supply that the head names.
    """

    head: str
    topic: str = ""
    label: str = ""
    unit: Unit | None = None
    kind: str = ""
    volts: float | None = None
    hertz: float | None = None


@lru_cache(maxsize=4096)
def read_head(head: str) -> Column:
    """Return what a column with this head holds.

    A head that holds a figure other than a supply (``at 12 V``) or the 60 degrees of a servo
    is a data cell: its topic stays empty.
    """
    text = tidy(head).replace("_", " ").strip(" :*-")
    if not text or len(text) > 80:
        return Column(head)
    volts, hertz, text = _supply_in_head(text)
    unit_found = _unit_in_head(text)
    bare = re.sub(r"60 ?(?:°|deg\w*)|min-1|\b1/min\b", " ", text)
    if any(c.isdigit() for c in bare):
        return Column(head)
    topic = next((name for name, pattern in _TOPICS if pattern.search(text)), "")
    if unit_found is not None:
        topic = _topic_by_unit(topic, unit_found[0])
    kind = _KIND_OF_TOPIC.get(topic, "")
    unit = unit_found[1] if unit_found is not None and unit_found[0] == kind else None
    label = power_side(text) if topic == "power" else label_in(text)
    return Column(head, topic, label, unit, kind, volts, hertz)


def _supply_in_head(text: str) -> tuple[float | None, float | None, str]:
    """Take figures such as ``at 12 V`` or ``(50 Hz)`` out of a head."""
    volts = hertz = None
    for figure in reversed(scan(text)):
        if figure.kind not in ("voltage", "frequency") or figure.form != "one":
            continue
        if not figure.values:
            continue
        if figure.kind == "voltage":
            volts = figure.values[0]
        else:
            hertz = figure.values[0]
        text = text[: figure.start] + " " + text[figure.end :]
    text = re.sub(r"[(\[]\s*(?:at|@|dc|ac)?\s*[)\]]|@|\bat\b\s*$", " ", text)
    return volts, hertz, " ".join(text.split())


def _unit_in_head(text: str) -> tuple[str, Unit] | None:
    places = [next(filter(None, match.groups()), "") for match in _UNIT_PLACE.finditer(text)]
    last = _LAST_WORD.search(text)
    if last:
        places.append(last[0])
    places.append(text)
    for place in places:
        found = _known_unit(place)
        if found is not None:
            return found
    return None


def _known_unit(place: str) -> tuple[str, Unit] | None:
    spelling = key(place)
    if not spelling or spelling in ("in", "turns", "p", "d"):
        return None
    for kind in (*dict.fromkeys(_KIND_OF_TOPIC.values()), "speed"):
        unit = SPELLINGS[kind].get(spelling)
        if unit is not None:
            return kind, unit
    return None


def _topic_by_unit(topic: str, kind: str) -> str:
    """Let the unit decide where the words alone do not, or say another thing."""
    if topic == "speed" and kind == "speed":
        return "travel speed"
    if topic in ("torque", "") and kind == "force":
        return topic or "force"
    if topic == "mass" or (topic == "force" and kind == "mass"):
        return topic
    if topic:
        return topic
    by_kind = {k: t for t, k in reversed(_KIND_OF_TOPIC.items()) if t not in ("side load",)}
    return by_kind.get(kind, "") if kind not in ("length", "mass", "temperature") else ""


@lru_cache(maxsize=4096)
def is_subhead(cell: str) -> bool:
    """Whether a cell could stand in a second header row: a unit, a label, or nothing."""
    text = tidy(cell).strip(" ()[]:")
    if not text:
        return True
    column = read_head(cell)
    return bool(_known_unit(text) or label_in(text) or column.topic or column.volts or column.hertz)


def is_unit(cell: str) -> bool:
    """Whether a cell is nothing but a unit: ``(rpm)``."""
    return _known_unit(tidy(cell).strip(" ()[]:")) is not None


def joined_head(upper: str, lower: str) -> str:
    """Return the head that two stacked header cells make."""
    lower_text = tidy(lower).strip(" ()[]")
    if lower_text and _known_unit(lower_text):
        return f"{upper} ({lower.strip(' ()[]')})".strip()
    return f"{upper} {lower}".strip()
