"""Places of a drive are measured, asked for and written from what its turner measures from."""

import pytest

from turnercalc.design.schema import measured_from, schema_for
from turnercalc.drives.actuator import ActuatorSection
from turnercalc.drives.crank import CrankSection, LinkSection
from turnercalc.fields import FROM_AXLE, FROM_CONTACT, FROM_PIVOT, field_info, to_text

PLACES = [(CrankSection, "across"), (CrankSection, "height"), (ActuatorSection, "eye_height")]


@pytest.mark.parametrize(("model", "name"), PLACES)
@pytest.mark.parametrize(
    ("origin", "word"), [(FROM_PIVOT, "pivot"), (FROM_CONTACT, "contact"), (FROM_AXLE, "axle")]
)
def test_places_are_said_from_the_turners_own_origin(model, name, origin, word):
    info = field_info(measured_from(origin, model), name)
    assert origin.words in info.help
    assert info.phrase.read(info.example) != 0.0
    assert info.phrase.write(-0.0495).endswith(f"{word}")
    assert list(measured_from(origin, model).model_fields) == list(model.model_fields)


def test_a_section_without_places_and_a_pivot_stay_as_they_are():
    assert measured_from(FROM_CONTACT, LinkSection) is LinkSection
    assert measured_from(FROM_PIVOT, CrankSection) is CrankSection
    assert schema_for(None, None).sections


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("60 mm above contact", 0.06),
        ("2-1/2 in above the level contact", 0.0635),
        ("15 mm above the lowest point of the runners", 0.015),
        ("at the contact", 0.0),
    ],
)
def test_heights_above_the_contact_are_read(text, value):
    assert FROM_CONTACT.height.read(text) == pytest.approx(value)


def test_the_wrong_origin_is_named():
    with pytest.raises(ValueError, match="measured from the contact"):
        FROM_CONTACT.height.read("60 mm above the pivot")
    assert to_text(0.15, "across from contact") == "150 mm right of contact"
