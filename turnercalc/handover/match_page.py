"""Which motor to take, behind which stage and with which crank: page and JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from turnercalc.errors import UnknownNameError
from turnercalc.handover.display import Style
from turnercalc.handover.layout import ending_in_words, labelled, section, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.motors.checks_strength import shown_times

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turnercalc.advice.which_motor import Match, Matches
    from turnercalc.motors import MotorFile

MATCH_FORMAT = "turnercalc-match/1"
#: Longer names of motors have a line of their own.
NAME = 18
HEAD = ("motor", "its verdict", "whole build", "enough", "a turn", "how")


def match_page(found: Matches, motors: MotorFile, style: Style) -> str:
    """Return every motor in the best way it can be used, best first, and its settings."""
    lines = wrap(style.letters(found.design.name))
    if found.stuck:
        lines += ["", *wrap(f"As drawn it turns with no motor. {style.words(found.stuck)}")]
        if not found.works:
            lines += wrap(style.words(found.nothing_else or "Other lengths were not looked at."))
    where = motors.name or "the motor file"
    if not motors.rows:
        lines += ["", *wrap(f"{where} lists no motor.")]
        return "\n".join(style.letters(line) for line in lines)
    lines += _named(found, motors, where, style)
    if any(one.verdict.value != "no" or not found.stuck for one in found):
        lines += ["", section("EVERY MOTOR AT ITS BEST", "best first"), *_table(found)]
    works = found.works
    if not works and not found.stuck:
        lines += ["", *wrap("None of them does, behind any stock stage that was tried.", 2)]
    reasons = _reasons(found, style)
    if reasons:
        lines += ["", "WHY NOT ALL IS FINE", *reasons]
    if works:
        lines += ["", section("SETTINGS", "each was sized again so")]
        for one in works:
            text = " ".join(f'--set {path}="{value}"' for path, value in one.settings.items())
            lines += labelled(one.motor, text, margin=2, column=14)
    return "\n".join(style.letters(line) for line in lines)


def _named(found: Matches, motors: MotorFile, where: str, style: Style) -> list[str]:
    """Return how the motor that the design names does."""
    have = found.design["motor"].have
    if have is None or (found.stuck and not found.works):
        return []
    try:
        row = motors.row(str(have))
    except UnknownNameError:
        told = f'The design names the motor "{have}", which {where} does not list.'
    else:
        own = next(one for one in found if one.motor == row.motor.id)
        told = f"The design names {own.motor}: {own.verdict.value}, {how(own)}."
    return ["", *wrap(style.letters(told))]


def _table(found: Matches) -> list[str]:
    wanted = float(found.design["motor"].safety_factor)
    rows = [HEAD, *(_row(one, wanted) for one in found)]
    return ending_in_words(rows, right=(3, 4), longest=NAME)


def _row(one: Match, wanted: float) -> tuple[str, ...]:
    enough = "-" if not one.times_enough else shown_times(one.times_enough, wanted)
    move = "-" if one.longest_move is None else f"{one.longest_move:.0f} s"
    if one.longest_move == float("inf"):
        move = "jams" if one.times_enough == 0.0 else "stalls"
    build = "-" if one.build is None else one.build.value
    return (one.motor, one.verdict.value, build, enough, move, how(one))


def _reasons(found: Matches, style: Style) -> list[str]:
    """Return a reason for every motor that is not fine, and for every build that is not."""
    lines: list[str] = []
    reasons: dict[str, list[str]] = {}
    for one in found:
        if one.verdict.value == "fine" or (found.stuck and one.why == found.stuck):
            continue
        told = f"{one.verdict.value}, {how(one)}: {one.why}"
        if one.why_as_it_is and not one.works:
            told += f" As it is: {one.why_as_it_is}"
        reasons.setdefault(told, []).append(one.motor)
    for told, names in reasons.items():
        lines += labelled(_listed(names), style.words(told), margin=2, column=14)
    builds: dict[tuple[str, str], list[str]] = {}
    for one in found.works:
        if one.build is not None and one.build_why:
            builds.setdefault((one.build.value, one.build_why), []).append(one.motor)
    for (verdict, why), names in builds.items():
        whom = "with each of them" if len(names) == len(found.works) else f"with {_listed(names)}"
        lines += labelled(
            "whole build", style.words(f"{verdict} {whom}. {why}"), margin=2, column=14
        )
    return lines


def _listed(names: Sequence[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} and {names[-1]}"


def how(match: Match) -> str:
    """Return what has to be done to use a motor so."""
    parts = []
    if match.train is not None:
        pairs = ", ".join(f"{a} to {b}" for a, b in match.train.pairs)
        parts.append(f"{match.train.kind} {pairs}")
    if match.rebuilt:
        parts.append(f"other {' and '.join(match.rebuilt)}")
    elif match.lengths is not None:
        parts.append(f"other {_of_drive(match)}")
    return "; ".join(parts) or "as it is"


def _of_drive(match: Match) -> str:
    """Return what other lengths of the drive are called, by the first section they change."""
    assert match.lengths is not None
    return next(iter(match.lengths.settings)).partition(".")[0]


def match_json(found: Matches) -> str:
    """Return the same as JSON text."""
    record: dict[str, Any] = {
        "format": MATCH_FORMAT,
        "design": {"name": found.design.name},
        "stuck": found.stuck or None,
        "motors": [
            {
                "id": one.motor,
                "verdict": one.verdict.value,
                "build_verdict": None if one.build is None else one.build.value,
                "build_why": one.build_why,
                "times_enough": rounded(one.times_enough),
                "longest_move_s": rounded(one.longest_move),
                "added_stages": None if one.train is None else [list(p) for p in one.train.pairs],
                "stage_kind": None if one.train is None else one.train.kind,
                "other_lengths": one.lengths is not None,
                "rebuilt": list(one.rebuilt),
                "set": dict(one.settings),
                "why": one.why,
                "why_as_it_is": one.why_as_it_is,
            }
            for one in found
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)
