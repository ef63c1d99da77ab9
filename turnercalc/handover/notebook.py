"""Complete answers for a notebook or a script: what the command line says, as Python."""

from __future__ import annotations

from dataclasses import dataclass, fields
from html import escape
from typing import TYPE_CHECKING, Any

from turnercalc.advice import Advice, advise
from turnercalc.advice.asked import need_design, need_motors
from turnercalc.drives.wording import wording_of
from turnercalc.handover.record import sizing_record
from turnercalc.loads import planned
from turnercalc.sizing import Sizing
from turnercalc.sizing import size as size_fully

if TYPE_CHECKING:
    from turnercalc.design import Design
    from turnercalc.findings import Answer
    from turnercalc.motors import MotorFile

_COLOURS = {"fine": "#1a7f37", "marginal": "#9a6700", "no": "#b42318", "unknown": "#6639ba"}
#: What a record says of changes, which a sizing alone does not look for.
_OF_ADVICE = ("best_change", "other_changes")


@dataclass(frozen=True)
class Sized(Sizing):
    """A sizing that shows itself in a notebook and goes into dictionaries and arrays."""

    def to_dict(self) -> dict[str, Any]:
        """Return what `turnercalc size --json` prints, but for the changes it advises."""
        record = sizing_record(self, Advice(()))
        for name in _OF_ADVICE:
            del record[name]
        record["unknown"] = [one for one in record["unknown"] if one["field"] not in _OF_ADVICE]
        return record

    def to_arrays(self) -> dict[str, Any]:
        """Return the turn cycle as arrays in SI; nothing where it does not go through.

        Returns
        -------
        dict
            ``position``, ``coordinate``, ``rate`` of shape (P,); ``load_torque`` and
            ``shaft_torque`` of shape (load, friction, direction, P); ``loads``, ``friction``,
            ``direction`` name their axes; ``planned`` (load,).
        """
        cycle = self.cycle
        if cycle is None:
            return {}
        return {
            "position": cycle.motion.position,
            "coordinate": cycle.motion.coordinate,
            "rate": cycle.motion.rate,
            "load_torque": cycle.load_torque,
            "shaft_torque": cycle.shaft_torque,
            "loads": tuple(case.name for case in cycle.loads),
            "planned": planned(cycle),
            "friction": cycle.levels,
            "direction": wording_of(self.drive).ways,
        }

    def _repr_html_(self) -> str:
        """Return verdict, reason and findings as HTML; nothing in it is not escaped."""
        return _head(self) + _findings(self)


@dataclass(frozen=True)
class Result:
    """A sizing and what to change, as `turnercalc size` prints them.

    Attributes
    ----------
    sizing : Sized
        Everything computed.
    advice : Advice
        What helps, best first.
    """

    sizing: Sized
    advice: Advice

    @property
    def verdict(self) -> Answer:
        """Fine, marginal or no."""
        return self.sizing.verdict

    @property
    def reason(self) -> str:
        """The one reason, in a sentence."""
        return self.sizing.reason.text

    def to_dict(self) -> dict[str, Any]:
        """Return what `turnercalc size --json` prints: plain values, keys with their units."""
        return sizing_record(self.sizing, self.advice)

    def to_arrays(self) -> dict[str, Any]:
        """Return the turn cycle as arrays in SI, as `Sized.to_arrays` does."""
        return self.sizing.to_arrays()

    def _repr_html_(self) -> str:
        """Return verdict, reason, changes and findings as HTML; nothing in it is not escaped."""
        changes = "".join(
            f"<li>{escape(change.say)} Then: {change.verdict_after.value}.</li>"
            for change in self.advice.changes
        )
        return f"{_head(self.sizing)}<ul>{changes}</ul>{_findings(self.sizing)}"


def _head(sizing: Sizing) -> str:
    answer = sizing.verdict.value
    return (
        f'<p><b style="color:{_COLOURS.get(answer, "inherit")}">{answer.upper()}</b> '
        f"{escape(sizing.design.name)}</p><p>{escape(sizing.reason.text)}</p>"
    )


def _findings(sizing: Sizing) -> str:
    rows = "".join(
        f"<tr><td>{escape(finding.title)}</td><td>{escape(finding.text)}</td>"
        f"<td>{finding.answer.value}</td></tr>"
        for finding in sizing.findings
    )
    return f"<table><tbody>{rows}</tbody></table>"


def size(design: Design, motor_file: MotorFile | None = None) -> Sized:
    """Return the complete answer for a design, without what to change.

    Parameters
    ----------
    design : Design
        As `read_design` gives it.
    motor_file : MotorFile, optional
        As `read_motors` gives it.

    Raises
    ------
    DesignError, CombinationError, UnknownNameError, NotTurnedError
        As `turnercalc.sizing.size`.
    """
    need_design(design)
    if motor_file is not None:
        need_motors(motor_file)
    found = size_fully(design, motor_file)
    return Sized(**{one.name: getattr(found, one.name) for one in fields(found)})


def calculate(design: Design, motor_file: MotorFile | None = None) -> Result:
    """Return the verdict of a design and what helps most: `turnercalc size` as Python.

    Parameters
    ----------
    design : Design
        As `read_design` gives it.
    motor_file : MotorFile, optional
        As `read_motors` gives it.

    Raises
    ------
    DesignError, CombinationError, UnknownNameError, NotTurnedError
        As `turnercalc.sizing.size`.
    """
    sizing = size(design, motor_file)
    return Result(sizing, advise(sizing, motor_file))
