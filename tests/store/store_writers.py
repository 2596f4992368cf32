"""Many programs writing to one stash at once: none of their changes may be lost or fail.

Each writer is a process of its own. In turn it takes 1 mm off a cloth all share, adds a cloth
of its own, and changes that.

    python tests/store/store_writers.py --writers 8 --changes 200 [--url URL]
"""

from __future__ import annotations

import argparse
import multiprocessing
import tempfile
import time
from dataclasses import dataclass, replace
from pathlib import Path

from store_records import LINING
from store_replay import Replay, faults, rows_of

from stash.errors import RefusedError
from stash.paths import sqlite_url
from stash.store import cloths
from stash.store.engine import migration_engine, read_url
from stash.store.store import Store
from stash.units.length import Length

MM = 10**6
"""Nanometres."""


@dataclass(frozen=True)
class Report:
    """What one writer did: changes acknowledged, how often it was told to look again."""

    writer: int
    done: int
    told: int
    slowest: float
    """Seconds of its slowest change, trying again included."""


class Writer:
    """One program that changes the stash."""

    def __init__(self, store: Store, number: int, shared: int) -> None:
        self.store, self.number, self.shared = store, number, shared
        self.told = 0
        self.own = 0

    def change(self, turn: int) -> None:
        """The change of this turn; tried again when someone else was quicker."""
        while True:
            try:
                (self._take, self._add, self._edit)[turn % 3](turn)
                return
            except RefusedError:
                self.told += 1

    def _take(self, turn: int) -> None:
        with self.store.write(f"{self.number}: take {turn}") as session:
            cloth = cloths.get_cloth(session, self.shared)
            cloths.update_cloth(session, replace(cloth, left=Length(cloth.left.nm - MM)))

    def _add(self, turn: int) -> None:
        with self.store.write(f"{self.number}: add {turn}") as session:
            name = f"cloth {turn} of {self.number}"
            self.own = cloths.insert_cloth(session, replace(LINING, name=name)).id

    def _edit(self, turn: int) -> None:
        with self.store.write(f"{self.number}: edit {turn}") as session:
            cloth = cloths.get_cloth(session, self.own)
            cloths.update_cloth(session, replace(cloth, notes=f"turn {turn}"))


def work(url: str, number: int, shared: int, changes: int, reports: object) -> None:
    """A writer's process: make the changes, then report."""
    slowest = 0.0
    with Store.open(url) as store:
        writer = Writer(store, number, shared)
        for turn in range(changes):
            began = time.monotonic()
            writer.change(turn)
            slowest = max(slowest, time.monotonic() - began)
    reports.put(Report(number, changes, writer.told, slowest))  # type: ignore[attr-defined]


def start(url: str) -> int:
    """Put the shared cloth on the shelf; returns its id."""
    with Store.open(url) as store, store.write("the shared cloth") as session:
        return cloths.insert_cloth(session, replace(LINING, left=Length(10**6 * MM))).id


def run(url: str, writers: int, changes: int) -> tuple[list[Report], list[str], float]:
    """Let them write at once; returns their reports, what is wrong afterwards, and seconds."""
    shared = start(url)
    context = multiprocessing.get_context("spawn")
    reports = context.Queue()
    began = time.monotonic()
    crowd = [
        context.Process(target=work, args=(url, number, shared, changes, reports))
        for number in range(writers)
    ]
    for one in crowd:
        one.start()
    for one in crowd:
        one.join()
    seconds = time.monotonic() - began
    failed = [f"a writer ended with {one.exitcode}" for one in crowd if one.exitcode]
    found = [reports.get() for _ in range(writers - len(failed))]
    return found, failed + wrong(url, writers, changes, shared), seconds


def wrong(url: str, writers: int, changes: int, shared: int) -> list[str]:
    """Changes that are missing, and rows that do not follow from the journal."""
    replay = Replay()
    found = faults(url, replay)
    for number in range(writers):
        for turn in range(changes):
            did = f"{number}: {('take', 'add', 'edit')[turn % 3]} {turn}"
            if did not in replay.told:
                found.append(f"lost: {did}")
    with migration_engine(read_url(url)).connect() as connection:
        rows = rows_of(connection)
    taken = 10**6 - rows["cloth", (shared,)]["left"] // MM
    meant = writers * len(range(0, changes, 3))
    if taken != meant:
        found.append(f"{meant} mm were taken off the shared cloth, {taken} mm are gone")
    own = sum(1 for table, _ in rows if table == "cloth") - 1
    if own != writers * len(range(1, changes, 3)):
        found.append(f"{own} cloths were added")
    return found


def main() -> int:
    """Print the figures; 1 if anything was lost or failed."""
    parser = argparse.ArgumentParser(description=str(__doc__).partition("\n")[0])
    parser.add_argument("--writers", type=int, default=8)
    parser.add_argument("--changes", type=int, default=200, help="of each writer")
    parser.add_argument("--url", help="an empty database; default: a new SQLite file")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        url = options.url or sqlite_url(Path(place) / "stash.db")
        reports, found, seconds = run(url, options.writers, options.changes)
    done = sum(report.done for report in reports)
    told = sum(report.told for report in reports)
    slowest = max((report.slowest for report in reports), default=0.0)
    print(f"{done} of {options.writers * options.changes} changes in {seconds:.1f} s")
    print(f"told to look again: {told}; slowest change: {slowest:.2f} s; wrong: {len(found)}")
    for line in found[:20]:
        print(f"  {line}")
    return 1 if found else 0


if __name__ == "__main__":
    raise SystemExit(main())
