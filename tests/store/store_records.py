"""An invented stash with something in every table and every field, for tests and frozen files."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from stash.cloth.record import Cloth, FibreShare, Flaw, Hand, Structure
from stash.garment.make import DiaryEntry, DiaryKind, Make, Person, Promise, State
from stash.garment.pattern import (
    Asks,
    ChartRow,
    Grain,
    Kind,
    Notion,
    Pattern,
    Piece,
    Role,
    Size,
)
from stash.store import cloths, diary, lays, makes, patterns, people, promises
from stash.units.length import Length

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

mm = Length.from_mm
inches = Length.from_inches

TEAR = Flaw.cornered(((50.0, 700.0), (90.5, 700.0), (60.0, 760.25)), "tear")
CORD = Cloth(
    name="Rust needlecord",
    structure=Structure.WOVEN,
    fibres=(FibreShare("cotton", 98.0), FibreShare("elastane", 2.0)),
    width=inches(58),
    selvedge=mm(12),
    bought=mm(3000),
    left=mm(2105),
    shrink_length=4.5,
    shrink_width=2.0,
    weight=240.5,
    stretch_across=3.0,
    stretch_along=0.5,
    recovery=92.0,
    hand=Hand.FIRM,
    bending_length=31.5,
    drape=61.0,
    nap=True,
    raised=True,
    repeat_length=mm(0.5),
    repeat_width=inches(3),
    half_drop=True,
    colour="#a0522d",
    colour_name="rust",
    print="stripe",
    flaws=(Flaw(400.5, 20.0, 15.0, "moth hole"), Flaw(900.0, 300.25, 8.0), TEAR),
    outline=((0.0, 0.0), (2105.0, 0.0), (2000.5, 1400.25), (0.0, 1400.25)),
    loved=5,
    price=Decimal("14.90"),
    again=True,
    care="wash at 30, no tumbling",
    place="blue box",
    got=date(2021, 10, 3),
    notes="from the harbour market; “very soft”",
)
LINING = Cloth(
    name="Grey twill lining",
    structure=Structure.WOVEN,
    width=mm(1400),
    bought=mm(2500),
    left=mm(2500),
    washed=True,
    sheer=True,
)
TROUSERS = Pattern(
    name="Quay trousers",
    kind=Kind.TROUSERS_ELASTIC,
    form="file",
    kept_in="green folder",
    picture="~/pictures/quay.jpg",
    traced=("14",),
    views=("A", "B"),
    sizes=(
        Size(
            label="12",
            body=(("waist girth", mm(720)), ("hip girth", inches(38))),
            finished=(("hip girth", mm(1040)),),
        ),
        Size(label="14"),
    ),
    pieces=(
        Piece(
            name="front",
            outline=((0.0, 0.0), (1000.25, 0.0), (980.0, 300.0)),
            copies=2,
            size="12",
            views=("A", "B"),
            tolerance=3,
            match=(320.5, 15.0),
            seam=12.5,
            notches=((500.0, 0.0), (990.125, 150.0)),
            family="trapezoid",
            typed=("length=1 m", "top=30 cm"),
        ),
        Piece(
            name="waistband",
            outline=((0.0, 0.0), (90.0, 0.0), (90.0, 520.0), (0.0, 520.0)),
            on_fold=True,
            mirrored=False,
            grain=Grain.CROSSWISE,
            role=Role.CONTRAST,
        ),
    ),
    charts=(
        ChartRow(
            size="12", width=inches(45), amount=mm(2300), with_nap=False, view="A", rounded=True
        ),
        ChartRow(size="12", width=inches(60), amount=inches(54), role=Role.LINING),
    ),
    asks=(
        Asks(
            structures=(Structure.WOVEN, Structure.KNIT),
            stretch_across=0.0,
            stretch_along=0.0,
            recovery=80.0,
            weight_low=120.0,
            weight_high=320.0,
            hand_low=Hand.SOFT,
            hand_high=Hand.FIRM,
            nap_allowed=False,
            fibres=("cotton", "linen"),
            avoid=("stripes",),
        ),
        Asks(role=Role.LINING),
    ),
    notions=(
        Notion(name="elastic", view="A", size="12", length=mm(700), note="30 mm wide"),
        Notion(name="button", amount=2),
    ),
    fullness=1.4,
    child=True,
    tested=True,
    liked=4,
    notes="pockets are deep",
)
MAKER = Person(
    name="Marit",
    child_age=9,
    measures=(("waist girth", mm(700)), ("hip girth", inches(37))),
    measured_on=date(2024, 2, 29),
    notes="left shoulder lower",
)


@dataclass(frozen=True)
class Filled:
    """What `fill` kept."""

    cord: Cloth
    lining: Cloth
    trousers: Pattern
    maker: Person
    make: Make
    muslin: Make
    promise: Promise
    entry: DiaryEntry


def fill(session: Session) -> Filled:
    """Put the invented stash into an empty one."""
    cord, lining = cloths.insert_cloths(session, (CORD, LINING))
    trousers = patterns.insert_pattern(session, TROUSERS)
    maker = people.insert_person(session, MAKER)
    make = makes.insert_make(
        session,
        Make(
            name="Ferry trousers",
            pattern_id=trousers.id,
            view="A",
            size="12",
            person_id=maker.id,
            state=State.PROMISED,
            priority=5,
            due=date(2024, 11, 1),
            notes="hem 2 cm longer",
        ),
    )
    muslin = makes.insert_make(
        session,
        replace(make, name="Trial trousers", muslin=True, muslin_for=make.id, state=State.LET_GO),
    )
    promise = promises.insert_promise(
        session,
        Promise(make_id=make.id, role=Role.MAIN, cloth_id=cord.id, length=mm(1800.5), pinned=False),
    )
    entry = diary.add_entry(
        session,
        DiaryEntry(
            day=date(2024, 9, 14),
            kind=DiaryKind.FITTING,
            text="took 1 cm out of each side",
            cloth_id=cord.id,
            make_id=make.id,
        ),
    )
    lays.put_lay_text(session, "trousers at 1470", "1", '{"need": 1800.5}')
    return Filled(cord, lining, trousers, maker, make, muslin, promise, entry)
