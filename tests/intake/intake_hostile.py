"""Hostile files through every importer: refused in a sentence or read, nothing else.

Each file is read in a process of its own, in which any connection, any process started and
any file opened for writing outside its folder counts as a breach. Run as a script it makes
and reads 500 files and prints what became of them:
    python tests/intake/intake_hostile.py [SEED] [COUNT]
"""

from __future__ import annotations

import os
import resource
import signal
import sys
import tempfile
import time
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING, Any

from hostile_drawings import DXFS, GOOD_DXF, GOOD_PDF, GOOD_SVG, PDFS, SVGS
from hostile_tables import CSVS, FOLDERS, GOOD_CSV, GOOD_XLSX, ODSS, XLSXS, make_folder

from stash.errors import StashError
from stash.services.import_choices import Choices
from stash.services.importing import preview
from stash.services.pattern_import import look_at
from stash.services.stash import Stash
from stash.services.whole_import import import_all

if TYPE_CHECKING:
    from collections.abc import Iterator

    from hostile_drawings import Maker

MOST_SECONDS, MOST_MB = 10.0, 500.0
PATIENCE_SECONDS = 40
"""Of the clock, on however busy a machine; the limit above is processor time."""
GOOD = {"svg": GOOD_SVG, "dxf": GOOD_DXF, "pdf": GOOD_PDF, "csv": GOOD_CSV, "xlsx": GOOD_XLSX}
MAKERS: dict[str, tuple[Maker, ...]] = {
    "svg": SVGS,
    "dxf": DXFS,
    "pdf": PDFS,
    "csv": CSVS,
    "xlsx": XLSXS,
    "ods": ODSS,
}


@dataclass(frozen=True)
class Outcome:
    """What became of one file."""

    what: str
    how: str
    """read, refused, or what went wrong."""
    seconds: float = 0.0
    mb: float = 0.0

    @property
    def passed(self) -> bool:
        return (
            self.how in ("read", "refused") and self.seconds <= MOST_SECONDS and self.mb <= MOST_MB
        )


def hostile_files(
    place: Path, seed: int, count: int, only: frozenset[str]
) -> Iterator[tuple[str, Path]]:
    """Write and name the files one after the other; every maker comes before any comes twice."""
    rng = Random(seed)
    folders = dict(FOLDERS)
    drawn = {f"{kind}: {name}": make for kind, found in MAKERS.items() for name, make in found}
    names = [*drawn, *(f"folder: {name}" for name, _ in FOLDERS), *["torn"] * 90]
    for number, what in zip(range(count), cycle(names), strict=False):
        if only and what not in only:
            continue
        kind, _, name = what.partition(": ")
        if kind == "folder":
            path = place / f"{number}"
            make_folder(path, folders[name], rng)
        else:
            what, kind, data = _torn(rng) if what == "torn" else (what, kind, drawn[what](rng))
            path = place / f"{number}.{kind}"
            path.write_bytes(data)
        yield what, path


def _torn(rng: Random) -> tuple[str, str, bytes]:
    """A good file cut short, with bytes changed, under another name, empty or of noise."""
    ending = rng.choice(sorted(GOOD))
    data = bytearray(GOOD[ending])
    match how := rng.choice(["cut", "changed", "changed", "renamed", "empty", "noise", "twice"]):
        case "cut":
            del data[rng.randrange(len(data)) :]
        case "changed":
            for _ in range(rng.choice([1, 9, 99])):
                data[rng.randrange(len(data))] = rng.randrange(256)
        case "renamed":
            data = bytearray(GOOD[rng.choice(sorted(GOOD))])
        case "empty":
            data.clear()
        case "noise":
            data = bytearray(rng.randbytes(rng.choice([9, 9000])))
        case "twice":
            data = data * 2
    return f"{ending}: {how}", ending, bytes(data)


def read_one(path: Path, home: Path) -> str:
    """Read a file as the program would; returns how that ended."""
    breaches = _watched(home)
    try:
        with Stash.open(home) as stash:
            if path.is_dir():
                import_all(stash, path)
            elif path.suffix in (".svg", ".dxf", ".pdf"):
                look_at(path)
            else:
                preview(stash, path, Choices())
        how = "read"
    except StashError as error:
        told = str(error)
        how = "refused" if told and "Traceback" not in told else f"says nothing: {told!r}"
    except Exception as error:
        how = f"{type(error).__name__}: {str(error)[:200]}"
    return f"breach: {breaches[0]}" if breaches else how


def _watched(home: Path) -> list[str]:
    """Note connections, processes and writing outside `home` from now on."""
    found: list[str] = []

    def hook(event: str, arguments: tuple[Any, ...]) -> None:
        if event.startswith(("socket.connect", "socket.getaddrinfo", "subprocess", "os.system")):
            found.append(event)
        elif event == "open" and isinstance(arguments[0], (str, bytes)):
            flags = arguments[2] or 0
            inside = os.fsdecode(arguments[0]).startswith((str(home), "/dev/null"))
            if flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT) and not inside:
                found.append(f"writes {os.fsdecode(arguments[0])}")

    sys.addaudithook(hook)
    return found


def outcome(what: str, path: Path, home: Path) -> Outcome:
    """Read a file in a process of its own."""
    told, tell = os.pipe()
    child = os.fork()
    if child == 0:
        signal.alarm(PATIENCE_SECONDS)
        # What a runaway may take at all, so that the machine stays well.
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
        how = read_one(path, home)
        os.write(tell, how.encode()[:4000])
        os._exit(0)
    os.close(tell)
    with os.fdopen(told, "rb") as answer:
        how = answer.read().decode(errors="replace")
    _, status, used = os.wait4(child, 0)
    ended = how or f"ended by {os.waitstatus_to_exitcode(status)}"
    return Outcome(what, ended, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def run(
    seed: int, count: int, *, only: frozenset[str] = frozenset(), show: bool = False
) -> list[Outcome]:
    """Make `count` files, one after the other, and read them, or only those of some names."""
    outcomes = []
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        for number, (what, path) in enumerate(hostile_files(place, seed, count, only)):
            found = outcome(what, path, place / f"home{number}")
            outcomes.append(found)
            if show and not found.passed:
                print(f"{what}: {found.how}, {found.seconds:.1f} s, {found.mb:.0f} MB", flush=True)
    return outcomes


def main() -> None:
    """Print what became of the files."""
    seed = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 500
    # Loaded once, before the processes part.
    import pandas  # noqa: F401

    begun = time.monotonic()
    found = run(seed, count, show=True)
    read, refused = (sum(one.how == how for one in found) for how in ("read", "refused"))
    worst, largest = max(found, key=lambda o: o.seconds), max(found, key=lambda o: o.mb)
    print(
        f"{count} files (seed {seed}) in {time.monotonic() - begun:.0f} s: "
        f"{read} read, {refused} refused, {sum(not o.passed for o in found)} failed"
    )
    print(f"longest {worst.seconds:.1f} s of processor time ({worst.what})")
    print(f"most memory {largest.mb:.0f} MB ({largest.what})")


if __name__ == "__main__":
    main()
