"""The lines and the writing of each page of a PDF, in mm from the page's upper left corner."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from stash.errors import BadInputError
from stash.geometry.affine import Affine, scaled, shifted, turned
from stash.geometry.flatten import cubic, inner_points
from stash.intake.drawn import Stroke, Writing
from stash.intake.pdf_text import LARGEST_CONTENT, UNREADABLE, damaged, open_pdf, operations

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from pypdf import PageObject

    from stash.intake.pdf_text import Operand

MM_PER_POINT = 25.4 / 72
"""ISO 32000-1, 8.3.2.3: a unit of user space is 1/72 inch."""
FLAT_MM = 0.2
DEEPEST_FORM, DEEPEST_STATE = 8, 500
MOST_OPERATIONS = 600_000
_LARGEST_FOR_TEXT = 2_000_000
_PAINTS = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*"}
_CLOSES = {"s", "b", "b*"}


@dataclass(slots=True)
class Page:
    """What is drawn on one page."""

    width: float
    height: float
    strokes: list[Stroke] = field(default_factory=list)
    writings: list[Writing] = field(default_factory=list)


@dataclass(slots=True)
class _Budget:
    """What may still be read of a file."""

    content: int = LARGEST_CONTENT
    operations: int = MOST_OPERATIONS

    def spend(self, content: int, count: int) -> None:
        self.content -= content
        self.operations -= count
        if self.content < 0 or self.operations < 0:
            raise BadInputError("it draws more than any pattern.", "Keep only the pattern's pages.")


@dataclass(slots=True)
class _Pen:
    """The path being drawn."""

    parts: list[tuple[list[tuple[float, float]], bool]] = field(default_factory=list)

    def move(self, at: tuple[float, float]) -> None:
        self.parts.append(([at], False))

    def line(self, to: tuple[float, float]) -> None:
        if not self.parts:
            self.move(to)
        elif self.parts[-1][1]:
            self.move(self.parts[-1][0][0])
        self.parts[-1][0].append(to)

    def close(self) -> None:
        if self.parts:
            self.parts[-1] = (self.parts[-1][0], True)


def read_pdf_pages(path: Path) -> list[Page]:
    """Every page of a PDF.

    Raises:
        NotFoundError: no such file.
        BadInputError: it is no PDF, is locked, or draws too much.
    """
    reader = open_pdf(path)
    budget = _Budget()
    try:
        return [_read_page(page, budget) for page in reader.pages]
    except BadInputError as error:
        raise BadInputError(f"{path.name}: {error.message}", error.hint) from error
    except UNREADABLE as error:
        raise damaged(path.name) from error


def _read_page(page: PageObject, budget: _Budget) -> Page:
    box = page.mediabox
    unit = MM_PER_POINT * float(page.get("/UserUnit", 1.0) or 1.0)
    left, low, wide, high = (float(v) for v in (box.left, box.bottom, box.width, box.height))
    place = scaled(unit, -unit).after(shifted(-left, -(low + high)))
    quarter = int(page.rotation or 0) // 90 % 4
    sides = (wide * unit, high * unit)
    for _ in range(quarter):
        # A quarter turn clockwise as it is seen, back into the upper left corner.
        place = shifted(sides[1], 0).after(turned(90)).after(place)
        sides = sides[::-1]
    read = Page(*sides)
    contents = page.get_contents()
    data = contents.get_data() if contents is not None else b""
    _Reader(read, budget).run(data, page.get("/Resources"), place, (), 0)
    if data and len(data) <= _LARGEST_FOR_TEXT:
        _read_texts(page, read, place)
    return read


def _read_texts(page: PageObject, read: Page, place: Affine) -> None:
    """The texts of a page; a font that cannot be read costs only the texts."""

    def visit(text: str, user: Any, matrix: Any, _font: Any, _size: Any) -> None:
        at = Affine(*(float(v) for v in user)).after(Affine(*(float(v) for v in matrix)))
        for line in text.splitlines():
            if line.strip() and len(read.writings) < 2000:
                words = " ".join(line.split())[:200]
                read.writings.append(Writing(words, place(at((0.0, 0.0)))))

    try:
        page.extract_text(visitor_text=visit)
    except UNREADABLE:
        return


@dataclass(slots=True)
class _State:
    """Where one description has got to."""

    places: list[Affine]
    layers: list[str]
    marks: list[bool] = field(default_factory=list)
    """For each marked part that is open: whether it named a layer."""
    pen: _Pen = field(default_factory=_Pen)

    def step(self, name: str, values: list[Operand], known: Mapping[str, Any]) -> None:
        """Everything but painting and drawing a form."""
        if name == "q":
            self.places.append(self.places[-1])
        elif name == "Q" and len(self.places) > 1:
            self.places.pop()
        elif name == "cm" and (numbers := _numbers(values, 6)):
            self.places[-1] = self.places[-1].after(Affine(*numbers))
        elif name in ("BDC", "BMC"):
            layer = _layer(known, values) if name == "BDC" else ""
            self.marks.append(bool(layer))
            self.layers += [layer] if layer else []
        elif name == "EMC":
            if self.marks and self.marks.pop():
                self.layers.pop()
        else:
            _draw(self.pen, name, values, self.places[-1])
        if len(self.places) > DEEPEST_STATE or len(self.marks) > DEEPEST_STATE:
            raise BadInputError("its drawings lie too deep in one another.", "Save it again.")


class _Reader:
    """Runs page descriptions and keeps the lines they paint."""

    def __init__(self, page: Page, budget: _Budget) -> None:
        self.page = page
        self.budget = budget

    def run(
        self, data: bytes, resources: Any, place: Affine, layers: tuple[str, ...], depth: int
    ) -> None:
        """Follow one description; `place` brings its coordinates to mm on the page."""
        self.budget.spend(len(data), 0)
        if depth > DEEPEST_FORM:
            raise BadInputError("its drawings lie too deep in one another.", "Save it again.")
        known: Mapping[str, Any] = resources.get_object() if resources is not None else {}
        state = _State([place], list(layers))
        for name, values in operations(data):
            self.budget.spend(0, 1)
            if name == "Do" and values:
                self._form(known, str(values[-1]), state.places[-1], tuple(state.layers), depth)
            elif name in _PAINTS or name == "n":
                if name in _CLOSES:
                    state.pen.close()
                if name != "n":
                    self._keep(state.pen, tuple(state.layers))
                state.pen = _Pen()
            else:
                state.step(name, values, known)

    def _keep(self, pen: _Pen, layers: tuple[str, ...]) -> None:
        for points, closed in pen.parts:
            if closed and len(points) > 1 and points[0] == points[-1]:
                points = points[:-1]
            if len(points) > 1:
                self.page.strokes.append(Stroke(tuple(points), closed=closed, layers=layers))

    def _form(
        self,
        known: Mapping[str, Any],
        name: str,
        place: Affine,
        layers: tuple[str, ...],
        depth: int,
    ) -> None:
        """A drawing kept once and used by name."""
        objects = known.get("/XObject")
        form = objects.get_object().get(f"/{name}") if objects is not None else None
        form = form.get_object() if form is not None else None
        if form is None or form.get("/Subtype") != "/Form":
            return
        matrix = form.get("/Matrix")
        inner = place.after(Affine(*(float(v) for v in matrix))) if matrix else place
        group = _group_name(form.get("/OC"))
        self.budget.spend(0, 50)
        self.run(
            form.get_data(),
            form.get("/Resources"),
            inner,
            (*layers, group) if group else layers,
            depth + 1,
        )


def _draw(pen: _Pen, name: str, values: list[Operand], place: Affine) -> None:
    """One step of a path."""
    if name == "m" and (at := _numbers(values, 2)):
        pen.move(place((at[0], at[1])))
    elif name == "l" and (at := _numbers(values, 2)):
        pen.line(place((at[0], at[1])))
    elif name == "h":
        pen.close()
    elif name == "re" and (at := _numbers(values, 4)):
        x, y, wide, high = at
        corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
        pen.parts.append(([place(corner) for corner in corners], True))
    elif name in ("c", "v", "y") and pen.parts:
        at = _numbers(values, 6 if name == "c" else 4)
        if at:
            start = pen.parts[-1][0][-1]
            points = [place((at[i], at[i + 1])) for i in range(0, len(at), 2)]
            if name == "v":
                points.insert(0, start)
            elif name == "y":
                points.append(points[-1])
            for point in inner_points(cubic(start, *points), FLAT_MM):
                pen.line(point)
            pen.line(points[-1])


def _numbers(values: list[Operand], count: int) -> list[float]:
    """The last `count` operands if all are numbers; else nothing."""
    numbers = [v for v in values[-count:] if isinstance(v, float)]
    return numbers if len(numbers) == count else []


def _layer(known: Mapping[str, Any], values: list[Operand]) -> str:
    """The name of the optional-content group that a marked part belongs to."""
    if len(values) < 2 or values[0] != "OC":
        return ""
    groups = known.get("/Properties")
    return _group_name(groups.get_object().get(f"/{values[1]}")) if groups is not None else ""


def _group_name(group: Any) -> str:
    """The name of an optional-content group, or of the first of several."""
    if group is None:
        return ""
    group = group.get_object()
    if "/OCGs" in group:
        groups = group["/OCGs"]
        first = groups[0] if isinstance(groups, list) and groups else groups
        group = first.get_object()
    name = group.get("/Name", "") if hasattr(group, "get") else ""
    return " ".join(str(name).split())[:60]
