"""Looking the whole stash over: the file, its references, its records, and the kept lays."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.lay.check import check
from stash.lay.exchange import lay_from_json
from stash.lay.key import ENGINE
from stash.lay.problem import LayKind
from stash.pairing.needs import question_for, wanted_lays
from stash.services.invariants import Finding, findings_of
from stash.services.laybook import NO_LAY
from stash.services.whole import whole_of
from stash.store import lays, soundness
from stash.units.length import NM_PER_MM

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sqlalchemy.orm import Session

    from stash.garment.pattern import Role
    from stash.lay.problem import Problem
    from stash.lay.result import Lay
    from stash.services.stash import Stash
    from stash.services.whole import Whole

RESTORE = "Put a copy in its place: stash backup --list, then stash restore FILE."
REPORT = "Keep a copy (stash backup), then correct or remove the record."
ANEW = "stash check --repair drops it; it is worked out anew when it is asked for."


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptLays:
    """What became of the lays kept in the stash."""

    sound: int = 0
    """Passed the independent check against the pieces and cloths as they are now."""
    illegal: int = 0
    unreadable: int = 0
    outdated: int = 0
    """Laid by an older engine, so never used any more."""
    unasked: int = 0
    """Of pieces or widths no make and cloth ask for now; checked when they are asked for."""
    dropped: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """Everything found; `sound` if nothing is left to mend."""

    findings: tuple[Finding, ...]
    lays: KeptLays

    @property
    def sound(self) -> bool:
        """Nothing is wrong, or all of it was repaired."""
        return all(finding.repaired for finding in self.findings)


def check_stash(stash: Stash, *, repair: bool = False) -> Checked:
    """Look at everything; with `repair` drop the lays that are no use.

    Nothing a person typed is ever changed.
    """
    with stash.read() as session:
        found = [*_of_file(session)]
    if found:  # a damaged file may not even be read to its end
        return Checked(findings=tuple(found), lays=KeptLays())
    with stash.read() as session:
        found = [*_of_references(session), *_of_values(session)]
        whole = None if found else whole_of(session)
        kept = lays.all_lay_texts(session)
    if whole is None:  # records that cannot be read cannot be judged
        return Checked(findings=tuple(found), lays=KeptLays(unasked=len(kept)))
    found += findings_of(whole, stash.settings.system)
    counted, bad, useless = _of_lays(whole, kept, stash.settings.seed)
    if repair and useless:
        with stash.write("drop kept lays") as session:
            lays.drop_lays(session, useless)
        bad = [replace(finding, repaired=True) for finding in bad]
        counted = replace(counted, dropped=len(useless))
    return Checked(findings=(*found, *bad), lays=counted)


def _of_file(session: Session) -> Iterator[Finding]:
    for line in soundness.file_faults(session):
        yield Finding(record="the file", wrong=line, todo=RESTORE)


def _of_references(session: Session) -> Iterator[Finding]:
    for row, table in soundness.loose_references(session):
        yield Finding(record=row, wrong=f"it names a {table} that is gone.", todo=RESTORE)
    from stash.store.migrate import drift  # brings Alembic

    for line in drift(session.connection()):
        yield Finding(record="the tables", wrong=line, todo=RESTORE)


def _of_values(session: Session) -> Iterator[Finding]:
    for row, column, value in soundness.unreadable_values(session):
        wrong = f"its {column.replace('_', ' ')} “{value}” cannot be read."
        yield Finding(record=row, wrong=wrong, todo=REPORT)


def _of_lays(
    whole: Whole, kept: dict[str, tuple[str, str]], seed: int
) -> tuple[KeptLays, list[Finding], list[str]]:
    """The count, the findings, and the keys of the lays that are no use."""
    outdated = [key for key, (engine, _) in kept.items() if engine != str(ENGINE)]
    found: list[Finding] = []
    useless = list(outdated)
    read: dict[str, Lay] = {}
    for key in kept.keys() - set(outdated):
        text = kept[key][1]
        if text == NO_LAY:
            continue
        try:
            read[key] = lay_from_json(text)
        except (ValueError, KeyError, TypeError):
            useless.append(key)
            found.append(Finding(record=f"lay {key[:12]}", wrong="it is unreadable.", todo=ANEW))
    unreadable, sound, illegal = len(found), 0, 0
    asked, held = len(read), dict(read)
    for key, problem in _problems(whole, held, seed) if read else ():
        lay = read.pop(key, None)
        if lay is None:
            continue
        if faults := check(problem, lay):
            illegal += 1
            useless.append(key)
            found.append(Finding(record=f"lay {key[:12]}", wrong=faults[0], todo=ANEW))
        else:
            sound += 1
        if not read:
            break
    counted = KeptLays(
        sound=sound,
        illegal=illegal,
        unreadable=unreadable,
        outdated=len(outdated),
        unasked=asked - sound - illegal,
    )
    return counted, found, useless


def _problems(whole: Whole, held: Mapping[str, Lay], seed: int) -> Iterator[tuple[str, Problem]]:
    """Every problem a make and a cloth put, with the key its lay is kept under."""
    seen: set[tuple[int, str, str, Role]] = set()
    for make in whole.makes.values():
        pattern = whole.pattern_of(make)
        for role in whole.roles_of(make):
            cut = (pattern.id, make.view, make.size, role)
            if cut in seen:
                continue
            seen.add(cut)
            questions = {
                (q.width.nm // NM_PER_MM, q.nap, q.spots, q.patches, q.outline, q.repeat): q
                for q in (question_for(make, pattern, role, c) for c in whole.cloths.values())
            }
            for question in questions.values():
                for kind in (None, *LayKind):
                    for lay in wanted_lays(replace(question, kind=kind), held, seed):
                        yield lay.key, lay.problem
