"""One quantity in all the units of listings, as a page and as JSON."""

from __future__ import annotations

import json

from turnercalc.handover.layout import wrap
from turnercalc.units import KIND_NAMES, Conversion

SI_NAMES = {
    "length": "m",
    "mass": "kg",
    "angle": "rad",
    "torque": "Nm",
    "force": "N",
    "rotation": "rad_per_s",
    "speed": "m_per_s",
    "power": "W",
    "voltage": "V",
    "current": "A",
    "time": "s",
    "temperature": "degC",
    "frequency": "Hz",
    "stiffness": "N_per_m",
    "count": "",
    "ratio": "",
}


def page(found: Conversion) -> str:
    """Return a quantity as a list for the screen."""
    lines = [f"Read as {KIND_NAMES[found.kind]}:", ""]
    lines += [f"  {reading}" for reading in found.readings]
    for doubt in found.doubts:
        lines += ["", *wrap(sentence(doubt))]
    return "\n".join(lines)


def as_json(found: Conversion) -> str:
    """Return a quantity as JSON: its SI value under a key that carries the unit."""
    unit = SI_NAMES[found.kind]
    record = {
        "format": "turnercalc-conversion/1",
        "kind": found.kind,
        f"value_{unit}" if unit else "value": found.value,
        "readings": list(found.readings),
        "doubts": list(found.doubts),
    }
    return json.dumps(record, indent=2, ensure_ascii=False)


def sentence(text: str) -> str:
    """Return text that starts and ends like a sentence."""
    text = text.strip()
    if not text:
        return text
    return text[0].upper() + text[1:] + ("" if text[-1] in ".?!" else ".")
