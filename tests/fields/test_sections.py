"""Sections of fields, and what a question mode can ask of them."""

import pytest
from pydantic import ValidationError

from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields import (
    DrumBalance,
    EggMass,
    EggSize,
    Friction,
    HeavySide,
    Length,
    Range3,
    Section,
    Size,
    Supply,
    SupplyWords,
    field_info,
    field_infos,
    is_blank,
)

from .examples import DEG, LIE, Rack


def _messages(data, model=Rack):
    with pytest.raises(ValidationError) as caught:
        model.model_validate(data)
    return {".".join(map(str, e["loc"])): e for e in caught.value.errors()}


def test_a_section_reads_its_phrases():
    rack = Rack.model_validate(
        {"crank": {"radius": "50 mm", "across": "49.5 mm right of pivot"}, "tilt": "90 deg in all"}
    )
    assert rack.crank.radius == pytest.approx(0.05)
    assert rack.crank.across == pytest.approx(0.0495)
    assert rack.crank.height is None
    assert rack.tilt == pytest.approx(45 * DEG)
    with pytest.raises(ValidationError, match="frozen"):
        rack.tilt = 1.0


def test_all_complaints_come_at_once_at_their_fields():
    errors = _messages(
        {
            "crank": {"radius": 50, "across": "4 mm", "teeth": 3, "lenght": "3 mm"},
            "tilt": "45 deg",
        }
    )
    assert set(errors) == {"crank.radius", "crank.across", "crank.teeth", "crank.lenght", "tilt"}
    assert errors["crank.radius"]["ctx"]["accepted"] == ("50 mm", "50 cm")
    assert errors["crank.teeth"]["ctx"]["accepted"] == ("8",)
    assert errors["crank.lenght"]["type"] == "extra_forbidden"


def test_a_blank_field_counts_as_left_out():
    rack = Rack.model_validate(
        {"crank": {"radius": "50 mm", "across": "-", "teeth": "unknown"}, "tilt": "45° each side"}
    )
    assert rack.crank.across is None
    assert rack.crank.teeth == 12
    errors = _messages({"crank": {"radius": "-"}, "tilt": "45° each side"})
    assert errors["crank.radius"]["type"] == "missing"
    assert is_blank("–")
    assert not is_blank(0)


def test_python_callers_may_give_si():
    data = {"crank": {"radius": 0.05, "across": -0.01}, "tilt": 45 * DEG}
    rack = Rack.model_validate(data, context={"si": True})
    assert (rack.crank.radius, rack.crank.across, rack.tilt) == (0.05, -0.01, 45 * DEG)
    with pytest.raises(ValidationError, match="at most"):
        Rack.model_validate({**data, "tilt": 45.0}, context={"si": True})


def test_values_of_the_type_itself_are_taken():
    class Things(Section):
        size: EggSize
        friction: Friction
        supply: SupplyWords
        balance: DrumBalance
        egg: EggMass
        length: Length

    size, supply = Size(0.06, 0.04), Supply((12.0,), (), None)
    things = Things.model_validate(
        {
            "size": size,
            "friction": Range3(0.1, 0.2, 0.3),
            "supply": supply,
            "balance": HeavySide(0.0, 0.0, 1),
            "egg": "58 g",
            "length": "5 cm",
        }
    )
    assert things.size is size
    assert things.supply is supply


def test_small_values_keep_their_order():
    with pytest.raises(UnitError, match="low to high"):
        Range3(0.3, 0.2, 0.4)
    with pytest.raises(UnitError, match="as long as"):
        Size(0.04, 0.05)


def test_field_info():
    info = field_info(Rack, "crank.radius")
    assert (info.name, info.kind, info.required) == ("crank.radius", "length", True)
    assert info.help == "Shaft middle to pin middle."
    assert info.phrase.read(info.example) == pytest.approx(0.05)
    assert field_info(Rack, "crank.across").kind == "across from pivot"
    assert field_info(Rack, "crank.lie").choices == LIE.choices
    assert not field_info(Rack, "rows").required
    assert field_info(Rack, "crank.teeth").example == "8"


def test_field_infos_come_in_file_order():
    names = [info.name for info in field_infos(Rack)]
    crank = ["radius", "across", "height", "teeth", "lie"]
    assert names == [*(f"crank.{n}" for n in crank), "tilt", *(f"spare.{n}" for n in crank), "rows"]
    for info in field_infos(Rack):
        info.phrase.read(info.example)


@pytest.mark.parametrize("name", ["crank.lenght", "nothing", "rows.more", "crank"])
def test_field_info_of_an_unknown_field(name):
    with pytest.raises(UnknownNameError):
        field_info(Rack, name)
