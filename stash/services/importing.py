"""Tables people already keep, looked at first and taken into the stash when accepted."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError, RefusedError, StashError
from stash.intake.headings import find_headings, guess_kind
from stash.intake.sheet import read_sheets
from stash.services.import_columns import CHART, amounts_in_rows, columns_of
from stash.services.import_left import write_left
from stash.services.import_rows import RowRead, RowReader, Standing, Trouble, hints_for
from stash.services.names import context
from stash.services.sheet_kinds import KINDS, sheet_kind

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence
    from pathlib import Path

    from sqlalchemy.orm import Session

    from stash.intake.headings import Column
    from stash.intake.sheet import Sheet
    from stash.services.import_choices import Choices
    from stash.services.sheet_kind import SheetKind, Values
    from stash.services.stash import Stash

_LABELS = {key: kind.labels for key, kind in KINDS.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """A table as it would be taken: nothing is written yet."""

    path: Path
    kind: SheetKind
    sheet: Sheet
    head: int
    """Number of the row with the headings."""
    columns: tuple[Column, ...]
    rows: tuple[RowRead, ...]
    passed: tuple[tuple[int, str], ...]
    """Rows that are none: number, and what stands there instead."""
    key: Column | None
    """The column by which rows are known again, if the person named one."""
    other_sheets: tuple[str, ...]
    """Sheets of the same workbook that were not read."""

    @property
    def unknown(self) -> tuple[Column, ...]:
        """Columns that say something, and nobody knows what."""
        return tuple(column for column in self.columns if not column.field)

    @property
    def ready(self) -> tuple[RowRead, ...]:
        """The rows that can be taken."""
        return tuple(row for row in self.rows if row.standing is Standing.READY)

    def settled(self, choices: Choices) -> Choices:
        """The choices with what was found out, so that the next table is read alike."""
        found = {column.label: column.field for column in self.columns if column.field}
        return replace(choices, kind=self.kind.key, headings=found | choices.headings)

    def sample(self, column: Column) -> str:
        """Something that stands in a column, to know it by."""
        texts = (row.cells[column.place] for row in self.rows)
        return next((text for text in texts if text), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What came of it."""

    taken: int
    there: int
    left: int
    left_in: Path | None
    """File with the rows that were left, each with its reason; None: there were none."""


def preview(stash: Stash, path: Path, choices: Choices) -> Preview:
    """Read a table and everything in it, and write nothing.

    Raises:
        NotFoundError: There is no such file.
        BadInputError: It cannot be read at all, or a choice does not fit it.
    """
    sheet, others = _chosen(path, choices)
    kind = sheet_kind(choices.kind or guess_kind(sheet, _LABELS))
    head = find_headings(sheet, kind.key, kind.labels)
    if kind.key == CHART:
        sheet = amounts_in_rows(sheet, head)
    with stash.read() as session:
        known = context(stash, session)
        columns = columns_of(kind, sheet, head, choices, known)
        body, passed = _body(sheet, head)
        used = tuple(c for c in columns if c.heading or any(cells[c.place] for _, cells in body))
        hints = hints_for(used, (cells for _, cells in body), choices, stash.today())
        reader = RowReader(kind, used, hints, choices, known)
        rows = _checked(session, kind, [reader.read(number, cells) for number, cells in body])
        key = _key_column(used, choices)
        rows = _recognised(session, kind, rows, key)
    return Preview(
        path=path,
        kind=kind,
        sheet=sheet,
        head=head,
        columns=tuple(c for c in used if any(cells[c.place] for _, cells in body)),
        rows=tuple(rows),
        passed=passed,
        key=key,
        other_sheets=others,
    )


def take(stash: Stash, seen: Preview, chosen: frozenset[int] | None = None) -> Taken:
    """Take the rows that are ready, or the chosen ones of them: all in one change, or none.

    Args:
        stash: The stash.
        seen: What `preview` gave.
        chosen: Numbers of the rows wanted; None: all.

    Raises:
        BadInputError: Columns nobody knows, or a chosen row that does not exist.
        RefusedError: A row has come into the stash meanwhile.
    """
    _refuse_unknown(seen)
    numbers = {row.number for row in seen.rows}
    if chosen is not None and not chosen <= numbers:
        missing = min(chosen - numbers)
        raise BadInputError(
            f"Row {missing} is not a row of the table.",
            f"Rows are counted as in the file: {min(numbers, default=0)} to "
            f"{max(numbers, default=0)}.",
        )
    ready = [r for r in seen.ready if chosen is None or r.number in chosen]
    if ready:
        what = f"read {len(ready)} {seen.kind.noun}{'' if len(ready) == 1 else 's'}"
        with stash.write(f"{what} from {seen.path.name}") as session:
            if any(row.there for row in _recognised(session, seen.kind, ready, seen.key)):
                raise RefusedError(
                    "Some of these rows have come into the stash meanwhile.", "Look again."
                )
            seen.kind.keep(session, [dict(row.values) for row in ready])
    left = [(row, why) for row in seen.rows if (why := _why_left(row, chosen))]
    return Taken(
        taken=len(ready),
        there=sum(row.standing is Standing.THERE for row in seen.rows),
        left=len(left),
        left_in=write_left(seen.path, seen.sheet.row(seen.head), left) if left else None,
    )


def _why_left(row: RowRead, chosen: frozenset[int] | None) -> str:
    """Why a row was not taken; empty for one that is in the stash now."""
    if row.troubles:
        return " ".join(str(trouble) for trouble in row.troubles)
    wanted = chosen is None or row.number in chosen
    return "" if wanted or row.there else "It was not chosen."


def _chosen(path: Path, choices: Choices) -> tuple[Sheet, tuple[str, ...]]:
    """The sheet to read, and the names of the others."""
    sheets = [sheet for sheet in read_sheets(path) if sheet.rows]
    if not sheets:
        raise BadInputError(f"{path.name} is empty.", "Choose a table with something in it.")
    names = [sheet.name for sheet in sheets]
    if choices.sheet:
        if choices.sheet not in names:
            raise BadInputError(
                f"{path.name} has no sheet {choices.sheet!r}.", f"Its sheets: {', '.join(names)}."
            )
        found = sheets[names.index(choices.sheet)]
    else:
        found = sheets[0]
    return found, tuple(name for name in names if name != found.name)


def _body(
    sheet: Sheet, head: int
) -> tuple[list[tuple[int, tuple[str, ...]]], tuple[tuple[int, str], ...]]:
    """The rows below the headings, and the rows that are none, told in words."""
    headings = sheet.row(head)
    rows: list[tuple[int, tuple[str, ...]]] = []
    passed: list[tuple[int, str]] = []
    for number, cells in enumerate(sheet.rows, 1):
        if not any(cells) or number == head:
            continue
        if number < head:
            passed.append((number, f"above the headings: {' '.join(filter(None, cells))}"))
        elif cells == headings:
            passed.append((number, "the headings once more"))
        else:
            rows.append((number, cells))
    return rows, tuple(passed)


def _checked(session: Session, kind: SheetKind, rows: Sequence[RowRead]) -> list[RowRead]:
    """Rows whose fields are right and which still cannot be kept get the reason."""
    found = []
    for row in rows:
        if not row.troubles:
            try:
                kind.check(session, row.values)
            except StashError as error:
                row = replace(row, troubles=(Trouble("The row", error.message, error.hint),))
            else:
                row = replace(row, remarks=(*row.remarks, *kind.doubts(row.values)))
        found.append(row)
    return found


def _recognised(
    session: Session, kind: SheetKind, rows: Sequence[RowRead], key: Column | None
) -> list[RowRead]:
    """Rows that are in the stash already, or stand in the table twice, are told so.

    A cloth that was cut, washed or renamed since is known by what it was when it came.
    """
    kept = list(kind.kept(session))
    there = {kind.identity(values) for values in kept}
    came, by_id = kind.came_as(session), {values.get("id"): values for values in kept}
    changed = {who: by_id[number] for number, who in came.items() if number in by_id}
    lines = {line for values in kept for line in str(values.get(kind.notes, "")).splitlines()}
    first: dict[Hashable, int] = {}
    found = []
    for row in rows:
        if not row.troubles:
            same = f"{key.label}: {row.cells[key.place]}" if key and row.cells[key.place] else ""
            who = same or kind.identity(row.values)
            if (same in lines) if same else (who in there):
                row = replace(row, there="in the stash already")
            elif not same and who in changed:
                row = _changed_since(row, changed[who])
            elif who in first:
                twin = f"it is the same as row {first[who]}."
                hint = "If it is another piece, give it another name."
                row = replace(row, troubles=(Trouble("The row", twin, hint),))
            else:
                first[who] = row.number
        found.append(row)
    return found


def _changed_since(row: RowRead, values: Values) -> RowRead:
    known = f"in the stash already as {values['name']} (number {values['id']}), changed since"
    return replace(row, there=known, remarks=(*row.remarks, f"it is {known}"))


def _key_column(columns: Sequence[Column], choices: Choices) -> Column | None:
    if not choices.key:
        return None
    wanted = choices.key.casefold()
    found = next((c for c in columns if wanted in (c.label.casefold(), c.heading.casefold())), None)
    if found is None or found.field != "notes" or found.own:
        raise BadInputError(
            f"{choices.key!r} is no column that goes into the notes under its heading.",
            f'Say --map "{choices.key}=notes" too.',
        )
    return found


def _refuse_unknown(seen: Preview) -> None:
    if seen.unknown:
        names = ", ".join(repr(column.label) for column in seen.unknown)
        first = seen.unknown[0].label
        raise BadInputError(
            f"Nobody knows what these columns are: {names}.",
            f'Say it: --map "{first}=notes", or --others notes, or --others leave.',
        )
