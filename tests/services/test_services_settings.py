"""Settings as typed: what is taken can be read back, what is wrong in the file can be mended."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, example, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from stash.config import Settings, load_settings
from stash.errors import BadInputError
from stash.services.preferences import SETTING_FIELDS, change_settings, setting_field
from stash.services.stash import Stash

if TYPE_CHECKING:
    from pathlib import Path

KEYS = tuple(field.key for field in SETTING_FIELDS)
NUMBERS = st.one_of(
    st.integers(0, 10**11).map(str),
    st.decimals(0, 30_000, places=3).map(lambda number: f"{number:f}"),
    st.sampled_from(("1/3", "2 1/2", "-5", "1e9", "nan", "inf")),
)
AMOUNTS = st.tuples(NUMBERS, st.sampled_from(("", " %", "mm", "cm", "m", "in", "yd"))).map("".join)
TEXTS = st.one_of(
    AMOUNTS,
    AMOUNTS.map("hand {}".format),
    st.sampled_from(("", "imperial", "inch", "€", "EUR", "a b", "hand 3, season 0")),
    st.text(max_size=8),
)


@hypothesis_settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(KEYS), TEXTS)
@example("margin", "20m")
@example("margin_percent", "101")
@example("shop_step", "0")
@example("shop_step", "0.1mm")
@example("currency", "doubloons")
@example("budget", "10000000")
@example("seed", "2147483647")
def test_whatever_is_taken_can_be_read_back(empty_stash: Stash, key: str, text: str) -> None:
    empty_stash.keep_settings(Settings())
    with suppress(BadInputError):
        change_settings(empty_stash, {key: text})
    assert load_settings(empty_stash.home / "settings.toml") == empty_stash.settings


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("margin", "20m", "Margin: '20m' is not from 0 mm to 10 m"),
        ("margin_percent", "200%", "'200%' is not from 0 to 100 %"),
        ("margin_percent", "-3", "Margin as a share: '-3' is negative. Type 3 %"),
        ("shop_step", "0", "'0' is not from 1 mm to 10 m"),
        ("budget", "20000000", "'20000000' is more than 10000000 EUR"),
        ("currency", "doubloons", "'doubloons' is not a currency"),
    ],
)
def test_what_the_file_may_not_say_is_not_taken(
    empty_stash: Stash, key: str, text: str, said: str
) -> None:
    with pytest.raises(BadInputError) as caught:
        change_settings(empty_stash, {key: text})
    assert said in str(caught.value)
    assert empty_stash.settings == Settings()


@pytest.mark.parametrize(
    ("line", "key", "text"),
    [
        ("margin_mm = 20000.0", "margin", "6 cm"),
        ("margin_percent = 101", "margin_percent", ""),
        ("shop_step_mm = 0", "shop_step_mm", ""),
        ('currency = "doubloons"', "currency", "GBP"),
        ("suit_weights = 3", "suit_weights", "hand 3"),
        ('system = "furlongs"', "units", "imperial"),
    ],
)
def test_a_wrong_setting_can_be_changed_and_nothing_else(
    home: Path, line: str, key: str, text: str
) -> None:
    home.mkdir()
    file = home / "settings.toml"
    file.write_text(f"seed = 7\n{line}\n", encoding="utf-8")
    name = line.split(" ", maxsplit=1)[0]
    with pytest.raises(BadInputError, match=f'stash settings {name} ""'):
        Stash.open(home)
    with pytest.raises(BadInputError, match=name):
        Stash.open(home, mend="budget")
    field = setting_field(key)
    with Stash.open(home, mend=field.attribute) as stash:
        change_settings(stash, {field.key: text})
    assert load_settings(file).seed == 7


def test_a_right_setting_is_not_forgotten_while_it_is_changed(home: Path) -> None:
    home.mkdir()
    (home / "settings.toml").write_text("margin_mm = 63.5\n", encoding="utf-8")
    with Stash.open(home, mend="margin_mm") as stash, suppress(BadInputError):
        change_settings(stash, {"margin": "lots"})
    assert load_settings(home / "settings.toml").margin_mm == 63.5
