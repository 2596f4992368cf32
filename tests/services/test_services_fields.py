from __future__ import annotations

import re
from dataclasses import fields as attributes
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from stash.cloth.record import Cloth
from stash.config import Settings
from stash.errors import BadInputError
from stash.garment.make import Make, Person
from stash.garment.pattern import Asks, ChartRow, Notion, Pattern, Size
from stash.services.cloth_fields import CLOTH_FIELDS
from stash.services.cloths import add_cloth, cloth_texts, edit_cloth, get_cloth
from stash.services.make_fields import MAKE_FIELDS, PERSON_FIELDS
from stash.services.names import context
from stash.services.pattern_fields import (
    ASKS_FIELDS,
    CHART_FIELDS,
    NOTION_FIELDS,
    PATTERN_FIELDS,
    SIZE_FIELDS,
)
from stash.services.pieces import families
from stash.services.preferences import SETTING_FIELDS, change_settings, setting_texts
from stash.services.ready_fields import ONE_TO_FIVE
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.fields import Field
    from stash.services.stash import Stash

EVERY = [
    (CLOTH_FIELDS, Cloth),
    (MAKE_FIELDS, Make),
    (PERSON_FIELDS, Person),
    (PATTERN_FIELDS, Pattern),
    (CHART_FIELDS, ChartRow),
    (ASKS_FIELDS, Asks),
    (NOTION_FIELDS, Notion),
]


@pytest.mark.parametrize(("described", "record"), EVERY, ids=lambda p: getattr(p, "__name__", ""))
def test_every_field_fills_an_attribute_once(
    described: tuple[Field, ...], record: type[object]
) -> None:
    known = {attribute.name for attribute in attributes(record)}  # type: ignore[arg-type]
    filled = [field.attribute for field in described]
    assert set(filled) <= known
    assert len(set(filled)) == len(filled)
    assert len({field.key for field in described}) == len(described)


@pytest.mark.parametrize("form", families(), ids=lambda form: form.key)
def test_a_family_has_one_field_of_each_key(form: object) -> None:
    keys = [field.key for field in form.fields]  # type: ignore[attr-defined]
    assert len(set(keys)) == len(keys)


SHAPES = ("flaws", "outline")
"""Fields whose one example has commas in it."""
NO_EXAMPLES = (("yes", "no"), ONE_TO_FIVE)
"""Choices of fields whose hint tells what they mean."""
PLAIN = [
    pytest.param(field, id=f"{record.__name__}.{field.key}")
    for described, record in (*EVERY, (SIZE_FIELDS, Size), (SETTING_FIELDS, Settings))
    for field in described
    if field.choices not in NO_EXAMPLES and "Name " not in field.hint and field.key not in SHAPES
]


def _examples(field: Field) -> list[str]:
    """What the hint shows of what may be typed: all after a colon, or where it begins with it."""
    said = field.hint.split(";")[0].replace("or: ", "")
    listed, begun = bool(field.choices), said[0].isdigit()
    shown = said.partition(": ")[2] or (said if listed or begun else "")
    return [part.rpartition(": ")[2] for part in re.split(r", (?:or )?| or ", shown) if part]


@pytest.mark.parametrize("field", PLAIN)
def test_every_example_of_a_hint_is_taken(empty_stash: Stash, field: Field) -> None:
    with empty_stash.read() as session:
        known = replace(context(empty_stash, session), texts={"width": "150 cm"})
        for example in _examples(field):
            field.read_text(example, known)


@pytest.mark.parametrize(
    ("key", "example"),
    [
        ("flaws", "80 cm along, 40 cm across, 3 cm radius: ink; corners 0 0, 9 0, 9 6 cm: tear"),
        ("outline", "0 0, 90 0, 90 60, 0 64 cm"),
    ],
)
def test_the_example_of_a_shape_is_taken(empty_stash: Stash, key: str, example: str) -> None:
    [field] = (field for field in CLOTH_FIELDS if field.key == key)
    assert f": {example}" in field.hint
    with empty_stash.read() as session:
        known = context(empty_stash, session)
        assert field.show(field.read_text(example, known), known) == example


def test_examples_are_found_in_hints() -> None:
    by_key = {field.key: _examples(field) for field in (*CLOTH_FIELDS, *PATTERN_FIELDS)}
    assert by_key["kind"] == ["shirt", "flared skirt", "elastic trousers"]
    assert by_key["weight"] == ["240 gsm", "8 oz", "19 momme", "450 g/m"]
    assert by_key["hand"] == ["fluid", "soft", "medium", "firm", "crisp"]


FULL = {
    "name": "sea wool",
    "structure": "wov",
    "width": '58/60"',
    "length": "2 5/8 yd",
    "selvedge": "3/8 in",
    "fibres": "80% wool 20% polyamide",
    "weight": "12 oz",
    "stretch_across": "10 cm to 11 cm",
    "recovery": "90",
    "hand": "4",
    "nap": "yes",
    "shrink_length": "50 cm to 48 cm",
    "colour": "2F4F4F",
    "loved": "5",
    "price": "24.50",
    "got": "2026-03-01",
}


def test_what_people_type_is_understood(empty_stash: Stash) -> None:
    cloth = add_cloth(empty_stash, FULL)
    assert cloth.width == Length.from_inches(58)  # of a range the narrower counts
    assert cloth.left == cloth.bought == Length.from_inches(94.5)  # 2 5/8 yd
    assert cloth.weight == pytest.approx(406.87, abs=0.01)  # 12 oz/yd², by definition
    assert cloth.stretch_across == pytest.approx(10)
    assert cloth.shrink_length == pytest.approx(4)
    assert (cloth.hand, cloth.nap, cloth.colour) == (4, True, "#2f4f4f")


def test_a_weight_per_running_metre_takes_the_width_of_the_cloth(empty_stash: Stash) -> None:
    texts = {"name": "a", "structure": "woven", "width": "150 cm", "length": "1 m"}
    assert add_cloth(empty_stash, {**texts, "weight": "450 g/m"}).weight == pytest.approx(300)


def test_all_problems_are_told_at_once_and_nothing_is_kept(empty_stash: Stash) -> None:
    bad = {**FULL, "width": "-3 cm", "fibres": "100% moonbeam", "loved": "9", "length": "long"}
    with pytest.raises(BadInputError) as caught:
        add_cloth(empty_stash, bad)
    for part in ("Width", "Fibres", "Loved", "Length left"):
        assert f"{part}:" in caught.value.message
    with pytest.raises(Exception, match="no cloth"):
        get_cloth(empty_stash, "sea wool")


def test_saving_a_form_untouched_changes_nothing(empty_stash: Stash) -> None:
    cloth = add_cloth(empty_stash, FULL)
    again = edit_cloth(empty_stash, "sea wool", cloth_texts(empty_stash, cloth))
    assert again == Cloth(
        **{a.name: getattr(cloth, a.name) for a in attributes(Cloth)} | {"version": again.version}
    )


def test_what_lies_on_the_shelf_is_never_shown_longer_than_it_is(empty_stash: Stash) -> None:
    """2 1/4 yd are 2.0574 m; a form left as it is keeps every tenth of a millimetre."""
    cloth = add_cloth(empty_stash, FULL | {"length": "2 1/4 yd", "bought": ""})
    texts = cloth_texts(empty_stash, cloth)
    assert (texts["length"], texts["bought"]) == ("2.05 m", "2.05 m")
    again = edit_cloth(empty_stash, "sea", texts)
    assert again.left == again.bought == Length.from_inches(81)


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize(
    ("key", "typed", "kept"),
    [
        ("margin", "0", 0.0),
        ("margin", "2 in", 50.8),
        ("margin", "4 mm", 4.0),
        ("shop_step", "1/8 yd", 114.3),
        ("shop_step", "10 cm", 100.0),
    ],
)
def test_a_setting_is_shown_so_that_it_can_be_typed_back(
    empty_stash: Stash, units: str, key: str, typed: str, kept: float
) -> None:
    change_settings(empty_stash, {"units": units})
    before = change_settings(empty_stash, {key: typed})
    shown = setting_texts(empty_stash)[key]
    assert shown
    change_settings(empty_stash, {key: ""})
    after = change_settings(empty_stash, {key: shown})
    assert after == before
    assert getattr(after, f"{key}_mm") == kept


def test_an_edit_reads_only_what_was_typed(empty_stash: Stash) -> None:
    before = add_cloth(empty_stash, FULL)
    after = edit_cloth(empty_stash, "sea", {"length": "1,5 m"})
    assert after.left == Length.from_mm(1500)
    assert (after.bought, after.width) == (before.bought, before.width)
    with pytest.raises(BadInputError, match="no field called"):
        edit_cloth(empty_stash, "sea", {"lenght": "1 m"})
    with pytest.raises(BadInputError, match="Name is missing"):
        edit_cloth(empty_stash, "sea", {"name": " "})


def test_each_problem_is_told_once_and_on_its_own_line(empty_stash: Stash) -> None:
    with pytest.raises(BadInputError) as told:
        add_cloth(empty_stash, {"name": "sea wool", "width": "0 cm", "weight": "heavy"})
    lines = str(told.value).splitlines()
    assert [line.split()[0] for line in lines] == ["Structure", "Width:", "Length", "Weight:"]
    assert lines[0] == "Structure is missing: woven, knit, felted, lace or coated."
    assert "'heavy' is not a weight" in lines[3]


def test_an_amount_of_a_chart_is_never_shown_as_less(empty_stash: Stash) -> None:
    # 1 yd = 0.9144 m exactly (1959 agreement): 2.1 m is 2.297 yd, more than 2 1/4 yd.
    [field] = (field for field in CHART_FIELDS if field.key == "amount")
    change_settings(empty_stash, {"units": "imperial"})
    with empty_stash.read() as session:
        assert field.show(Length.from_mm(2100), context(empty_stash, session)) == "2 3/8 yd"
