"""Settings and places: read whole, refused with the reason, written back the same."""

from __future__ import annotations

from contextlib import suppress
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from stash import paths
from stash.config import Settings, System, load_settings, save_settings
from stash.errors import BadInputError

if TYPE_CHECKING:
    from pathlib import Path


def test_no_file_means_the_defaults(tmp_path: Path) -> None:
    assert load_settings(tmp_path / "none.toml") == Settings()


@pytest.mark.parametrize(
    "settings",
    [
        Settings(),
        Settings(
            system=System.IMPERIAL,
            currency='a"\\b',
            margin_mm=63.5,
            margin_percent=0,
            shop_step_mm=228.6,
            budget=Decimal("120.50"),
            seed=7,
            suit_weights=(("stretch across", 0.5), ("hand", 3.0)),
        ),
    ],
)
def test_settings_read_back_the_same(settings: Settings, tmp_path: Path) -> None:
    path = tmp_path / "new" / "settings.toml"
    save_settings(settings, path)
    assert load_settings(path) == settings
    assert [entry.name for entry in path.parent.iterdir()] == ["settings.toml"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("system = ", "cannot be read"),
        ('system = "furlongs"', "furlongs"),
        ("sistem = 1", "sistem"),
        ("margin_mm = -1", "margin_mm"),
        ("margin_mm = nan", "margin_mm"),
        ("margin_percent = true", "margin_percent"),
        ("shop_step_mm = 0", "shop_step_mm"),
        ('budget = "much"', "budget"),
        ("seed = 1.5", "seed"),
        ('currency = ""', "currency"),
        ("suit_weights = 3", "suit_weights"),
        ("[suit_weights]\ncolour = 1", "colour"),
        ("[suit_weights]\nhand = -1", "hand"),
    ],
)
def test_a_wrong_setting_is_named(text: str, said: str, tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadInputError, match=said) as caught:
        load_settings(path)
    assert str(path) in caught.value.message


@hypothesis_settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=60))
def test_any_file_is_settings_or_bad_input(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "settings.toml"
    path.write_bytes(content)
    with suppress(BadInputError):
        assert load_settings(path).margin_mm >= 0


def test_the_shop_step_follows_the_system() -> None:
    # Shops cut by 10 cm, in the US by 1/8 yard = 114.3 mm (from memory).
    assert Settings().shop_step == 100
    assert Settings(system=System.IMPERIAL).shop_step == 114.3
    assert Settings(shop_step_mm=250).shop_step == 250


def test_places_follow_the_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("STASH_HOME", str(tmp_path))
    monkeypatch.delenv("STASH_DB", raising=False)
    assert paths.home() == tmp_path
    assert paths.database_url() == f"sqlite:///{tmp_path.as_posix()}/stash.db"
    assert paths.backup_dir().parent == tmp_path
    monkeypatch.setenv("STASH_DB", str(tmp_path / "other.db"))
    assert paths.database_url() == f"sqlite:///{tmp_path.as_posix()}/other.db"
    monkeypatch.setenv("STASH_DB", "postgresql+psycopg://guild/stash")
    assert paths.database_url() == "postgresql+psycopg://guild/stash"
    monkeypatch.setenv("STASH_DB", str(tmp_path / "what?.db"))
    with pytest.raises(BadInputError, match="question mark"):
        paths.database_url()


def test_without_a_named_home_data_goes_where_the_system_keeps_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("STASH_HOME", "")
    assert paths.home().is_absolute()
    assert paths.home().name == "stash"


def test_what_travels_with_the_program_is_there() -> None:
    assert paths.migrations_dir().is_dir()
    assert paths.sample_dir().is_dir()
