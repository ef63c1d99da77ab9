"""How a design comes out over very many builds: a page and JSON."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from turnercalc import units
from turnercalc.advice.lengths.writing import setting_of
from turnercalc.errors import TurnercalcError
from turnercalc.handover.display import Style, decimals_for, scale_for
from turnercalc.handover.layout import WIDTH, labelled, section, table, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.advice.tolerance import Judged, Source, Spread
    from turnercalc.design import Design

FORMAT = "turnercalc-tolerance/1"
DEGREES = 180.0 / math.pi
TOLD = 4  # shares of the spread that are told
LEAST_TOLD = 0.005
NOTHING = 1e-9  # rad or m: no spread at all
NEAR = 0.001  # nearer than this nobody asks


def page(judged: Judged, style: Style) -> str:
    """Return shares, spreads, what matters most, and what was drawn."""
    lines = wrap(style.letters(judged.design.name))
    lines += ["", section(f"OUT OF {judged.count:,} BUILDS", f"drawn with seed {judged.seed}")]
    for label, text in shares(judged):
        lines += labelled(label, style.words(text), margin=2, column=22)
    told = spreads(judged, style.system)
    lines += ["", section("HOW IT COMES OUT", "95 of 100 builds")]
    rows = [("", "meant", "from", "to", "least", "most"), *(one.row() for one in told)]
    lines += table([tuple(style.letters(cell) for cell in line) for line in rows])
    if judged.peak_error is not None:
        lines += wrap(style.words(how_near(judged)), 2)
    lines += ["", section("WHAT MATTERS MOST", "share of the spread each brings alone")]
    for one in told:
        most = [(path, share) for path, share in one.spread.shares.items() if share >= LEAST_TOLD]
        text = ", ".join(f"{words_of(path)} {100 * share:.0f} %" for path, share in most[:TOLD])
        text = text or "nothing that was drawn"
        lines += labelled(one.label.partition(",")[0], f"{text}.", margin=2, column=22)
    lines += ["", "WHAT WAS DRAWN"]
    for text, fields in grouped(judged.sources, judged.design):
        lines += wrap(style.words(text), 2)
        lines += wrap(style.words(fields), 6)
    lines += wrap(style.words(not_drawn(judged)), 2) if not_drawn(judged) else []
    lines += [
        "",
        *wrap(
            "A number you only half know may stand so in the file, "
            'crank.radius = "35 mm +/- 5 mm", or be given with --half-known.',
            2,
        ),
    ]
    return "\n".join(line[: WIDTH + 8] for line in lines)


@dataclass(frozen=True)
class Told:
    """One figure of the table: its label, how it is shown, and which way is counted."""

    label: str
    spread: Spread
    per: float
    unit: str
    sign: float = 1.0
    places: int = 1

    def row(self) -> tuple[str, ...]:
        """Return its line of the table."""
        return row(self.label, self.spread, self.per, self.sign, self.unit, self.places)


def spreads(judged: Judged, system: str = "metric") -> list[Told]:
    """Return what is told: ends that come out otherwise, the egg's turn, the hardest turn."""
    swings = judged.sizing.turner.coordinate_unit == "rad"
    along = scale_for("length", system)
    per, unit = (DEGREES, "°") if swings else (along.per_si, f" {along.symbol}")
    places = 2 if unit == " in" else 1
    words = wording_of(judged.sizing.turner)
    found = []
    if max(judged.low.deviation, judged.high.deviation) > NOTHING:
        found = [
            Told(words.high, judged.high, per, unit, places=places),
            Told(words.low, judged.low, per, unit, sign=-1.0, places=places),
        ]
    if judged.turn is not None and not judges_tilt(judged):
        found.append(Told("turn of an egg", judged.turn, DEGREES, "°"))
    scale = scale_for("torque" if judged.sizing.drive.position_unit == "rad" else "force", system)
    most = max(judged.peak.most, judged.peak.nominal)
    places = decimals_for(scale.of(most)) if math.isfinite(most) else 2
    label = f"hardest turn, {scale.symbol}"
    found.append(Told(label, judged.peak, scale.per_si, "", places=places))
    return found


def judges_tilt(judged: Judged) -> bool:
    """Tell whether the ends are what is judged."""
    return judged.goal is not None and judged.goal.what == "tilt"


def how_near(judged: Judged) -> str:
    """Return how near the hardest turn of a single build is."""
    assert judged.peak_error is not None
    if not math.isfinite(judged.peak_error):
        return "Friction jams some builds with these lengths: the hardest turn is a rough figure."
    near = f"about {100.0 * judged.peak_error:.1g} %"
    return (
        "The hardest turn of a single build is right to "
        f"{near if judged.peak_error >= NEAR else 'a thousandth'}, as builds computed one by one "
        "show."
    )


def not_drawn(judged: Judged) -> str:
    """Return what is taken as meant although it could come out otherwise."""
    if judged.sizing.drive.dimensions or judged.sizing.turner.dimensions:
        return ""
    return "Not drawn: where its switches or its timer stop it. How far it goes is taken as meant."


def words_of(path: str) -> str:
    """Return a field path, or the words that stand for one."""
    return {"eggs": "single eggs", "egg size": "size of an egg"}.get(path, path)


def shares(judged: Judged) -> list[tuple[str, str]]:
    """Return what share of the builds does what, with its standard error."""
    found = []
    if judged.goes_through < 1.0:
        found.append(("Goes through", f"{percent(judged.goes_through)}."))
    if judged.goal is not None and judged.inside is not None:
        share = percent(judged.inside, judged.inside_error)
        low, high = DEGREES * judged.goal.least, DEGREES * judged.goal.most
        if judges_tilt(judged):
            text = f"{share} tip {low:.3g}° to {high:.3g}° to both sides."
            found.append(("Ends right", text))
        else:
            text = f"In {share} a move leaves an egg {low:.3g}° or more from where it lay."
            found.append(("Eggs turned enough", text))
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
        if judged.goal is not None:
            share = percent(judged.good, judged.good_error)
            found.append(("All of it", f"{share} {good_words(judged, factor)}."))
    if judged.accuracy is not None:
        found.append(("Accuracy", accuracy(judged)))
    return found


def good_words(judged: Judged, factor: float) -> str:
    """Return what the builds do that are counted as good, and what is not asked of them."""
    assert judged.goal is not None
    does = "are right at both ends" if judges_tilt(judged) else "turn their eggs enough"
    text = f"{does} and turned by this motor"
    if judged.wanted is not None and judged.strong is not None and judged.wanted < judged.strong:
        text += f"; that it is {factor:g} times enough is not asked here"
    return text


def accuracy(judged: Judged) -> str:
    """Return what accuracy of marking would do."""
    assert judged.accuracy is not None
    if judged.accuracy > 0.0:
        usual = max((s.spread for s in judged.sources if s.marked), default=judged.accuracy)
        known = [
            f"{words_of(s.field)} known to {1e3 * s.spread * judged.accuracy / usual:.2g} mm"
            for s in judged.sources
            if s.half_known and s.kind == "length"
        ]
        marked = ", ".join([f"Marked to {1e3 * judged.accuracy:.2g} mm", *known])
        return f"{marked} either way, 95 of 100 come out inside."
    why = (
        "the lengths as meant are too near a limit, or the play is too much"
        if judges_tilt(judged)
        else "the turn as meant is too near a limit, or the eggs differ too much in size"
    )
    return f"No accuracy of marking puts 95 of 100 inside: {why}."


def percent(share: float, error: float | None = None) -> str:
    """Return a share in percent, to the digits that its standard error leaves, and that."""
    per_cent = 100.0 * share
    if error is None or error <= 0.0:
        text = f"{per_cent:.3g} %"
        return "over 99.9 %" if share < 1.0 and text == "100 %" else text
    decimals = max(0, -math.floor(math.log10(100.0 * error)))
    text = f"{per_cent:.0f}" if share in (0.0, 1.0) else f"{per_cent:.{decimals}f}"
    return f"{text} % (± {100.0 * error:.1g})"


def row(
    label: str, spread: Spread, per: float, sign: float, unit: str, places: int = 1
) -> tuple[str, ...]:
    """Return one line of the table of spreads, every figure to as many places."""
    figures = [spread.nominal, spread.low, spread.high, spread.least, spread.most]
    if sign < 0.0:
        figures = [spread.nominal, spread.high, spread.low, spread.most, spread.least]
    return (label, *(f"{per * sign * value:.{places}f}{unit}" for value in figures))


def grouped(sources: Sequence[Source], design: Design | None = None) -> list[tuple[str, str]]:
    """Return what was drawn for the same reason: the reason and how far, and the fields.

    Where they are not all drawn so far, how far stands behind each.
    """
    found: dict[str, list[Source]] = {}
    for source in sources:
        why = f"{source.why[0].upper()}{source.why[1:].rstrip('.')}"
        found.setdefault(why, []).append(source)
    told = []
    for why, alike in found.items():
        amounts = [drawn(source, design) for source in alike]
        if len(set(amounts)) == 1:
            fields = ", ".join(words_of(source.field) for source in alike)
            told.append((f"{why}: {amounts[0]}.", f"{fields}."))
            continue
        each = (f"{words_of(s.field)} {far}" for s, far in zip(alike, amounts, strict=True))
        told.append((f"{why}:", f"{', '.join(each)}."))
    return told


def drawn(source: Source, design: Design | None = None) -> str:
    """Return how far one thing was drawn, in words."""
    low, high = source.middle - source.spread, source.middle + source.spread
    if source.field == "eggs" or (source.quantity == "mass" and not source.half_known):
        return f"{100 * source.spread / source.middle:.3g} % either way"
    if source.half_known or source.quantity == "ratio" or source.why.endswith("in its range"):
        if source.quantity in ("", "ratio"):
            return f"{low:.3g} to {high:.3g}"
        ends = [units.show(value, source.quantity, "metric", 3) for value in (low, high)]
        if design is not None and source.half_known and source.quantity == "length":
            ends = placed(source, design) or ends
        return " to ".join(ends)
    if source.quantity == "length":
        return f"{1e3 * source.spread:.3g} mm either way"
    return f"{source.spread:.2g} {source.unit}".rstrip() + " either way"


def placed(source: Source, design: Design) -> list[str]:
    """Return both ends of a place by its side, as a design file says it; none of any other."""
    ends = (source.middle - source.spread, source.middle + source.spread)
    try:
        told = [setting_of(design, source.field, round(value, 5)) for value in ends]
    except (TurnercalcError, LookupError, AttributeError):
        return []
    sides = (" of ", " below ", " above ")
    return told if all(any(word in one for word in sides) for one in told) else []


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
        "judged_by": judged.goal.what if judged.goal else None,
        "limits_deg": None
        if judged.goal is None
        else [rounded(limit, DEGREES) for limit in (judged.goal.least, judged.goal.most)],
        "motor": chosen.motor.id if chosen else None,
        "share_strong": rounded(judged.strong),
        "share_strong_standard_error": rounded(judged.strong_error),
        "share_times_enough_as_wanted": rounded(judged.wanted),
        "share_good": rounded(judged.good),
        "share_good_standard_error": rounded(judged.good_error),
        "accuracy_for_95_percent_mm": rounded(judged.accuracy, 1e3),
        "high_end": spread_record(judged.high, per, unit),
        "low_end": spread_record(judged.low, per, unit),
        "egg_turn": None if judged.turn is None else spread_record(judged.turn, DEGREES, "deg"),
        "peak_shaft_torque" if torque == "Nm" else "peak_push": spread_record(
            judged.peak, 1.0, torque
        ),
        "peak_of_one_build_standard_error": rounded(judged.peak_error),
        "drawn": [
            {
                "field": source.path,
                "what": source.field,
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
