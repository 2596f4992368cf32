"""The benchmark command on instances written here, in the public JSON form."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from stash.errors import Exit
from stash.lay.benchmark import main


@pytest.fixture
def bricks(tmp_path: Path) -> Path:
    """Four bricks 2 x 1 on a strip 2 high: they fill it to a length of 4 exactly."""
    ring = [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0], [0.0, 0.0]]
    item = {
        "id": 0,
        "demand": 4,
        "allowed_orientations": [0.0, 180.0],
        "shape": {"type": "simple_polygon", "data": ring},
    }
    path = tmp_path / "bricks.json"
    path.write_text(json.dumps({"name": "bricks", "strip_height": 2.0, "items": [item]}))
    return path


def test_json_holds_density_as_a_fraction(bricks: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = main([str(bricks), "--seconds", "0.1", "--json", "--best", "bricks=1.0"])
    assert code == Exit.DONE
    [score] = json.loads(capsys.readouterr().out)
    assert score["length"] == pytest.approx(4, abs=1e-4)
    assert score["density"] == pytest.approx(1, abs=1e-4)
    assert score["share"] == pytest.approx(1, abs=1e-4)
    assert score["pieces"] == 4
    assert score["checked"] is True
    assert score["tries_per_second"] > 0


def test_a_line_a_file(bricks: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(bricks), "--seconds", "0.1"]) == Exit.DONE
    out = capsys.readouterr().out
    assert "bricks" in out
    assert "legal" in out


def test_the_library_alone_is_told_beside_it(
    bricks: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([str(bricks), "--seconds", "1", "--alone", "--perfect"]) == Exit.DONE
    out = capsys.readouterr().out
    assert "100.00 % of best known" in out
    assert "library alone" in out
    assert "as good" in out
    assert main([str(bricks), "--seconds", "1", "--alone", "--json"]) == Exit.DONE
    [score] = json.loads(capsys.readouterr().out)
    # The library keeps a hair between pieces: two bricks as wide as the strip do not fit into it.
    assert 0.4 < score["alone"] < 1
    assert score["alone_seconds"] >= 1


def test_the_library_alone_begins_as_it_does_for_us(
    bricks: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wedges = json.loads(bricks.read_text()) | {"strip_height": 1.7}  # not solved at once
    wedges["items"][0]["shape"]["data"] = [[0.0, 0.0], [2.0, 0.3], [0.2, 1.0]]
    bricks.write_text(json.dumps(wedges))
    asked: list[str] = []
    real = subprocess.Popen

    def listening(_: list[str], **options: Any) -> subprocess.Popen[str]:
        echo = "import sys; open(sys.argv[1], 'w').write(sys.stdin.read())"
        asked.append(f"{bricks}.{len(asked)}")
        return real([sys.executable, "-c", echo, asked[-1]], **options)

    monkeypatch.setattr(subprocess, "Popen", listening)
    main([str(bricks), "--seconds", "2", "--alone"])
    alone, with_us, *_ = (json.loads(Path(name).read_text()) for name in asked)
    assert alone["items"] == with_us["items"]
    assert alone["width"] == with_us["width"]
    [item] = alone["items"]
    assert item["copies"] == 4


@pytest.mark.parametrize("text", ["", "{}", "[1]", '{"strip_height": 0, "items": []}', "\x00"])
def test_a_file_of_another_form_is_one_sentence(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "x.json"
    path.write_text(text)
    assert main([str(path)]) == Exit.BAD_INPUT
    error = capsys.readouterr().err
    assert "strip-packing instance" in error or "nothing to lay" in error
    assert len(error.splitlines()) == 1


@pytest.mark.parametrize("best", ["bricks", "bricks=two", "bricks=1.5"])
def test_a_bad_best_is_one_sentence(
    best: str, bricks: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([str(bricks), "--best", best]) == Exit.BAD_INPUT
    assert "NAME=DENSITY" in capsys.readouterr().err
