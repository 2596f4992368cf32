"""What stands over the drawing of a lay, and in the text beside it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from stash.config import System
from stash.report.lay_svg import lay_svg
from stash.report.lay_text import lay_text
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.lay.result import Lay
    from stash.report.records import LaidOut

SVG = "{http://www.w3.org/2000/svg}"


def _words(laid: LaidOut, lay: Lay) -> list[str]:
    root = ElementTree.fromstring(lay_svg(laid, lay, System.METRIC))
    return [node.text or "" for node in root.iter(f"{SVG}text")]


def test_the_header_says_what_to_cut_off_before_the_first_wash(laid: LaidOut, lay: Lay) -> None:
    """1.30 m after a wash that takes 5 % are 1.37 m before it (by hand)."""
    unwashed = replace(laid, shrinkage=(5.0, 3.0), cut_from_shelf=Length.from_mm(1300 / 0.95))
    [told] = [line for line in _words(unwashed, lay) if line.startswith("Before")]
    assert told == (
        "Before the first wash 1.37 m is to be cut off; it takes 5 % in length, 3 % in width"
    )
    assert told in " ".join(lay_text(unwashed, System.METRIC).split())
    assert not [line for line in _words(laid, lay) if line.startswith("Before")]


def test_everything_the_header_may_say_stands_above_the_cloth(laid: LaidOut, lay: Lay) -> None:
    part = replace(lay, folds=(300.0,))
    full = replace(
        laid,
        need=replace(laid.need, length=Length.from_mm(lay.need + 500)),
        shrinkage=(5.0, 3.0),
        cut_from_shelf=Length.from_mm(2000),
    )
    root = ElementTree.fromstring(lay_svg(full, part, System.METRIC))
    [cloth] = [one for one in root.iter(f"{SVG}rect") if one.get("class") == "cloth"]
    [drawn] = [one for one in root.iter(f"{SVG}g") if one.get("transform")]
    top = float((drawn.get("transform") or "").split()[1][:-1]) + float(cloth.get("y", ""))
    lines = root.findall(f"{SVG}text")
    assert len(lines) == 6
    for line in lines:  # letters reach a quarter of their size below the line they stand on
        assert float(line.get("y", "")) + float(line.get("font-size", "")) / 4 < top


def test_the_size_and_view_are_named(laid: LaidOut, lay: Lay) -> None:
    viewed = replace(laid, size="42", view="A")
    assert "Pattern    size 42, view A" in lay_text(viewed, System.METRIC).splitlines()
    assert any(line.endswith(", size 42, view A") for line in _words(viewed, lay))
    only_view = replace(laid, size="", view="A")
    assert "Pattern    view A" in lay_text(only_view, System.METRIC).splitlines()
    neither = replace(laid, size="", view="")
    assert "Pattern " not in lay_text(neither, System.METRIC)
