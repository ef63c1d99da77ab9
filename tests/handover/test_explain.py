"""Words, limits, motor classes, fields and formulas explained."""

import re
from pathlib import Path

import pytest

from turnercalc import checks
from turnercalc.derivations import names, topics
from turnercalc.design import read_design
from turnercalc.errors import UnknownNameError
from turnercalc.handover.explain import contents, explain
from turnercalc.handover.formulas import formula_page
from turnercalc.handover.glossary import WORDS
from turnercalc.sizing import size
from turnercalc.tables import defaults, limit, table

from .conftest import RACK

#: One word per thing, everywhere: all of these can be looked up.
HOUSE_WORDS = (
    "tilt", "turn", "crank", "link", "arm", "load torque", "shaft torque", "motor torque",
    "rated torque", "starting torque", "stall torque", "holding torque", "dependable torque",
    "times enough", "rest point", "jam point", "load case",
)  # fmt: skip


def test_every_label_of_the_page_can_be_looked_up() -> None:
    """The page ends with "turnercalc explain WORD, for any word on this page"."""
    titles = checks.questions()
    assert {"Jams", "Goes through", "Holds", "Gentleness", "Imbalance", "Stops"} <= set(titles)
    for title in titles:
        page = explain(title)
        assert fits(page), title
        assert len(page.splitlines()) > 2, title
    assert explain("jams").startswith("JAMS")
    assert "friction alone can hold the drive" in explain("Jams").replace("\n  ", " ")
    with pytest.raises(UnknownNameError, match="zorbly"):
        explain("zorbly")


def fits(text: str) -> bool:
    return all(len(line) <= 80 for line in text.splitlines())


@pytest.mark.parametrize("word", HOUSE_WORDS)
def test_every_word_of_the_house_is_explained(word: str) -> None:
    text = explain(word)
    assert text.startswith(word.upper())
    assert fits(text)


def test_every_word_refers_only_to_words_that_are_there() -> None:
    known = {word.name for word in WORDS}
    for word in WORDS:
        assert set(word.see) <= known, word.name


def test_no_word_means_two_things() -> None:
    every = [name for word in WORDS for name in (word.name, *word.also)]
    assert len(every) == len(set(every))


@pytest.mark.parametrize("word", WORDS, ids=lambda word: word.name)
def test_other_names_lead_to_the_same_page(word: object) -> None:
    from turnercalc.handover.word import Word

    assert isinstance(word, Word)
    for other in word.also:
        assert word.text.split()[0] in explain(other)


@pytest.mark.parametrize("spelling", ["rest point", "Rest-Point", "rest_point", "  REST  point "])
def test_words_are_found_however_they_are_spelt(spelling: str) -> None:
    assert explain(spelling) == explain("rest point")


@pytest.mark.parametrize("row", table("limits").rows, ids=lambda row: row.text("id"))
def test_every_limit_is_explained_with_figures_reason_and_source(row: object) -> None:
    found = limit(row.text("id"))  # type: ignore[attr-defined]
    text = re.sub(r"\s+", " ", explain(found.id))
    assert found.reason in text
    assert found.source in text
    for figure in (found.fine, found.no):
        assert figure is None or f"{figure:g}" in text
    assert fits(explain(found.id))


@pytest.mark.parametrize("default", defaults(), ids=lambda default: default.field)
def test_every_field_with_a_default_is_explained(default: object) -> None:
    text = explain(default.field)  # type: ignore[attr-defined]
    assert default.text in re.sub(r"\s+", " ", text)  # type: ignore[attr-defined]
    assert fits(text)


@pytest.mark.parametrize("name", [row.text("id") for row in table("motor_classes").rows])
def test_every_motor_class_is_explained(name: str) -> None:
    assert fits(explain(name))
    assert "Source:" in explain(name)


@pytest.mark.parametrize("ascii_only", [False, True])
@pytest.mark.parametrize("name", [*topics(), *names()])
def test_every_formula_is_explained(name: str, ascii_only: bool) -> None:
    text = explain(name, ascii_only=ascii_only)
    assert fits(text)
    assert "Source:" in text
    assert not ascii_only or text.isascii()


def test_crank_and_link_with_the_numbers_of_a_design() -> None:
    design = read_design(RACK)
    text = explain("crank and link", design)
    assert fits(text)
    assert design.name in re.sub(r"\s+", " ", text)
    for line in ("r = 0.056 m ", "L = 0.22 m ", "a = 0.08 m ", "X = 0.056 m ", "Y = -0.22 m "):
        assert line in text


def test_the_worked_numbers_agree_with_the_calculation() -> None:
    """The arm's direction and rate by SymPy are those of the numpy kernels at the same place."""
    design = read_design(RACK)
    cycle = size(design).cycle
    assert cycle is not None
    text = explain("crank and link", design)
    crank = re.search(r"t = (\S+) rad", text)
    arm = re.search(r"^p = (\S+) rad", text, re.M)
    rate = re.search(r"^p' = (-?[\d.]+)$", text, re.M)
    assert crank is not None
    assert arm is not None
    assert rate is not None
    at = abs(cycle.motion.position - float(crank[1])).argmin()
    assert float(arm[1]) == pytest.approx(cycle.motion.coordinate[at], abs=1e-4)
    assert float(rate[1]) == pytest.approx(cycle.motion.rate[at], abs=1e-4)


def test_the_worked_torque_is_near_the_whole_calculation() -> None:
    """Without friction and loose eggs it is less, but not by much."""
    text = explain("crank_and_link_torque", read_design(RACK))
    bare = re.search(r"^T = (\S+) N·m$", text, re.M)
    whole = re.search(r"calculation gives (\S+) N·m there", re.sub(r"\s+", " ", text))
    assert bare is not None
    assert whole is not None
    assert 0.8 * float(whole[1]) < float(bare[1]) < float(whole[1])


def test_a_formula_that_a_design_has_no_numbers_for_says_so() -> None:
    assert "Nothing in this design goes into these formulas." in explain(
        "nest_angle", read_design(RACK)
    )


@pytest.mark.parametrize(
    ("word", "near"), [("torqe", "torque"), ("tylt", "tilt"), ("restpoint", "rest point")]
)
def test_a_word_that_is_not_there_names_the_nearest(word: str, near: str) -> None:
    with pytest.raises(UnknownNameError) as error:
        explain(word)
    assert f'There is nothing called "{word}" to explain.' in str(error.value)
    assert near in str(error.value)
    assert "turnercalc explain" in str(error.value)


@pytest.mark.parametrize("word", ["", "   ", "?", "x" * 500])
def test_nonsense_is_no_word(word: str) -> None:
    with pytest.raises(UnknownNameError):
        explain(word)


def test_the_contents_name_everything_and_fit() -> None:
    text = re.sub(r"\s+", " ", contents())
    assert fits(contents())
    for name in (*HOUSE_WORDS, "crank and link", "link to arm", "brushed worm"):
        assert name in text


@pytest.mark.parametrize(
    ("topic", "file", "told"),
    [
        ("slotted lever", "tool-cupboard-rack.toml", ("r = 0.087 m", "d = 0.13 m", "-2.0233")),
        ("linear actuator", "potting-shed-rack.toml", ("q = 0.085 m", "l = 0.2149 m", "24.54 N")),
    ],
)
def test_the_drives_of_the_examples_are_in_their_formulas(
    topic: str, file: str, told: tuple[str, ...]
) -> None:
    # By hand: r/(d - r) = 87/43 = 2.0233 on the quick return; the eye 215 mm from the pin with
    # the rod upright (275 - 85 sin 45 deg), arm 85 cos 45 deg = 60.1 mm.
    examples = Path(__file__).parents[2] / "examples"
    page = formula_page(topic, read_design(examples / file))
    for figure in told:
        assert figure in page
