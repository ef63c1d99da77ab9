"""A motor as a listing describes it: what is known of it, and what is not.

Every figure a listing leaves out stays None. Rated, starting, stall and holding torque are
four things; a torque of which the listing does not say which it is, is a fifth (`unnamed`) and
never becomes one of the four by itself. The same holds for the speeds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum

from turnercalc.errors import UnknownNameError

TORQUES = ("rated_torque", "starting_torque", "stall_torque", "holding_torque", "unnamed_torque")
SHORT_NAME = 12  # characters; a shorter one is more likely a shop's number than the first words
SPEEDS = ("rated_speed", "free_speed", "unnamed_speed")


class StartDirection(StrEnum):
    """Which way a motor sets off when it is switched on."""

    REVERSIBLE = "reversible"
    ONE_WAY = "one way"
    UNDEFINED = "either way, undefined"


@dataclass(frozen=True, slots=True)
class Duty:
    """How long a motor may run, in the terms of IEC 60034-1.

    Attributes
    ----------
    kind : str
        ``S1`` (continuous), ``S2`` (short time, then cold again), ``S3`` (intermittent); ``S4``
        and ``S5`` are S3 with starting and braking that warm, ``S6`` to ``S8`` never stand still
        and carry load for a share of the time, ``S9`` and ``S10`` have no share.
    run_time : float or None
        S2: longest run [s].
    share : float or None
        S3 to S8: share of each cycle that it may carry load [ratio].
    cycle : float
        S3 to S8: length of the cycle [s]; the standard's ten minutes unless the listing says.
    """

    kind: str
    run_time: float | None = None
    share: float | None = None
    cycle: float = 600.0


@dataclass(frozen=True, slots=True)
class Volts:
    """One supply voltage, or a range of them, that a listing names.

    Attributes
    ----------
    low, high : float
        Ends of the range [V]; equal for a single voltage.
    current : str
        ``dc``, ``ac``, or empty where the listing does not say.
    """

    low: float
    high: float
    current: str = ""


@dataclass(frozen=True, slots=True)
class Rating:
    """A figure that holds at one supply voltage or one mains frequency.

    Attributes
    ----------
    field : str
        Field of `Motor` it belongs to, such as ``stall_torque``.
    value : float
        In the unit of that field.
    volts, hertz : float or None
        The supply it holds at [V], [Hz].
    """

    field: str
    value: float
    volts: float | None = None
    hertz: float | None = None


@dataclass(frozen=True, kw_only=True)
class Motor:
    """One motor of a listing. SI units throughout; None means the listing does not say.

    Where a listing gives a figure at several supplies, the field holds the lowest and
    `ratings` holds each with its supply.

    Attributes
    ----------
    id : str
        Its name in the file.
    line : int
        Line of the file, counted from 1; 0 for a motor that comes from no file.
    title : str
        What the listing calls it.
    motor_class : str or None
        Id of the class in the table of motor classes.
    class_from : str
        ``listed``, ``words`` (inferred from the wording), ``figures`` (only a guess from the
        figures) or empty.
    candidates : tuple of str
        Classes it could be; one where words decide, several where only figures do.
    rated_torque, starting_torque, stall_torque, holding_torque, unnamed_torque : float or None
        [N·m]
    rated_speed, free_speed, unnamed_speed : float or None
        Speed at rated load, without load, and of unsaid kind [rad/s].
    ratings : tuple of Rating
        Figures bound to one voltage or frequency.
    volts : tuple of Volts
        Supplies it is made for; empty where the listing does not say.
    frequencies : tuple of float
        Mains frequencies [Hz].
    input_power, output_power : float or None
        [W]
    rated_current, stall_current, free_current : float or None
        [A]
    start_direction : StartDirection or None
    holds_when_off : bool or None
    duty : Duty or None
    protection : str or None
        IP code.
    insulation : str or None
        Class of its winding's insulation by IEC 60085: A, E, B, F or H.
    ambient_most : float or None
        Warmest surroundings allowed [degC].
    side_load : float or None
        Load allowed square to the shaft [N].
    force, holding_force : float or None
        Of a linear actuator [N].
    travel_speed : float or None
        Of a linear actuator [m/s].
    stroke : float or None
        Of a linear actuator [m].
    price : float or None
        In `currency`.
    currency : str
    mass : float or None
        [kg]
    notes : str
    """

    id: str
    line: int = 0
    title: str = ""
    motor_class: str | None = None
    class_from: str = ""
    candidates: tuple[str, ...] = ()
    rated_torque: float | None = None
    starting_torque: float | None = None
    stall_torque: float | None = None
    holding_torque: float | None = None
    unnamed_torque: float | None = None
    rated_speed: float | None = None
    free_speed: float | None = None
    unnamed_speed: float | None = None
    ratings: tuple[Rating, ...] = ()
    volts: tuple[Volts, ...] = ()
    frequencies: tuple[float, ...] = ()
    input_power: float | None = None
    output_power: float | None = None
    rated_current: float | None = None
    stall_current: float | None = None
    free_current: float | None = None
    start_direction: StartDirection | None = None
    holds_when_off: bool | None = None
    duty: Duty | None = None
    protection: str | None = None
    insulation: str | None = None
    ambient_most: float | None = None
    side_load: float | None = None
    force: float | None = None
    holding_force: float | None = None
    travel_speed: float | None = None
    stroke: float | None = None
    price: float | None = None
    currency: str = ""
    mass: float | None = None
    notes: str = ""

    @property
    def called_by_title(self) -> bool:
        """Whether its name is its title, or the first words of a long one."""
        whole = " ".join(self.title.split())
        return self.id == whole or (len(self.id) > SHORT_NAME and whole.startswith(self.id))

    @property
    def class_inferred(self) -> bool:
        """Whether the class was worked out rather than named."""
        return self.motor_class is not None and self.class_from != "listed"

    @property
    def any_torque(self) -> float | None:
        """The first torque known, for a first look only [N·m]."""
        known = (self.rated_torque, self.unnamed_torque, self.stall_torque, self.starting_torque)
        return next((value for value in known if value is not None), self.holding_torque)

    @property
    def any_speed(self) -> float | None:
        """The first speed known, for a first look only [rad/s]."""
        known = (self.rated_speed, self.unnamed_speed, self.free_speed)
        return next((value for value in known if value is not None), None)


class Outcome(StrEnum):
    """What became of one figure of a listing."""

    TAKEN = "taken"
    DOUBTED = "doubted"
    REFUSED = "refused"
    PASSED_OVER = "passed over"


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure or word of a listing, and what became of it.

    Attributes
    ----------
    column : str
        Head of the column it stood in, or what the place is called.
    text : str
        As it stands in the file.
    field : str
        Field of `Motor` it was taken for; empty where it was not.
    value : float, str, bool, Duty, tuple or None
        In the unit of the field.
    outcome : Outcome
        Taken, doubted (taken, but ask), refused, or passed over.
    note : str
        Why, for people.
    volts, hertz : float or None
        Supply the figure holds at [V], [Hz].
    """

    column: str
    text: str
    field: str = ""
    value: float | str | bool | Duty | tuple[float, ...] | None = None
    outcome: Outcome = Outcome.TAKEN
    note: str = ""
    volts: float | None = None
    hertz: float | None = None


@dataclass(frozen=True, slots=True)
class Possible:
    """One way of reading a row that breaks no law of physics.

    Attributes
    ----------
    torque_is, speed_is : str
        Field names such as ``stall_torque`` and ``free_speed``.
    output_power : float
        Most mechanical power that this reading means [W].
    motor : Motor
        The motor as it would then be.
    """

    torque_is: str
    speed_is: str
    output_power: float
    motor: Motor


@dataclass(frozen=True, slots=True)
class MotorRow:
    """One row of a motor file.

    Attributes
    ----------
    line : int
        Line of the file, counted from 1.
    text : str
        The row as it stands.
    motor : Motor
        What was understood, possibly little.
    readings : tuple of Reading
        Figure by figure.
    refused : str
        Why the row is not used; empty where it is.
    possible : tuple of Possible
        For a row refused as impossible: the readings that would be possible.
    """

    line: int
    text: str
    motor: Motor
    readings: tuple[Reading, ...] = ()
    refused: str = ""
    possible: tuple[Possible, ...] = ()

    @property
    def used(self) -> bool:
        """Whether the row can be judged."""
        return not self.refused


@dataclass(frozen=True)
class MotorFile:
    """A motor file, row by row.

    Attributes
    ----------
    rows : tuple of MotorRow
    name : str
        File name, for messages.
    layout : str
        How the table was found, for people.
    remarks : tuple of str
        What had to be done to read the file at all.
    """

    rows: tuple[MotorRow, ...] = ()
    name: str = ""
    layout: str = ""
    remarks: tuple[str, ...] = ()

    def __iter__(self) -> Iterator[MotorRow]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)

    @property
    def motors(self) -> tuple[Motor, ...]:
        """The motors of the rows that can be judged."""
        return tuple(row.motor for row in self.rows if row.used)

    def row(self, name: str) -> MotorRow:
        """Return the row of a motor by its name; case and outer spaces do not matter.

        The first words of a name or title will do where only one row begins with them.

        Raises
        ------
        UnknownNameError
            No row has this name; the message offers the nearest.
        """
        by_name = self._by_name()
        wanted = " ".join(name.split()).casefold()
        if wanted in by_name:
            return by_name[wanted]
        begun = self._begun_with(wanted)
        if len(begun) == 1:
            return begun[0]
        where = self.name or "the motor file"
        near = get_close_matches(wanted, by_name, n=3, cutoff=0.6)
        offered = [by_name[n].motor.id for n in near] or [r.motor.id for r in self.rows[:8]]
        names = ", ".join(offered) if offered else "nothing: it has no rows"
        if not near and len(self.rows) > len(offered):
            names += f" and {len(self.rows) - len(offered)} more"
        lead = "Nearest" if near else "It has"
        raise UnknownNameError(f'{where} has no motor "{name.strip()}". {lead}: {names}.')

    def _begun_with(self, wanted: str) -> list[MotorRow]:
        """Return the rows whose name or title begins with a word or words: ``K1`` of a shop."""
        return [
            row
            for row in self.rows
            if any(
                f"{' '.join(text.split()).casefold()} ".startswith((f"{wanted} ", f"{wanted},"))
                for text in (row.motor.id, row.motor.title)
            )
        ]

    def _by_name(self) -> Mapping[str, MotorRow]:
        names: dict[str, MotorRow] = {}
        for row in self.rows:
            names.setdefault(" ".join(row.motor.id.split()).casefold(), row)
        return names
