"""One row of a table read for the stash: its values, or what is wrong with which cell."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from stash.errors import BadInputError, StashError
from stash.intake.cell_dates import column_order
from stash.intake.cells import Cell, Hints, read_cell, undone
from stash.intake.headings import LEAVE, NOTES
from stash.trade.cloth_words import structure_from_words
from stash.units.length import Length
from stash.units.letters import bare_letters

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from stash.intake.headings import Column
    from stash.services.fields import Context
    from stash.services.import_choices import Choices
    from stash.services.sheet_kind import SheetKind, Values

WIDEST = Length.from_mm(12_000)
"""Stage gauzes come to about 12 m (from memory); more is a number in the wrong unit."""
NARROWEST = Length.from_mm(40)
"""Cuff ribbing and braid come to about this (from memory); less are metres read as cm."""
_SUMS = ("total", "totals", "sum", "subtotal", "summe", "gesamt", "somme", "suma", "totale")


class Standing(StrEnum):
    """What becomes of a row."""

    READY = "ready"
    THERE = "there already"
    PROBLEM = "not understood"


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong with one cell."""

    where: str
    """The column, by its heading, or the field that is missing."""
    message: str
    hint: str = ""

    def __str__(self) -> str:
        return f"{self.where}: {self.message} {self.hint}".strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class RowRead:
    """One row, its cells and what they were read as."""

    number: int
    """As the person counts the rows of the sheet."""
    cells: tuple[str, ...]
    values: Values
    texts: Mapping[str, str]
    """What was read, as it would be shown, by field."""
    troubles: tuple[Trouble, ...] = ()
    remarks: tuple[str, ...] = ()
    """What was guessed, or goes into the notes in the person's own words."""
    there: str = ""
    """Where the same row is already, in words."""

    @property
    def standing(self) -> Standing:
        """What becomes of it."""
        if self.troubles:
            return Standing.PROBLEM
        return Standing.THERE if self.there else Standing.READY


@dataclass(slots=True)
class _Row:
    """A row while it is being read."""

    texts: dict[str, str] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    troubles: list[Trouble] = field(default_factory=list)


class RowReader:
    """Reads the rows of one table; columns, hints and choices are the same for all of them."""

    def __init__(
        self,
        kind: SheetKind,
        columns: Sequence[Column],
        hints: Mapping[int, Hints],
        choices: Choices,
        context: Context,
    ) -> None:
        self.kind = kind
        # A weight per running metre needs the width, wherever that stands.
        self._columns = sorted(columns, key=lambda column: column.field != "width")
        self._hints = hints
        self._choices = choices
        self._context = context
        self._fields = {one.key: one for one in kind.fields}
        self._where = {column.field: column.label for column in columns}

    def read(self, number: int, cells: tuple[str, ...]) -> RowRead:
        """One row; nothing it says is lost: it is read, told in the notes, or a trouble."""
        row = _Row()
        for column in self._columns:
            text = cells[column.place]
            if not text or column.field == LEAVE:
                continue
            if column.field in self._fields and column.field != self.kind.notes:
                self._cell(column, text, row)
            else:
                plain = column.field == self.kind.notes and column.own
                row.notes.append(undone(text) if plain else f"{column.label}: {undone(text)}")
        is_sum = self._is_sum(row.texts)
        self._fill(row)
        if row.notes:
            row.texts[self.kind.notes] = "\n".join(row.notes)
        values = self._values(row)
        if is_sum:
            row.troubles = [Trouble("Name", "this is a sum, not a row of its own.")]
        shown = {
            one.key: one.show(values[one.attribute], self._context)
            for one in self.kind.fields
            if one.attribute in values
        }
        return RowRead(
            number=number,
            cells=cells,
            values=values,
            texts=shown,
            troubles=tuple(row.troubles),
            remarks=tuple(row.remarks),
        )

    def _cell(self, column: Column, text: str, row: _Row) -> None:
        key = column.field
        try:
            cell = self._understood(key, text, self._hints[column.place], row)
        except StashError as error:
            spare = self._choices.unread == NOTES and self.kind.notes
            if spare and not self._fields[key].required:
                row.notes.append(f"{column.label}: {text}")
                row.remarks.append(f"{column.label}: {text!r} goes into the notes")
            else:
                row.troubles.append(Trouble(column.label, error.message, error.hint))
            return
        row.texts[key] = cell.text
        if cell.remark:
            said = cell.text or "not known"
            row.remarks.append(f"{column.label}: {cell.remark!r} is read as {said}")
            if self.kind.notes:
                row.notes.append(f"{column.label}: {cell.remark}")

    def _understood(self, key: str, text: str, hints: Hints, row: _Row) -> Cell:
        """A cell its field reads; of a structure also the trade name of a cloth will do."""
        one = self._fields[key]
        cell = read_cell(key, text, hints)
        beside = {"width": row.texts.get("width", "")}
        try:
            value = one.read_text(cell.text, replace(self._context, texts=beside))
        except StashError as error:
            structure, _ = structure_from_words(text) if key == "structure" else ("", "")
            if structure:
                return Cell(structure, text)
            if not cell.text:
                return cell  # Nobody knows; that it is missing is told once, for the row.
            raise type(error)(error.message.removeprefix(f"{one.label}: "), error.hint) from error
        if key == "width" and isinstance(value, Length) and not NARROWEST <= value <= WIDEST:
            other = "wider" if value > WIDEST else "narrower"
            raise BadInputError(
                f"{text!r} is {other} than any cloth.", "Check the number and its unit."
            )
        return cell

    def _is_sum(self, texts: Mapping[str, str]) -> bool:
        """It is named as one; unless it says all a record must: a cloth may be called Total."""
        whole = all(texts.get(one.key) for one in self.kind.fields if one.required)
        return not whole and bare_letters(texts.get("name", "")).strip(" :") in _SUMS

    def _fill(self, row: _Row) -> None:
        """A structure its name speaks of, and what all rows share."""
        if "structure" in self._fields and not row.texts.get("structure"):
            structure, word = structure_from_words(row.texts.get("name", ""))
            if structure:
                row.texts["structure"] = structure
                row.remarks.append(f"Structure: {structure}, because the name says {word!r}")
        for key, text in self._choices.fixed.items():
            if not row.texts.get(key):
                row.texts[key] = text

    def _values(self, row: _Row) -> Values:
        full = replace(self._context, texts=row.texts)
        told = {trouble.where for trouble in row.troubles}
        values: Values = {}
        for one in self.kind.fields:
            where = self._where.get(one.key, one.label)
            if where in told:
                continue
            try:
                values[one.attribute] = one.read_text(row.texts.get(one.key, ""), full)
            except StashError as error:
                message = error.message.removeprefix(f"{one.label}: ")
                if not row.texts.get(one.key):
                    message = "this is missing."
                hint = error.hint or f"Type it, like: {one.hint}."
                row.troubles.append(Trouble(where, message, hint))
        return values


def hints_for(
    columns: Sequence[Column], rows: Iterable[tuple[str, ...]], choices: Choices, today: date
) -> dict[int, Hints]:
    """What each column says of all its cells: its unit, and which way it writes days."""
    every = list(rows)
    said = {"day-first": True, "month-first": False}.get(choices.dates)
    return {
        column.place: Hints(
            column.unit or choices.unit(column.field),
            column_order(row[column.place] for row in every) if said is None else said,
            today,
        )
        for column in columns
    }
