"""Whether any pin bends or shears under what it carries."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.checks.structure import loaded_pins
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.parts.strength import pin_for, pin_use
from turnercalc.tables import limit

ID = "pin_strength"
TITLE = "Pins"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the pin that uses most of its working stress, of all whose thickness is known."""
    pins = [(pin_use(pin.force, pin.diameter, pin.made_of), pin) for pin in loaded_pins(evidence)]
    if not pins:
        return
    use, pin = max(pins, key=lambda pair: pair[0])
    rule = limit("pin_use")
    size = f"{pin.made_of.name} of {millimetres(pin.diameter, 1).replace('.0 ', ' ')}"
    text = (
        f"The hardest used, the {pin.name} of {size}, carries {units.show(pin.force, 'force')}: "
        f"{_share(use)} of what it may."
    )
    if rule.answer(use) is not Answer.FINE:
        least = millimetres(1e-3 * -(-1e3 * pin_for(pin.force, pin.made_of) // 1.0))
        text += f" Make it {least} or hold it at both ends in a fork."
    yield judged(ID, TITLE, use, rule, text, fields=(pin.field,))


def _share(use: float) -> str:
    return "less than a tenth" if use < 0.1 else f"{100.0 * use:.0f} %"
