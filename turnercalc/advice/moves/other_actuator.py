"""Another actuator, or another place for its pin, where no eye makes this one reach both ends."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.errors import TurnercalcError
from turnercalc.sizing import Sizing

#: Strokes that shops have [m].
STROKES = (0.05, 0.075, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4)
#: Nearer to the middle a pin goes less far; its place, as a share of what it is.
NEARER = (0.85, 0.7, 0.55)
#: Of each kind that are told.
TOLD = 1


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield strokes of shops, and a pin nearer to the middle, each with its eye.

    Only where what lengths decide is in the way and the search finds no eye for the stroke there
    is; the other lengths that it finds are told by themselves.
    """
    from turnercalc.advice.lengths.choosing import LENGTHS_DECIDE

    rod = sizing.design.get("actuator")
    if rod is None or sizing.turner.endless or sizing.reason.id not in LENGTHS_DECIDE:
        return
    if eye_for(sizing, {}) is not None:
        return
    body = rod.shortest - rod.stroke
    # The nearest strokes first: what is a little longer is bought and powered most easily.
    strokes = sorted(STROKES, key=lambda stroke: (stroke < rod.stroke, abs(stroke - rod.stroke)))
    sold = [
        {
            "actuator.stroke": millimetres(stroke),
            "actuator.shortest": millimetres(body + stroke),
        }
        for stroke in strokes
        if abs(stroke - rod.stroke) > 1e-3
    ]
    yield from first_with_an_eye(sizing, "other_actuator", sold)
    yield from first_with_an_eye(sizing, "move_pin", nearer_pins(sizing))


def nearer_pins(sizing: Sizing) -> list[dict[str, str]]:
    """Return places of a cradle's pin nearer to its middle."""
    pin = sizing.design.get("pin")
    if pin is None:
        return []
    field = "pin.across"
    phrase = sizing.kind.measured_from.across
    return [
        {field: str(phrase.write(round(2e3 * share * pin.across) / 2e3, "metric", 6))}
        for share in NEARER
    ]


def first_with_an_eye(
    sizing: Sizing, name: str, changes: list[dict[str, str]]
) -> Iterator[Proposal]:
    """Yield the first changes for which an eye is found, with that eye."""
    told = 0
    for change in changes:
        eye = eye_for(sizing, change)
        if eye is None:
            continue
        settings = {**change, **eye}
        lengths = ", ".join(f"{path} {text}" for path, text in settings.items())
        what = (
            f"Take an actuator with a stroke of {change['actuator.stroke']}"
            if name == "other_actuator"
            else "Move the pin nearer to the middle"
        )
        yield Proposal(name, settings, f"{what}: {lengths}.")
        told += 1
        if told == TOLD:
            return


def eye_for(sizing: Sizing, change: Mapping[str, str]) -> Mapping[str, str] | None:
    """Return the lengths that go with a change; None where there are none."""
    from turnercalc.advice.lengths import Wish, find_lengths

    try:
        found = find_lengths(sizing.design.replace(dict(change)), Wish(count=1)).suggestions
    except TurnercalcError:
        return None
    return found[0].settings if found else None
