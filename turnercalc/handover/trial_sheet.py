"""The trial sheet, the run log and the service card: to print and fill in by hand."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING

from turnercalc.checks.wording import amount, seconds
from turnercalc.drives.wording import wording_of as words_of_drive
from turnercalc.handover.display import Style
from turnercalc.handover.layout import labelled, section, table, wrap
from turnercalc.handover.screen.cautions import caution_texts
from turnercalc.handover.screen.timer import timer_texts
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.advice.trial_plan import TrialPlan
    from turnercalc.sizing import Sizing

BLANK = "________"
LOG = ("hours", "count", "seconds", "current", "remarks")


def page(sizing: Sizing, plan: TrialPlan, style: Style) -> str:
    """Return the sheet for a printer: 80 columns, blanks to fill in."""
    parts = [
        _head(sizing, style),
        _cautions(sizing, style),
        _before(sizing, style),
        _loads(sizing, plan, style),
        _home_tests(sizing, plan, style),
        _limits(sizing, plan, style),
        _log(sizing, plan, style),
        _verdict(sizing),
        _service(sizing, style),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines)


def _head(sizing: Sizing, style: Style) -> list[str]:
    motor = sizing.chosen.motor.id if sizing.chosen else BLANK
    return [
        *wrap(style.letters(f"TRIAL SHEET   {sizing.design.name}")),
        "",
        *wrap(style.letters(f"Motor: {motor}     Date: {BLANK}     By: {BLANK}")),
        *wrap(
            "The finished build runs 48 hours before eggs go in, at temperature, with the lid or "
            "door shut (common practice, no source)."
        ),
    ]


def _cautions(sizing: Sizing, style: Style) -> list[str]:
    lines = ["CAUTIONS"]
    for text in caution_texts(sizing):
        lines += wrap(style.words(text), 4, "  ")
    return lines


def _before(sizing: Sizing, style: Style) -> list[str]:
    words = words_of_drive(sizing.drive)
    beside = f", {words.parts} included" if words.parts else ""
    told = [
        f"Everything moves by hand from end to end without catching{beside}.",
        "Nothing is nearer to a moving part than a finger is thick without a guard.",
        "Screws, nuts and pins are secured; set screws stand on a flat of the shaft.",
        "The box stands level: check with a spirit level along and across.",
        "A counter or a tally shows every move; note its reading now: " + BLANK,
        "The control gives up on a blocked motor: hold it by hand with a stick, never with "
        "fingers, on the lowest supply.",
    ]
    return ["BEFORE THE MOTOR IS SWITCHED ON", *_boxes(told, style)]


def _boxes(texts: list[str], style: Style) -> list[str]:
    lines = []
    for text in texts:
        lines += wrap(style.words(text), 6, "  [ ] ")
    return lines


def _loads(sizing: Sizing, plan: TrialPlan, style: Style) -> list[str]:
    if not plan.loads:
        return []
    lines = [section("DUMMY LOADS", "bags of sand or bottles of water, as heavy as the eggs")]
    unit = "torque" if sizing.drive.position_unit == "rad" else "force"
    rows = [("", "eggs", "weight of all", "hardest turn", "moved")]
    rows += [
        (
            f"{number}",
            str(load.egg_count),
            style.show(load.mass, "mass") if load.egg_count else "nothing",
            style.show(load.peak, unit),
            "_____",
        )
        for number, load in enumerate(plan.loads, 1)
    ]
    for number, load in enumerate(plan.loads, 1):
        lines += wrap(style.letters(f"{number}  {load.name}"), 5, "  ")
    lines += table(rows)
    return lines + wrap(
        "Put the weight where the eggs will be, at their height; where eggs roll, take hard-boiled "
        "ones. The last load stays in for the long run.",
        2,
    )


def _home_tests(sizing: Sizing, plan: TrialPlan, style: Style) -> list[str]:
    lines = [section("HOME TESTS", "what they find goes back into the design file")]
    for label, text in _tests(sizing, plan, style):
        lines += labelled(label, style.words(text), margin=2, column=18)
    return lines


def _tests(sizing: Sizing, plan: TrialPlan, style: Style) -> list[tuple[str, str]]:
    told = []
    if any(one.field == "eggs.friction" for one in sizing.assumed):
        told.append(
            (
                "Slip test",
                "Lay an egg (or a smooth pebble of its size) in its place, tilt it slowly by hand "
                f"and read the angle at which it slides: {BLANK} degrees. Its tangent is "
                "eggs.friction.",
            )
        )
    if plan.bottle is not None:
        bottle = plan.bottle
        told.append(
            (
                "Bottle test",
                f'Take the motor off its shaft and load "{bottle.load}". Fix a batten to the '
                f"shaft and hang a bottle {1e3 * bottle.arm:.0f} mm from its middle. Add water "
                "until it just turns at its hardest place: "
                f"{style.show(bottle.mass, 'mass')} was worked out, "
                f"{style.show(bottle.least, 'mass')} to {style.show(bottle.most, 'mass')} agrees. "
                f"Found: {BLANK}. Heavier: look for what rubs, and raise the friction in "
                "the file until it agrees.",
            )
        )
    told.append(
        (
            "Stopwatch",
            f"Mark the shaft with tape and time ten turns without load: {BLANK} s, and with the "
            f"full load: {BLANK} s. Put both speeds into the motor file in place of the listed "
            "one.",
        )
    )
    if wording_of(sizing.turner).falls:
        told.append(
            (
                "Balance swing",
                "With the drive off, let the empty moving part swing until it stands: the side "
                f"that hangs down is heavy: {BLANK}. It should not favour a side.",
            )
        )
    return told


def _limits(sizing: Sizing, plan: TrialPlan, style: Style) -> list[str]:
    lines = [section("PASS LIMITS", "outside them: turnercalc diagnose")]
    words = wording_of(sizing.turner)
    rows = []
    ends = ((words.high, plan.high), (words.low, plan.low), ("from end to end", plan.total))
    for side, span in ends:
        if span is not None:
            least, most = (amount(sizing.turner, value) for value in span)
            rows.append((side.capitalize(), f"{least} to {most}"))
    if plan.move_time is not None:
        rows.append(("One move", f"{plan.move_time[0]:.1f} to {seconds(plan.move_time[1])}"))
    if plan.give_up is not None:
        rows.append(("Gives up", f"after {seconds(plan.give_up)} with the motor blocked"))
    if plan.current is not None:
        blocked = "" if math.isinf(plan.current[1]) else f", {plan.current[1]:.3g} A when blocked"
        rows.append(("Current", f"at most {plan.current[0]:.3g} A while it moves{blocked}"))
    rows.append(("Eggs", "none has rolled, jumped, cracked or marked its neighbour"))
    rows.append(("Temperature", f"middle and every corner, each hour of the first day: {BLANK}"))
    for label, text in rows:
        lines += labelled(label, style.words(text), margin=2, column=20)
    lines += ["  Timer:"]
    for text in timer_texts(sizing):
        lines += wrap(style.words(text), 6, "    ")
    return lines


def _log(sizing: Sizing, plan: TrialPlan, style: Style) -> list[str]:
    ends = _end_heads(sizing, plan)
    lines = [section("RUN LOG", "turnercalc trial --run-log makes it a CSV")]
    heads = (
        "after",
        "counter",
        "may be",
        "shows",
        *(e[:8].replace("_", " ") for e in ends),
        "s a move",
        "A",
        "deg",
    )
    rows = [heads]
    rows += [
        (
            f"{reading.hours:g} h",
            f"{reading.due:.0f}",
            f"{reading.least:.0f}-{reading.most:.0f}",
            *("______",) * (1 + len(ends)),
            "_____",
            "____",
            "____",
        )
        for reading in plan.readings
    ]
    return [*lines, *(style.letters(line) for line in table(rows, gap=2))]


def _verdict(sizing: Sizing) -> list[str]:
    del sizing
    return [
        "PASSED WHEN",
        *wrap(
            "every count is within its range, both ends and the time stay within their limits "
            "from the first hour to the last, nothing has worked loose, and nothing is hot to "
            "the hand.",
            2,
        ),
        *wrap(f"Passed: {BLANK}     Not passed, because: {BLANK}{BLANK}{BLANK}", 2),
    ]


def _service(sizing: Sizing, style: Style) -> list[str]:
    design = sizing.design
    timing = sizing.timing
    stop = f"Day {timing.counts.last_day:g}" if timing else "The last day of turning"
    told = [
        "Every day: read the counter; look that it stands at an end, and that no egg has moved.",
        f"{stop}: turning ends. Take the eggs out of the turner, or stop it level: they hatch "
        "lying on their side on a flat, stable surface, turner out of the way (common practice, "
        "no source).",
        "After every hatch: wash and disinfect what touched eggs, dry it, keep disinfectant off "
        "gears and bearings; wash your hands.",
        "Before every batch: pins, nuts, set screws, chain or belt; move it by hand end to end; "
        "measure both ends anew; time a move. Change what has more play than when it was new.",
        "A drop of food-grade grease where metal turns in metal; none on plastic that runs dry.",
        f"This sheet belongs to {design.name}.",
    ]
    return ["SERVICE CARD", *_boxes(told, style)]


def run_log(sizing: Sizing, plan: TrialPlan) -> str:
    """Return the run log as a CSV to fill in, which ``turnercalc diagnose --log`` reads."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    heads = [*LOG[:2], *_end_heads(sizing, plan), *LOG[2:]]
    writer.writerow(heads)
    for reading in plan.readings:
        due = f"count due {reading.due:.0f} ({reading.least:.0f} to {reading.most:.0f})"
        writer.writerow([f"{reading.hours:g}", *[""] * (len(heads) - 2), due])
    return text.getvalue()


def _end_heads(sizing: Sizing, plan: TrialPlan) -> tuple[str, ...]:
    """Return what the log asks of the ends: both, or only how far it goes."""
    return ("in_all",) if plan.total is not None else wording_of(sizing.turner).sides
