"""How a design comes out over very many builds: a page and JSON."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import WIDTH, labelled, section, table, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.advice.tolerance import Judged, Source, Spread

FORMAT = "turnercalc-tolerance/1"
DEGREES = 180.0 / math.pi
TOLD = 4  # shares of the spread that are told


def page(judged: Judged, style: Style) -> str:
    """Return shares, spreads, what matters most, and what was drawn."""
    swings = judged.sizing.turner.coordinate_unit == "rad"
    per, unit = (DEGREES, "°") if swings else (1e3, " mm")
    torque = "N·m" if judged.sizing.drive.position_unit == "rad" else "N"
    lines = wrap(style.letters(judged.design.name))
    lines += ["", section(f"OUT OF {judged.count:,} BUILDS", f"drawn with seed {judged.seed}")]
    for label, text in shares(judged):
        lines += labelled(label, style.words(text), margin=2, column=22)
    words = wording_of(judged.sizing.turner)
    ends = (words.high, words.low)
    lines += ["", section("HOW IT COMES OUT", "95 of 100 builds")]
    rows = [
        ("", "meant", "from", "to", "least", "most"),
        row(ends[0], judged.high, per, 1.0, unit),
        row(ends[1], judged.low, per, -1.0, unit),
        row(f"hardest turn, {torque}", judged.peak, 1.0, 1.0, "", digits=3),
    ]
    lines += [style.letters(line) for line in table(rows)]
    lines += ["", section("WHAT MATTERS MOST", "share of the spread each brings alone")]
    for label, spread in (
        (ends[0], judged.high),
        (ends[1], judged.low),
        ("hardest turn", judged.peak),
    ):
        told = list(spread.shares.items())[:TOLD]
        text = ", ".join(f"{words_of(path)} {100 * share:.0f} %" for path, share in told)
        lines += labelled(label, f"{text or 'nothing that was drawn'}.", margin=2, column=22)
    lines += ["", "WHAT WAS DRAWN"]
    for text, fields in grouped(judged.sources):
        lines += wrap(style.words(text), 2)
        lines += wrap(", ".join(words_of(field) for field in fields) + ".", 6)
    lines += [
        "",
        *wrap(
            "Give a number you only half know with --half-known, such as "
            '--half-known crank.radius="35 mm +/- 5 mm".',
            2,
        ),
    ]
    return "\n".join(line[: WIDTH + 8] for line in lines)


def words_of(path: str) -> str:
    """Return a field path, or the words that stand for one."""
    return "single eggs" if path == "eggs" else path


def shares(judged: Judged) -> list[tuple[str, str]]:
    """Return what share of the builds does what, with its standard error."""
    found = []
    if judged.goes_through < 1.0:
        found.append(("Goes through", percent(judged.goes_through)))
    if judged.inside is not None:
        low, high = (DEGREES * limit for limit in judged.limits)
        found.append(
            (
                "Ends right",
                f"{percent(judged.inside, judged.inside_error)} tip {low:.3g}° to {high:.3g}° to "
                "both sides.",
            )
        )
    if judged.strong is not None and judged.sizing.chosen is not None:
        name = judged.sizing.chosen.motor.id
        factor = float(judged.design["motor"].safety_factor)
        found.append(
            (
                "Motor strong enough",
                f"{percent(judged.strong, judged.strong_error)} turn with {name}; in "
                f"{percent(judged.wanted or 0.0)} it is {factor:g} times enough.",
            )
        )
        found.append(("All of it", f"{percent(judged.good, judged.good_error)}."))
    if judged.accuracy is not None:
        found.append(("Accuracy", accuracy(judged)))
    return found


def accuracy(judged: Judged) -> str:
    """Return what accuracy of marking would do."""
    assert judged.accuracy is not None
    if judged.accuracy <= 0.0:
        return (
            "No accuracy of marking puts 95 of 100 inside: the lengths as meant are too near a "
            "limit, or the play is too much."
        )
    return f"Marked to {1e3 * judged.accuracy:.2g} mm, 95 of 100 come out inside."


def percent(share: float, error: float | None = None) -> str:
    """Return a share in percent, with its standard error."""
    text = f"{100.0 * share:.4g} %"
    if share < 1.0 and text == "100 %":
        text = "over 99.99 %"
    if error is not None and error > 0.0:
        return f"{text} (± {100.0 * error:.1g})"
    return text


def row(
    label: str, spread: Spread, per: float, sign: float, unit: str, digits: int = 0
) -> tuple[str, ...]:
    """Return one line of the table of spreads."""
    figures = [spread.nominal, spread.low, spread.high, spread.least, spread.most]
    if sign < 0.0:
        figures = [spread.nominal, spread.high, spread.low, spread.most, spread.least]
    if digits:
        return (label, *(f"{per * sign * value:.{digits}g}{unit}" for value in figures))
    return (label, *(f"{per * sign * value:.1f}{unit}" for value in figures))


def grouped(sources: Sequence[Source]) -> list[tuple[str, list[str]]]:
    """Return what was drawn alike: how, and the fields."""
    found: dict[str, list[str]] = {}
    for source in sources:
        why = f"{source.why[0].upper()}{source.why[1:].rstrip('.')}"
        found.setdefault(f"{why}: {drawn(source)}.", []).append(source.field)
    return list(found.items())


def drawn(source: Source) -> str:
    """Return how far one thing was drawn, in words."""
    if source.field == "eggs":
        return f"{100 * source.spread:.0f} % either way"
    if source.field.endswith("friction"):
        low, high = source.middle - source.spread, source.middle + source.spread
        return f"{low:.3g} to {high:.3g}"
    if source.field.endswith("weight"):
        return f"{100 * source.spread / source.middle:.3g} % either way"
    return f"{1e3 * source.spread:.3g} mm either way"


def as_json(judged: Judged) -> str:
    """Return everything as JSON text; keys carry their units."""
    swings = judged.sizing.turner.coordinate_unit == "rad"
    per, unit = (DEGREES, "deg") if swings else (1e3, "mm")
    torque = "Nm" if judged.sizing.drive.position_unit == "rad" else "N"
    chosen = judged.sizing.chosen
    record: dict[str, Any] = {
        "format": FORMAT,
        "design": {"name": judged.design.name, "turner": judged.design.turner},
        "builds": judged.count,
        "seed": judged.seed,
        "share_goes_through": rounded(judged.goes_through),
        "share_inside": rounded(judged.inside),
        "share_inside_standard_error": rounded(judged.inside_error),
        "limits_deg": None
        if judged.inside is None
        else [rounded(limit, DEGREES) for limit in judged.limits],
        "motor": chosen.motor.id if chosen else None,
        "share_strong": rounded(judged.strong),
        "share_strong_standard_error": rounded(judged.strong_error),
        "share_times_enough_as_wanted": rounded(judged.wanted),
        "share_good": rounded(judged.good),
        "share_good_standard_error": rounded(judged.good_error),
        "accuracy_for_95_percent_mm": rounded(judged.accuracy, 1e3),
        "high_end": spread_record(judged.high, per, unit),
        "low_end": spread_record(judged.low, per, unit),
        "peak_shaft_torque" if torque == "Nm" else "peak_push": spread_record(
            judged.peak, 1.0, torque
        ),
        "drawn": [
            {
                "field": source.field,
                "shape": source.shape,
                "middle_SI": rounded(source.middle),
                "spread_SI": rounded(source.spread),
                "why": source.why,
            }
            for source in judged.sources
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def spread_record(spread: Spread, per: float, unit: str) -> dict[str, Any]:
    """Return one spread as plain values."""
    names = ("nominal", "mean", "deviation", "least", "most", "low", "high")
    figures = {f"{name}_{unit}": rounded(getattr(spread, name), per) for name in names}
    return {**figures, "variance_shares": {k: rounded(v) for k, v in spread.shares.items()}}
