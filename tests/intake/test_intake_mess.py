"""A messy workbook is read right, or the person is told; nothing vanishes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from intake_mess import score, write_mess

from stash.services.cloths import shelf
from stash.services.import_choices import Choices
from stash.services.importing import preview, take

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_messy_workbook_is_read_right_or_told(
    empty_stash: Stash, tmp_path: Path, seed: int
) -> None:
    path = tmp_path / "stash.xlsx"
    truth = write_mess(path, seed)
    seen = preview(empty_stash, path, Choices(others="notes"))
    found = score(seen, truth)
    assert len(truth) == 250
    assert len(found.kinds) > 20
    assert found.silent == ()
    assert found.right >= 0.98 * found.cells, found.wrong[:10]
    taken = take(empty_stash, seen)
    assert taken.taken + taken.left == len(seen.rows) == 250
    assert len(shelf(empty_stash)) == taken.taken
