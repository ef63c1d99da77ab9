"""One complete answer for a notebook or a script: what the command line says, as Python."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from turnercalc.advice import Advice, advise
from turnercalc.handover.record import sizing_record
from turnercalc.loads import planned
from turnercalc.sizing import Sizing, size

if TYPE_CHECKING:
    from turnercalc.design import Design
    from turnercalc.findings import Answer
    from turnercalc.motors import MotorFile

_COLOURS = {"fine": "#1a7f37", "marginal": "#9a6700", "no": "#b42318", "unknown": "#6639ba"}


@dataclass(frozen=True)
class Result:
    """A sizing and what to change, as `turnercalc size` prints them.

    Attributes
    ----------
    sizing : Sizing
        Everything computed.
    advice : Advice
        What helps, best first.
    """

    sizing: Sizing
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
        """Return the turn cycle as arrays in SI; nothing where it does not go through.

        Returns
        -------
        dict
            ``position``, ``coordinate``, ``rate`` of shape (P,); ``load_torque`` and
            ``shaft_torque`` of shape (load, friction, direction, P); ``loads``, ``friction``,
            ``direction`` name their axes; ``planned`` (load,).
        """
        cycle = self.sizing.cycle
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
            "direction": ("anticlockwise", "clockwise"),
        }

    def _repr_html_(self) -> str:
        """Return verdict, reason, changes and findings as HTML; nothing in it is not escaped."""
        answer = self.sizing.verdict.value
        head = (
            f'<p><b style="color:{_COLOURS.get(answer, "inherit")}">{answer.upper()}</b> '
            f"{escape(self.sizing.design.name)}</p><p>{escape(self.reason)}</p>"
        )
        changes = "".join(
            f"<li>{escape(change.say)} Then: {change.verdict_after.value}.</li>"
            for change in self.advice.changes
        )
        rows = "".join(
            f"<tr><td>{escape(finding.title)}</td><td>{escape(finding.text)}</td>"
            f"<td>{finding.answer.value}</td></tr>"
            for finding in self.sizing.findings
        )
        return f"{head}<ul>{changes}</ul><table><tbody>{rows}</tbody></table>"


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
        As `size`.
    """
    sizing = size(design, motor_file)
    return Result(sizing, advise(sizing, motor_file))
