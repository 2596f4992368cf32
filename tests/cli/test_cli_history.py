"""`stash undo`, `redo` and `history`, and two writers at the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

if TYPE_CHECKING:
    from stash.services.stash import Stash

pytestmark = pytest.mark.usefixtures("small")


def test_undo_and_redo_work_across_runs(small: Stash) -> None:
    small.close()
    ok("cloth", "edit", "olive", "--length", "1.5 m")
    ok("cloth", "remove", "blue stripe")
    assert "Undone: remove cloth blue stripe." in run("undo").stderr
    assert "Undone: edit cloth olive cord." in run("undo").stderr
    assert data("cloth", "show", "olive")["left_mm"] == 1900
    assert "Done again: edit cloth olive cord." in run("redo").stderr
    assert data("cloth", "show", "olive")["left_mm"] == 1500
    assert data("cloth", "show", "blue stripe")["id"] == 2
    ok("cloth", "edit", "olive", "--place", "attic")
    refused = run("redo")
    assert refused.exit_code == 5
    assert "a new change was made" in refused.stderr


def test_a_dry_run_tells_and_keeps_nothing() -> None:
    ok("cloth", "edit", "olive", "--length", "1.5 m")
    told = ok("undo", "--dry-run")
    assert "Would undo: edit cloth olive cord." in told
    assert "Length left: 1.50 m → 1.90 m" in told
    assert data("cloth", "show", "olive")["left_mm"] == 1500
    assert data("history", "--last", "1")["entries"][0]["undone_by"] is None


def test_one_entry_is_undone_only_if_nothing_depends_on_it() -> None:
    ok("cloth", "edit", "olive", "--length", "1.5 m")
    edit = data("history", "--last", "1")["entries"][0]["id"]
    ok("cloth", "edit", "blue", "--place", "attic")
    ok("cloth", "edit", "olive", "--notes", "soft")
    later = data("history", "--last", "1")["entries"][0]["id"]
    refused = run("undo", str(edit))
    assert refused.exit_code == 5
    assert f"(entry {later}, " in refused.stderr
    assert f"stash undo {later}" in refused.stderr
    ok("undo", str(later))
    ok("undo", str(edit))
    assert data("cloth", "show", "olive")["left_mm"] == 1900
    assert data("cloth", "show", "blue")["place"] == "attic"
    assert run("undo", "999").exit_code == 4


def test_history_tells_fields_in_the_persons_units() -> None:
    ok("cloth", "edit", "olive", "--length", "1 yd", "--fibres", "50% wool 50% silk")
    ok("settings", "units", "imperial")
    told = ok("history", "--changes", "--last", "1")
    # 1.9 m are 74.803 inches: what one has is never rounded up, so not 74 7/8.
    assert "Length left: 74 3/4 in → 1 yd" in told
    assert "fibre 1 of cloth olive cord changed" in told
    (entry,) = data("history", "--last", "1")["entries"]
    (left,) = [one for one in entry["rows"][0]["fields"] if one["key"] == "length"]
    assert (left["before"], left["after"]) == (1900, 914.4)  # 1 yd = 0.9144 m exactly (1959)


def test_history_of_one_record_even_when_it_is_gone() -> None:
    ok("cloth", "edit", "blue stripe", "--place", "attic")
    ok("cloth", "edit", "olive", "--place", "box")
    ok("cloth", "remove", "blue stripe")
    whats = [entry["what"] for entry in data("history", "blue stripe")["entries"]]
    assert whats == ["remove cloth blue stripe", "edit cloth blue stripe", "add cloth blue stripe"]
    refused = run("history", "velvet moon")
    assert refused.exit_code == 4
    assert "Nothing is or was called" in refused.stderr


def test_a_change_on_an_old_version_is_refused_with_both_texts() -> None:
    seen = str(data("cloth", "show", "olive")["version"])
    ok("cloth", "edit", "olive", "--length", "1.5 m")
    refused = run("cloth", "edit", "olive", "--length", "1.7 m", "--seen", seen)
    assert refused.exit_code == 5
    assert "changed meanwhile by" in refused.stderr
    assert "Length left: theirs 1.50 m, yours 1.70 m, before 1.90 m." in refused.stderr
    assert "without --seen" in refused.stderr
    assert data("cloth", "show", "olive")["left_mm"] == 1500
    ok("cloth", "edit", "olive", "--length", "1.7 m")
    assert data("cloth", "show", "olive")["left_mm"] == 1700
    assert run("cloth", "edit", "olive", "--notes", "x", "--seen", "77").exit_code == 3


def test_what_others_changed_of_the_parts_is_told_too() -> None:
    seen = str(data("cloth", "show", "olive")["version"])
    ok("cloth", "edit", "olive", "--fibres", "60% cotton 40% linen")
    ok("cloth", "edit", "olive", "--fibres", "100% linen", "--place", "attic")
    refused = run("cloth", "edit", "olive", "--notes", "soft", "--seen", seen)
    assert refused.exit_code == 5
    assert "Fibres: theirs 100% linen, before 100% cotton." in refused.stderr
    assert "Place: theirs attic, before nothing." in refused.stderr
    shown = data("cloth", "show", "olive")
    assert [share["fibre"] for share in shown["fibres"]] == ["linen"]
    assert (
        run("cloth", "edit", "olive", "--notes", "x", "--seen", str(shown["version"])).exit_code
        == 0
    )
    assert data("history", "olive")["entries"][0]["what"] == "edit cloth olive cord"


@pytest.mark.parametrize("command", ["history", "undo"])
def test_help_explains_the_keys(command: str) -> None:
    told = ok(command, "--help")
    for key in ("rows", "before", "after_text"):
        assert key in told
