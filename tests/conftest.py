"""What every test may use. The environment is settled before textual is imported."""

# ruff: noqa: E402
from __future__ import annotations

import os

for name in ("NO_COLOR", "TEXTUAL_THEME", "STASH_DB"):
    os.environ.pop(name, None)
os.environ["TEXTUAL_ANIMATIONS"] = "none"

import shutil
from contextlib import ExitStack
from functools import cache
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings
from ready_stash import Ready, filled
from server_kit import BACKENDS
from small_stash import fill
from textual.widgets import Input

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from stash.lay.result import Lay
    from stash.report.records import LaidOut
    from stash.services.stash import Stash

# A run that decides about a change is repeatable; a developer's own runs look further. How
# long one example takes says nothing on a busy machine.
settings.register_profile("decides", derandomize=True, deadline=None)
settings.register_profile("further", deadline=None)
settings.load_profile("decides" if os.environ.get("CI") else "further")


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
        metafunc.parametrize("backend", BACKENDS, indirect=True, scope="module")


@pytest.fixture(scope="module")
def backend(request: pytest.FixtureRequest) -> str:
    """The kind of database the stash of a test is in."""
    return str(getattr(request, "param", "sqlite"))


def _load_sample(stash: Stash) -> None:
    from stash.services.sample import load_sample

    load_sample(stash)


FILLS: dict[str, Callable[[Stash], object]] = {
    "empty": lambda _: None,
    "small": fill,
    "sample": _load_sample,
}


@pytest.fixture(scope="session")
def ready_made(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[str, str], Ready]]:
    """Each of `FILLS` in each kind of database, made when it is first asked for."""
    with ExitStack() as stack:

        @cache
        def make(what: str, backend: str) -> Ready:
            place = tmp_path_factory.mktemp(what)
            return stack.enter_context(filled(backend, place, FILLS[what]))

        yield make


@pytest.fixture(scope="module")
def ready(ready_made: Callable[[str, str], Ready], backend: str) -> Callable[[str], Ready]:
    """One of `FILLS` by its name, in the kind of database the tests run on."""
    return lambda what: ready_made(what, backend)


@pytest.fixture
def empty_stash(ready: Callable[[str], Ready], home: Path) -> Iterator[Stash]:
    """A stash with nothing in it, at STASH_HOME."""
    with ready("empty").copy(home) as stash:
        yield stash


@pytest.fixture
def sample_home(ready_made: Callable[[str, str], Ready], home: Path) -> Path:
    """The sample in a file at STASH_HOME."""
    shutil.copytree(ready_made("sample", "sqlite").home, home)
    return home


@pytest.fixture
def sample_stash(ready: Callable[[str], Ready], home: Path) -> Iterator[Stash]:
    """A stash filled from the sample, at STASH_HOME."""
    with ready("sample").copy(home) as stash:
        yield stash


@pytest.fixture
def small(ready: Callable[[str], Ready], home: Path) -> Iterator[Stash]:
    """Two cloths, one pattern, one make: see `small_stash`."""
    with ready("small").copy(home) as stash:
        yield stash


@pytest.fixture
def laid(small: Stash) -> LaidOut:
    """The make of the small stash, folded on its own cloth."""
    from stash.lay.problem import LayKind
    from stash.services.laying import lay_make

    return lay_make(small, "rain", cloth="olive", kind=LayKind.FOLDED)


@pytest.fixture
def lay(laid: LaidOut) -> Lay:
    """The lay of `laid`."""
    assert laid.lay is not None
    return laid.lay
