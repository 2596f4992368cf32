"""What every test may use. The environment is settled before textual is imported."""

# ruff: noqa: E402
from __future__ import annotations

import os

for name in ("NO_COLOR", "TEXTUAL_THEME", "STASH_DB"):
    os.environ.pop(name, None)
os.environ["TEXTUAL_ANIMATIONS"] = "none"

import shutil
from datetime import date
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings
from server_kit import BACKENDS, fresh_database, name_of
from small_stash import fill
from textual.widgets import Input

from stash.services.stash import Stash

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

# A run that decides about a change is repeatable; a developer's own runs look further.
settings.register_profile("decides", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("decides")

TODAY = date(2026, 10, 1)


def clock() -> date:
    """The same day in every test."""
    return TODAY


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """No test ever touches the data of the person who runs it."""
    place = tmp_path / "home"
    monkeypatch.setenv("STASH_HOME", str(place))
    monkeypatch.delenv("STASH_DB", raising=False)
    return place


@pytest.fixture(autouse=True)
def _no_blink(monkeypatch: pytest.MonkeyPatch) -> None:
    """A cursor that blinks by the clock would make two equal screens differ."""
    monkeypatch.setattr(Input, "_toggle_cursor", lambda _: None)


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Tests of the services run on PostgreSQL too, where there is a server for them."""
    if "backend" in metafunc.fixturenames and metafunc.definition.path.parent.name == "services":
        metafunc.parametrize("backend", BACKENDS, indirect=True)


@pytest.fixture
def backend(request: pytest.FixtureRequest) -> str:
    """The kind of database the stash of a test is in."""
    return str(getattr(request, "param", "sqlite"))


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The name of a database on the server that holds an empty stash; only ever copied."""
    with fresh_database() as url:
        Stash.open(tmp_path_factory.mktemp("empty"), url, clock=clock).close()
        yield name_of(url)


@pytest.fixture(scope="session")
def sample_database(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The same with the sample in it."""
    from stash.services.sample import load_sample

    with fresh_database() as url:
        with Stash.open(tmp_path_factory.mktemp("sample"), url, clock=clock) as stash:
            load_sample(stash)
        yield name_of(url)


@pytest.fixture
def empty_stash(request: pytest.FixtureRequest, home: Path, backend: str) -> Iterator[Stash]:
    """A stash with nothing in it, at STASH_HOME."""
    if backend == "sqlite":
        with Stash.open(clock=clock) as stash:
            yield stash
        return
    copied = request.getfixturevalue("empty_database")
    with fresh_database(copied) as url, Stash.open(home, url, clock=clock) as stash:
        yield stash


@pytest.fixture(scope="session")
def sample_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample, read once; never open it, copy it."""
    from stash.services.sample import load_sample

    place = tmp_path_factory.mktemp("sample")
    with Stash.open(place, clock=clock) as stash:
        load_sample(stash)
    return place


@pytest.fixture
def sample_home(sample_template: Path, home: Path) -> Path:
    """A copy of the sample at STASH_HOME."""
    shutil.copytree(sample_template, home)
    return home


@pytest.fixture
def sample_stash(request: pytest.FixtureRequest, home: Path, backend: str) -> Iterator[Stash]:
    """A stash filled from the sample, at STASH_HOME."""
    if backend == "sqlite":
        request.getfixturevalue("sample_home")
        with Stash.open(clock=clock) as stash:
            yield stash
        return
    copied = request.getfixturevalue("sample_database")
    with fresh_database(copied) as url, Stash.open(home, url, clock=clock) as stash:
        yield stash


@pytest.fixture
def small(empty_stash: Stash) -> Stash:
    """Two cloths, one pattern, one make: see `small_stash`."""
    fill(empty_stash)
    return empty_stash
