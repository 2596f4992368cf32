"""What happens when the disk is full, or its folder can only be read: run as root on Linux.

    python tests/store/store_full_disk.py

A small disk in memory is mounted for it, which only root may do. Every step is told; it ends
with exit code 1 if a stash was harmed or a message was not a plain one.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from stash import paths

FILLING = "filling"


def stash(home: Path, *args: str) -> subprocess.CompletedProcess[str]:
    """Run a command on the stash in `home`."""
    command = [sys.executable, "-m", "stash", *args]
    place = os.environ | {"STASH_HOME": str(home)}
    return subprocess.run(command, env=place, capture_output=True, text=True, check=False)


def fill_up(disk: Path) -> None:
    """Leave not a byte free."""
    with (disk / FILLING).open("wb", buffering=0) as file:
        for size in (65536, 4096, 512, 1):
            try:
                while True:
                    file.write(b"\0" * size)
            except OSError:
                continue


def mount(*args: str) -> bool:
    """Whether the mounting worked."""
    return subprocess.run(["mount", *args], capture_output=True, check=False).returncode == 0


def failures(disk: Path, other: Path) -> list[str]:
    """What went otherwise than it should on the small disk; `other` is a folder with room."""
    found: list[str] = []

    def told(done: subprocess.CompletedProcess[str], *said: str) -> None:
        print(f"  {done.returncode}: {done.stderr.strip()}")
        plain = "Traceback" not in done.stderr and done.stderr.startswith("stash: ")
        if done.returncode != 6 or not plain or not all(word in done.stderr for word in said):
            found.append(done.stderr)

    home = disk / "home"
    stash(home, "import", str(paths.sample_dir()))
    before = stash(home, "cloth", "list", "--json").stdout
    fill_up(disk)
    print("Adding to a stash on a full disk:")
    cloth = ("cloth", "add", "x", "--structure", "woven", "--width", "1 m", "--length", "2 m")
    big = (*cloth, "--notes", "moth " * 20_000)
    told(stash(home, *big), "full", "make room")
    print("Copying another stash there:")
    stash(other, "import", str(paths.sample_dir()))
    told(stash(other, "backup", str(disk / "copy.db")), "full")
    if (disk / "copy.db").exists():
        found.append("half a copy was left behind")
    print("Writing all of it there as files:")
    told(stash(other, "export", "--all", str(disk / "files")), "No space")
    (disk / FILLING).unlink()
    found += _harm(home, before, "after the disk was full")
    if not mount("-o", "remount,ro", str(disk)):
        return [*found, "the disk could not be made read-only"]
    print("Adding to a stash that can only be read:")
    told(stash(home, *cloth), "Read-only")
    mount("-o", "remount,rw", str(disk))
    return found + _harm(home, before, "after it could only be read")


def _harm(home: Path, before: str, when: str) -> list[str]:
    checked = stash(home, "check")
    same = stash(home, "cloth", "list", "--json").stdout == before
    print(f"  {when}: {'unharmed' if same and not checked.returncode else 'HARMED'}")
    return [] if same and not checked.returncode else [f"{when}: {checked.stdout}"]


def main() -> int:
    """Run all of it on a disk of 12 MB."""
    with tempfile.TemporaryDirectory() as place, tempfile.TemporaryDirectory() as other:
        disk = Path(place)
        if not mount("-t", "tmpfs", "-o", "size=12m", "tmpfs", str(disk)):
            print("A disk cannot be mounted here: this needs root on Linux.")
            return 1
        try:
            found = failures(disk, Path(other))
        finally:
            subprocess.run(["umount", "-l", str(disk)], check=False)
    print("\n".join(["It failed:", *found]) if found else "Nothing was harmed.")
    return 1 if found else 0


if __name__ == "__main__":
    raise SystemExit(main())
