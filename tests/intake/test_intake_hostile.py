"""A few of the hostile files; `intake_hostile.py` makes hundreds."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from intake_hostile import run

REFUSED = frozenset(
    {
        *("svg: entity bomb", "svg: outside entity", "svg: clone bomb", "svg: numbers of no world"),
        *("dxf: block bomb", "dxf: grid of blocks", "dxf: circle of no world"),
        *("pdf: form bomb", "pdf: deep states", "pdf: locked"),
        *("xlsx: entities", "ods: entities", "csv: open quote"),
        *("folder: pipe for people", "folder: link to a drawing out", "folder: drawing above"),
        *("folder: pipe for settings", "folder: deep tables", "folder: long number"),
    }
)


def test_hostile_files_are_refused_in_a_sentence() -> None:
    # From a process that holds nothing yet: a child's memory counts from what it begins with.
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as fresh:
        found = {one.what: one for one in fresh.submit(run, 11, 150, only=REFUSED).result()}
    assert set(found) == REFUSED
    assert {what: one.how for what, one in found.items()} == dict.fromkeys(REFUSED, "refused")
    assert [one.what for one in found.values() if not one.passed] == []
