"""A messy workbook of a stash, seeded, made together with the truth of every cell.

Run as a script it prints how much of it is read right:
    python tests/intake/intake_mess.py [SEED]
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

from intake_mess_cells import HEADINGS, REPORTED, Mess, mess_row
from openpyxl import Workbook

from stash.services.import_choices import Choices
from stash.services.importing import Preview, preview
from stash.services.stash import Stash

TOLD = frozenset({"Shop", "Swatch nr", "Notes"})
"""Columns that go into the notes as they are."""
NAMES = {
    "Fabric name": "name",
    "Knit or woven": "structure",
    "Width (cm)": "width",
    "Length (m)": "left",
    "Composition": "fibres",
    "Weight (gsm)": "weight",
    "Pre-washed?": "washed",
    "Nap": "nap",
    "Stretch": "stretch_across",
    "Bought on": "got",
    "Price per metre": "price",
    "Colour": "colour_name",
    "Bin": "place",
}


def write_mess(path: Path, seed: int = 1, rows: int = 250) -> dict[int, dict[str, Mess]]:
    """Write the workbook; returns the truth by the number of the row."""
    rng = Random(seed)
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["My stash, begun long ago"])
    sheet.append([])
    sheet.append(list(HEADINGS))
    truth: dict[int, dict[str, Mess]] = {}
    at = 3
    for number in range(rows):
        if number and number % 60 == 0:
            sheet.append([])
            sheet.append(list(HEADINGS))
            at += 2
        at += 1
        truth[at] = mess_row(rng, number)
        for place, heading in enumerate(HEADINGS, 1):
            mess = truth[at][heading]
            cell = sheet.cell(at, place, mess.cell if mess.cell != "" else None)
            if mess.shape:
                cell.number_format = mess.shape
    book.save(path)
    return truth


@dataclass(frozen=True)
class Score:
    """How the cells of a table were read."""

    cells: int
    right: int
    told: int
    """Reported to the person, among the right ones where that is the truth."""
    wrong: tuple[str, ...]
    """Read as something else, or reported although they say it plainly."""
    silent: tuple[str, ...]
    """Neither read, nor in the notes, nor reported."""
    kinds: Counter[str]


def _is_true(truth: Any, value: Any) -> bool:
    if isinstance(truth, dict):
        return {share.fibre: share.percent for share in value} == truth
    if isinstance(truth, float):
        return value is not None and abs(value - truth) < 1e-6
    if hasattr(value, "nm"):
        return bool(value.nm == round(truth))
    return bool(value == truth)


def score(seen: Preview, truth: dict[int, dict[str, Mess]]) -> Score:
    """Every filled cell of the workbook against the truth."""
    read = {row.number: row for row in seen.rows}
    cells, right, told = 0, 0, 0
    wrong, silent, kinds = [], [], Counter[str]()
    for number, messes in truth.items():
        row = read.get(number)
        for heading, mess in messes.items():
            if mess.cell == "":
                continue
            cells, where = cells + 1, f"row {number}, {heading}: {mess.cell!r}"
            kinds[mess.kind] += 1
            reported = row is not None and any(t.where == heading for t in row.troubles)
            told += reported
            if row is None or (heading in TOLD and mess.truth not in row.texts["notes"]):
                silent.append(where)
            elif heading in TOLD:
                right += 1
            elif mess.truth is REPORTED or reported:
                good = reported and mess.truth is REPORTED
                right += good
                wrong += [] if good else [where]
            elif _is_true(mess.truth, row.values[NAMES[heading]]):
                right += 1
            else:
                wrong.append(f"{where} read as {row.values[NAMES[heading]]!r}")
    return Score(cells, right, told, tuple(wrong), tuple(silent), kinds)


def main() -> None:
    """Print the figures of one seed."""
    seed = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "stash.xlsx"
        truth = write_mess(path, seed)
        with Stash.open(Path(folder) / "home") as stash:
            seen = preview(stash, path, Choices(others="notes"))
        found = score(seen, truth)
    print(f"seed {seed}: {len(truth)} rows, {found.cells} filled cells, {len(found.kinds)} kinds")
    print(f"right {found.right} ({100 * found.right / found.cells:.2f} %), told {found.told}")
    print(f"wrong {len(found.wrong)}, silent {len(found.silent)}")
    for line in (*found.wrong[:20], *found.silent[:20]):
        print(f"  {line}")


if __name__ == "__main__":
    main()
