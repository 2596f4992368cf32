from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

from stash.errors import Exit

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

CLOTH = ("cloth", "add", "x", "--structure", "woven")

BAD = [
    ((*CLOTH, "--width", "140 cm", "--length", "lots"), Exit.BAD_INPUT, "'lots' is not a length"),
    ((*CLOTH, "--width", "140", "--length", "2 m"), Exit.BAD_INPUT, "140"),
    ((*CLOTH, "--width", "-140 cm", "--length", "2 m"), Exit.BAD_INPUT, "negative"),
    ((*CLOTH, "--width", "0 cm", "--length", "2 m"), Exit.BAD_INPUT, "no width"),
    ((*CLOTH, "--length", "2 m"), Exit.BAD_INPUT, "Width is missing"),
    (
        (*CLOTH, "--width", "1 m", "--length", "2 m", "--fibres", "100% moonbeam"),
        Exit.BAD_INPUT,
        "moonbeam",
    ),
    (
        (*CLOTH, "--width", "1 m", "--length", "2 m", "--selvedge", "60 cm"),
        Exit.BAD_INPUT,
        "selvedges",
    ),
    (
        (*CLOTH, "--width", "1 m", "--length", "20 m", "--repeat-length", "13 m"),
        Exit.BAD_INPUT,
        "No print repeats after more than 12 m (13 yd)",
    ),
    (("cloth", "list", "width>>3"), Exit.BAD_INPUT, ""),
    (("cloth", "show", "velvet"), Exit.NOT_FOUND, "no cloth called"),
    (("cloth", "edit", "olive", "--length", "-1 m"), Exit.BAD_INPUT, "negative"),
    (("cloth", "edit", "olive", "--got", "yesterday"), Exit.BAD_INPUT, "not a day"),
    (
        ("lay", "easy", "--width", "140 cm", "--nap", "--kind", "crossways"),
        Exit.BAD_INPUT,
        "nap cannot be folded across",
    ),
    (("lay", "easy", "--width", "140 cm", "--gap", "1"), Exit.BAD_INPUT, "'1'"),
    (("lay", "easy", "--width", "140 cm", "--gap", "1 m"), Exit.BAD_INPUT, "no gap"),
    (("lay", "easy", "--curve", "--gap", "1 cm"), Exit.BAD_INPUT, "may touch"),
    (("make", "add", "y", "--pattern", "easy"), Exit.BAD_INPUT, "several sizes"),
    (("make", "add", "y", "--pattern", "nothing"), Exit.NOT_FOUND, "no pattern"),
    (("pattern", "piece", "easy", "wing", "name=a"), Exit.BAD_INPUT, "wing"),
    (("pattern", "piece", "easy", "band", "name"), Exit.BAD_INPUT, "KEY=TEXT"),
    (("pattern", "import", "missing.svg"), Exit.NOT_FOUND, "missing.svg"),
    (
        ("lay", "rain", "--width", "2 m", "--flaw", "0,0,30m"),
        Exit.BAD_INPUT,
        "larger than any cloth",
    ),
    (("lay", "rain", "--width", "2 m", "--flaw", "9cm,9cm,0"), Exit.BAD_INPUT, "has no size"),
    (("lay", "rain", "--width", "20 cm"), Exit.BAD_INPUT, "cm across"),
    (("lay", "rain", "--width", "wide"), Exit.BAD_INPUT, "'wide'"),
    (("lay", "rain", "--width", "1 m", "--cloth", "olive"), Exit.BAD_INPUT, "one of them"),
    (("lay", "rain", "--width", "1 m", "--role", "lining"), Exit.BAD_INPUT, "lining"),
    (("lay", "rain", "--width", "1 m", "--svg", "/no/such/place.svg"), Exit.BAD_INPUT, "written"),
    (("promise", "rain", "blue"), Exit.REFUSED, "short"),
    (("release", "rain"), Exit.REFUSED, "holds no cloth"),
    (("settings", "units", "furlongs"), Exit.BAD_INPUT, "furlongs"),
    (("settings", "colour", "red"), Exit.BAD_INPUT, "colour"),
    (("import", "/no/such/folder"), Exit.BAD_INPUT, "folder"),
    (("lay",), Exit.USAGE, "Missing argument"),
    (("fly",), Exit.USAGE, "No such command"),
]


@pytest.mark.parametrize(("args", "code", "said"), BAD, ids=[" ".join(b[0]) for b in BAD])
def test_bad_input(small: Stash, args: tuple[str, ...], code: Exit, said: str) -> None:
    before = data("cloth", "list"), data("make", "list"), data("pattern", "list")
    result = run(*args)
    assert result.exit_code == code, result.stderr
    assert said in result.stderr
    assert "Traceback" not in result.stderr
    if code is not Exit.USAGE:
        assert len(result.stderr.splitlines()) == 1
    assert result.stdout == ""
    assert (data("cloth", "list"), data("make", "list"), data("pattern", "list")) == before


def test_a_fault_of_the_program_is_one_sentence_and_a_log(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("stash.services.cloths.shelf", lambda *_: 1 / 0)
    result = run("cloth", "list")
    assert result.exit_code == Exit.BUG
    assert len(result.stderr.splitlines()) == 1
    assert str(home / "faults.log") in result.stderr
    assert "ZeroDivisionError" in (home / "faults.log").read_text()


def test_ctrl_c_stops(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("stash.services.cloths.shelf", stop)
    result = run("cloth", "list")
    assert (result.exit_code, result.stderr) == (Exit.STOPPED, "stash: Stopped.\n")
    assert not (home / "faults.log").exists()


def test_a_file_that_is_no_stash(home: Path) -> None:
    home.mkdir()
    (home / "stash.db").write_text("this is not a database, but long enough to look at" * 50)
    result = run("cloth", "list")
    assert result.exit_code == Exit.STORE
    assert len(result.stderr.splitlines()) == 1


def test_a_home_that_cannot_be_made(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    home.write_text("a file, not a folder")
    monkeypatch.setenv("STASH_HOME", str(home / "stash"))
    result = run("cloth", "list")
    assert result.exit_code == Exit.STORE
    assert "STASH_HOME" in result.stderr


def test_a_broken_settings_file(home: Path) -> None:
    home.mkdir()
    (home / "settings.toml").write_text("system = ")
    result = run("cloth", "list")
    assert result.exit_code == Exit.BAD_INPUT
    assert "settings.toml" in result.stderr


def test_a_wrong_setting_is_mended_by_typing_it_anew(home: Path) -> None:
    home.mkdir()
    (home / "settings.toml").write_text("margin_mm = 20000.0\n")
    result = run("settings")
    assert result.exit_code == Exit.BAD_INPUT
    assert len(result.stderr.splitlines()) == 1
    assert ok("settings", "margin", "6cm").startswith("margin  6 cm")
    assert ok("cloth", "list") == ""


def test_a_broken_folder_leaves_nothing_behind(sample_home: Path, tmp_path: Path) -> None:
    from stash import paths

    broken = tmp_path / "broken"
    shutil.copytree(paths.sample_dir(), broken)
    with (broken / "cloths.csv").open("a", encoding="utf-8") as file:
        file.write("nonsense,row\n")
    shutil.rmtree(sample_home)
    result = run("import", str(broken))
    assert result.exit_code == Exit.BAD_INPUT
    assert "cloths.csv" in result.stderr
    assert data("cloth", "list") == {"cloths": []}


def test_the_sample_is_not_read_twice(sample_home: Path) -> None:
    assert sample_home.exists()
    from stash import paths

    result = run("import", str(paths.sample_dir()))
    assert result.exit_code == Exit.REFUSED
    assert "empty" in result.stderr
    assert ok("cloth", "list")
