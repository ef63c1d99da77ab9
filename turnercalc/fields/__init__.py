"""Field types of design files: what builders write, read into SI and written back.

Quantities give SI floats; ``Range3``, ``Size``, ``HeavySide`` and ``Supply`` are small frozen
dataclasses. Every type is ``Annotated[..., Phrase]``: see `turnercalc.fields.phrases` for how
models narrow one, and `field_info` for what a question mode can ask of it.
"""

from typing import Any

from turnercalc.errors import UnknownNameError
from turnercalc.fields import places, quantities, things, walls, words
from turnercalc.fields.half_known import HalfKnown
from turnercalc.fields.phrases import Phrase, needs_builder, quantity
from turnercalc.fields.places import (
    FROM_AXLE,
    FROM_CONTACT,
    FROM_PIN,
    FROM_PIVOT,
    AcrossFromAxle,
    AcrossFromContact,
    AcrossFromPin,
    AcrossFromPivot,
    HeightAboveFloor,
    HeightFromAxle,
    HeightFromBars,
    HeightFromContact,
    HeightFromPin,
    HeightFromPivot,
    Origin,
    SwingEachSide,
    TiltEachSide,
)
from turnercalc.fields.quantities import (
    Angle,
    Count,
    CountFromZero,
    Current,
    Duration,
    Efficiency,
    Force,
    Frequency,
    Friction,
    FrictionField,
    Gap,
    Length,
    LengthRange,
    Mass,
    Power,
    Ratio,
    Rotation,
    Share,
    Speed,
    Stiffness,
    Temperature,
    Torque,
    TurnsPerDay,
    Voltage,
    angle,
    count,
    mass,
    positive_length,
    range3,
    ratio,
    temperature,
)
from turnercalc.fields.section import (
    Context,
    FieldInfo,
    Given,
    Section,
    Trouble,
    field_info,
    field_infos,
    is_blank,
)
from turnercalc.fields.things import (
    DrumBalance,
    EggMass,
    EggSize,
    HeavySide,
    Size,
    Supply,
    SupplyWords,
)
from turnercalc.fields.words import BoolWords, Choice, Name, words_of_table
from turnercalc.tables import Range3

PHRASES: dict[str, Phrase] = {
    phrase.kind: phrase
    for module in (quantities, places, things, walls, words)
    for phrase in vars(module).values()
    if isinstance(phrase, Phrase)
}


def to_text(value: Any, kind: str, system: str = "metric", digits: int = 6) -> str:
    """Return a value as text that its field type reads back.

    Parameters
    ----------
    value : object
        As the field type holds it.
    kind : str
        Name of the field type, such as ``length`` or ``height from pivot``.
    system : str
        ``metric`` or ``us``.
    digits : int
        Figures that count.
    """
    if kind not in PHRASES:
        message = f"there is no field type {kind!r}; there are {', '.join(PHRASES)}"
        raise UnknownNameError(message)
    return PHRASES[kind].write(value, system, digits)


__all__ = [
    "FROM_AXLE",
    "FROM_CONTACT",
    "FROM_PIN",
    "FROM_PIVOT",
    "PHRASES",
    "AcrossFromAxle",
    "AcrossFromContact",
    "AcrossFromPin",
    "AcrossFromPivot",
    "Angle",
    "BoolWords",
    "Choice",
    "Context",
    "Count",
    "CountFromZero",
    "Current",
    "DrumBalance",
    "Duration",
    "Efficiency",
    "EggMass",
    "EggSize",
    "FieldInfo",
    "Force",
    "Frequency",
    "Friction",
    "FrictionField",
    "Gap",
    "Given",
    "HalfKnown",
    "HeavySide",
    "HeightAboveFloor",
    "HeightFromAxle",
    "HeightFromBars",
    "HeightFromContact",
    "HeightFromPin",
    "HeightFromPivot",
    "Length",
    "LengthRange",
    "Mass",
    "Name",
    "Origin",
    "Phrase",
    "Power",
    "Range3",
    "Ratio",
    "Rotation",
    "Section",
    "Share",
    "Size",
    "Speed",
    "Stiffness",
    "Supply",
    "SupplyWords",
    "SwingEachSide",
    "Temperature",
    "TiltEachSide",
    "Torque",
    "Trouble",
    "TurnsPerDay",
    "Voltage",
    "angle",
    "count",
    "field_info",
    "field_infos",
    "is_blank",
    "mass",
    "needs_builder",
    "positive_length",
    "quantity",
    "range3",
    "ratio",
    "temperature",
    "to_text",
    "words_of_table",
]
