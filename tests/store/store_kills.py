"""Programs killed in the middle of writing: what they were told is kept must be there.

A child process changes the stash over and over and writes the number of every change it was
told is kept into a pipe. It is killed at a random moment. Then the file must be whole, its
references too, every acknowledged change must be in the journal, and the journal must give
the tables.

    python tests/store/store_kills.py --kills 300 [--url URL] [--seed 1]
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import tempfile
import time
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from store_records import CORD, LINING
from store_replay import Replay, faults

from stash.paths import sqlite_url
from stash.store import cloths, undo
from stash.store.store import Store
from stash.units.length import Length

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.cloth.record import Cloth

MOST = 8
"""A child is killed after at most so many changes were heard of ..."""
LONGEST = 0.05
"""... and at most so many seconds more, in the middle of whatever it does."""
DONE = 20
"""Bytes of one acknowledged change: its number and a new line."""


@dataclass
class Figures:
    """What happened so far."""

    kills: int = 0
    acknowledged: int = 0
    unheard: int = 0
    """Kept, but killed before it could say so."""
    wrong: list[str] = field(default_factory=list)


def write_for_ever(url: str, loop: int, pipe: int) -> None:
    """The child: add, cut, edit, remove and undo, and say each time that it is kept."""
    with Store.open(url) as store:
        turn = 0
        cloth: Cloth = CORD
        while True:
            with store.write(f"{loop}: {turn}") as session:
                cloth = _change(session, turn, cloth)
            os.write(pipe, f"{turn:>{DONE - 1}}\n".encode())
            turn += 1


def _change(session: Session, turn: int, cloth: Cloth) -> Cloth:
    match turn % 5:
        case 0:
            return cloths.insert_cloth(session, replace(CORD, name=f"cloth {turn}"))
        case 1:
            return cloths.update_cloth(session, replace(cloth, left=Length(turn), fibres=()))
        case 2:
            return cloths.update_cloth(session, replace(cloth, flaws=(), fibres=CORD.fibres))
        case 3:
            cloths.delete_cloth(session, cloth.id)
            return cloth
        case _:
            what = session.info["what"]
            undo.undo_entry(session, undo.last_change(session))
            session.info["what"] = what
            return cloths.insert_cloth(session, replace(LINING, name=f"cloth {turn}"))


def killed_once(url: str, loop: int, chance: random.Random) -> list[int]:
    """Start a child, kill it at a random moment; returns the changes it acknowledged."""
    listen, tell = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(listen)
        try:
            write_for_ever(url, loop, tell)
        finally:
            os._exit(3)  # it ends by being killed, never by itself
    os.close(tell)
    with open(listen, "rb", buffering=0) as pipe:  # noqa: PTH123 - a file descriptor
        heard = b"".join(pipe.read(DONE) for _ in range(chance.randint(1, MOST)))
        time.sleep(chance.uniform(0, LONGEST))
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        assert os.WTERMSIG(status) == signal.SIGKILL, "the child failed before it was killed"
        while part := pipe.read(1 << 16):
            heard += part
    return [int(line) for line in heard.split()]


def run(url: str, kills: int, seed: int) -> Figures:
    """Kill so many children, and look after each at what they left."""
    figures, replay, chance = Figures(), Replay(), random.Random(seed)
    Store.open(url).close()
    for loop in range(kills):
        heard = killed_once(url, loop, chance)
        before = len(replay.told)
        figures.wrong += [f"kill {loop}: {fault}" for fault in faults(url, replay)]
        lost = [turn for turn in heard if f"{loop}: {turn}" not in replay.told]
        figures.wrong += [f"kill {loop}: lost change {turn}" for turn in lost]
        figures.kills += 1
        figures.acknowledged += len(heard)
        figures.unheard += len(replay.told) - before - len(heard) + len(lost)
    return figures


def main() -> int:
    """Print the figures; 1 if anything is wrong."""
    parser = argparse.ArgumentParser(description=str(__doc__).partition("\n")[0])
    parser.add_argument("--kills", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--url", help="an empty database; default: a new SQLite file")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        url = options.url or sqlite_url(Path(place) / "stash.db")
        figures = run(url, options.kills, options.seed)
    print(f"{figures.kills} kills, {figures.acknowledged} changes acknowledged")
    print(f"kept but not heard of: {figures.unheard}; wrong: {len(figures.wrong)}")
    for line in figures.wrong[:20]:
        print(f"  {line}")
    return 1 if figures.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
