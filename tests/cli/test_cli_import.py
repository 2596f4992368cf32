"""`stash import` and `stash export` as a person types them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

from stash.cli.commands import bring

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

TABLE = """Fabric,Type,Width (cm),Length (m),Content,Vendor
Olive cord,woven,140,1.5,CO 97 EL 3,market
Red jersey,,150,2,cotton lycra,
"""


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "shelf.csv"
    path.write_text(TABLE.replace("Vendor", "Sheen"), encoding="utf-8")
    return path


def test_looking_writes_nothing(home: Path, table: Path) -> None:
    found = run("import", str(table))
    assert found.exit_code == 0
    assert "Row 3, Content: 'cotton lycra' names cotton and elastane" in found.stdout
    assert "Column 'Fabric': Name" in found.stdout
    assert "1 of 2 rows can be taken. Nothing was written." in found.stderr
    assert data("cloth", "list")["cloths"] == []


def test_accepting_takes_what_is_ready_and_leaves_the_rest(home: Path, table: Path) -> None:
    refused = run("import", str(table), "--accept")
    assert refused.exit_code == 3
    assert "'Sheen'" in refused.stderr
    taken = run("import", str(table), "--accept", "--map", "Sheen=notes")
    assert "Taken: 1 of 2 rows." in taken.stderr
    assert "shelf.csv.left.csv" in taken.stderr
    (cloth,) = data("cloth", "list")["cloths"]
    assert (cloth["name"], cloth["width_mm"], cloth["left_mm"]) == ("Olive cord", 1400, 1500)
    again = run("import", str(table), "--accept", "--others", "notes")
    assert "In the stash already: 1." in again.stderr
    assert len(data("cloth", "list")["cloths"]) == 1


def test_choices_are_kept_for_the_next_table(home: Path, table: Path, tmp_path: Path) -> None:
    kept = tmp_path / "mine.toml"
    ok("import", str(table), "--map", "Sheen=place", "--save-mapping", str(kept))
    ok("import", str(table), "--mapping", str(kept), "--rows", "2", "--accept")
    (cloth,) = data("cloth", "list")["cloths"]
    assert cloth["place"] == "market"


def test_a_terminal_is_asked(home: Path, table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from click.testing import CliRunner

    from stash.cli.main import cli

    monkeypatch.setattr(bring, "_is_terminal", lambda: True)
    found = CliRunner().invoke(cli, ["import", str(table)], input="gloss\nplace\ny\n")
    assert found.exit_code == 0, found.output
    assert "There is no field 'gloss'" in found.output
    assert "Take 1 of 2 rows?" in found.output
    (cloth,) = data("cloth", "list")["cloths"]
    assert cloth["place"] == "market"


def test_what_goes_out_is_known_again(small: Stash, tmp_path: Path) -> None:
    small.close()
    for name in ("shelf.csv", "shelf.xlsx"):
        out = tmp_path / name
        assert "Written: 2 rows" in run("export", str(out)).stderr
        assert "In the stash already: 2." in run("import", str(out), "--accept").stderr


def test_json_tells_every_row_before_and_after_taking(home: Path, table: Path) -> None:
    seen = data("import", str(table))
    assert (seen["kind"], seen["heading_row"], seen["taken"]) == ("cloths", 1, None)
    fields = {one["heading"]: one["field"] for one in seen["columns"]}
    assert fields["Width (cm)"] == "width"
    assert fields["Sheen"] is None
    good, wrong = seen["rows"]
    assert (good["row"], good["standing"], good["read"]["width_mm"]) == (2, "ready", 1400)
    assert good["read"]["length_mm"] == 1500
    assert good["read"]["fibres"][0] == {"fibre": "cotton", "percent": 97}
    assert wrong["standing"] == "not understood"
    assert wrong["troubles"][0]["where"] == "Content"
    assert data("cloth", "list")["cloths"] == []
    taken = data("import", str(table), "--accept", "--others", "notes")["taken"]
    assert {key: taken[key] for key in ("taken", "there", "left")} == {
        "taken": 1,
        "there": 0,
        "left": 1,
    }
    assert taken["left_in"].endswith("shelf.csv.left.csv")
    again = data("import", str(table), "--accept", "--others", "notes")
    assert again["rows"][0]["there"] == "in the stash already"
    assert "left_in" in ok("import", "--help")


@pytest.mark.parametrize(
    "words",
    [
        ("import", "/no/such/table.csv"),
        ("import", "FILE", "--map", "Sheen"),
        ("import", "FILE", "--map", "Nowhere=notes"),
        ("import", "FILE", "--rows", "x"),
        ("import", "FILE", "--unit", "length"),
        ("import", "FILE", "--sheet", "Two"),
        ("import", "FILE", "--mapping", "FILE"),
        ("export", "/no/such/folder/shelf.csv"),
        ("export", "shelf.doc"),
    ],
    ids=" ".join,
)
def test_bad_input_is_told_in_a_sentence(home: Path, table: Path, words: tuple[str, ...]) -> None:
    found = run(*(str(table) if word == "FILE" else word for word in words))
    assert found.exit_code in (3, 4)
    assert found.stderr.startswith("stash: ")
    assert "fault" not in found.stderr
