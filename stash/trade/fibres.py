"""Fibres: their generic names, codes and plain words, and how to read a content label.

Names are those of Regulation (EU) No 1007/2011, Annex I, with "linen" for flax as the annex
allows; codes are ISO 2076 and the labels of natural fibres (from memory).
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from functools import cache

from stash.errors import BadInputError
from stash.trade.labels import conditioned


@dataclass(frozen=True, slots=True)
class Fibre:
    """A generic fibre name with the other words people use for it."""

    name: str
    family: str
    """What it behaves like: cotton, linen, wool, silk, viscose, synthetic or other."""
    code: str = ""
    words: tuple[str, ...] = ()


UNKNOWN_FIBRES = "unknown fibres"
"""For scraps nobody can name; the wording follows 16 CFR 303.14."""

FIBRES: tuple[Fibre, ...] = (
    Fibre("cotton", "cotton", "CO", ("cottons",)),
    Fibre("kapok", "cotton"),
    Fibre("linen", "linen", "LI", ("flax",)),
    Fibre("hemp", "linen", "HA", ("true hemp",)),
    Fibre("jute", "linen", "JU"),
    Fibre("ramie", "linen", "RA"),
    Fibre("abaca", "linen"),
    Fibre("alfa", "linen"),
    Fibre("coir", "linen"),
    Fibre("broom", "linen"),
    Fibre("sisal", "linen"),
    Fibre("sunn", "linen"),
    Fibre("henequen", "linen"),
    Fibre("maguey", "linen"),
    Fibre("wool", "wool", "WO", ("merino", "lambswool")),
    Fibre("alpaca", "wool", "WP"),
    Fibre("llama", "wool"),
    Fibre("camel", "wool"),
    Fibre("cashmere", "wool", "WS"),
    Fibre("mohair", "wool", "WM"),
    Fibre("angora", "wool", "WA"),
    Fibre("vicuna", "wool"),
    Fibre("yak", "wool"),
    Fibre("guanaco", "wool"),
    Fibre("cashgora", "wool"),
    Fibre("animal hair", "wool", "", ("horsehair", "hair")),
    Fibre("silk", "silk", "SE"),
    Fibre("viscose", "viscose", "CV", ("rayon", "viscose rayon", "bamboo viscose", "bamboo")),
    Fibre("modal", "viscose", "CMD"),
    Fibre("lyocell", "viscose", "CLY"),
    Fibre("cupro", "viscose", "CUP", ("cupra", "cuprammonium")),
    Fibre("acetate", "viscose", "CA"),
    Fibre("alginate", "other"),
    Fibre("protein", "other"),
    Fibre("triacetate", "synthetic", "CTA"),
    Fibre("polyester", "synthetic", "PES", ("poly", "polyesters")),
    Fibre("polyamide", "synthetic", "PA", ("nylon",)),
    Fibre("acrylic", "synthetic", "PAN", ("polyacrylic",)),
    Fibre("modacrylic", "synthetic", "MAC"),
    Fibre("polypropylene", "synthetic", "PP", ("olefin",)),
    Fibre("polyethylene", "synthetic", "PE"),
    Fibre("polylactide", "synthetic", "PLA"),
    Fibre("polyurethane", "synthetic", "", ("pu",)),
    Fibre("elastane", "synthetic", "EL", ("spandex", "elastan", "elasthane")),
    Fibre("elastomultiester", "synthetic", "EME"),
    Fibre("elastolefin", "synthetic", "EOL"),
    Fibre("elastodiene", "other", "ED", ("rubber", "latex")),
    Fibre("aramid", "synthetic"),
    Fibre("polyimide", "synthetic"),
    Fibre("chlorofibre", "synthetic"),
    Fibre("fluorofibre", "synthetic"),
    Fibre("polycarbamide", "synthetic"),
    Fibre("vinylal", "synthetic"),
    Fibre("trivinyl", "synthetic"),
    Fibre("melamine", "synthetic"),
    Fibre("glass fibre", "other", "", ("glass",)),
    Fibre("metal", "other", "", ("metallic", "metallic fibre")),
    Fibre("paper", "other"),
    Fibre(
        "other fibres",
        "other",
        "",
        ("other", "other fiber", "other fibers", "other fibre", "others"),
    ),
    Fibre(UNKNOWN_FIBRES, "other", "", ("unknown", "unknown fibers", "undetermined fibres")),
)

_QUALITIES = (
    *("organic", "recycled", "new", "pure", "combed", "carded", "brushed", "mercerised"),
    *("mercerized", "fine", "raw", "washed", "stretch", "merino", "virgin"),
)
_HINT = "Type a content such as 95% cotton 5% elastane."
_LONGEST = 300
_RATIO = r"[0-9]+(?:\s*/\s*[0-9]+)+"
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"


@cache
def _by_word() -> dict[str, Fibre]:
    return {
        word.lower(): fibre
        for fibre in FIBRES
        for word in (fibre.name, fibre.code, *fibre.words)
        if word
    }


def find_fibre(word: str) -> str:
    """The generic name for a fibre's name, code or plain word, such as `spandex` or `CO`.

    Raises:
        BadInputError: no such fibre; the hint lists near words.
    """
    known = _by_word()
    words = word.lower().strip(" .%").split()
    while len(words) > 1 and words[0] in _QUALITIES:
        words = words[1:]
    plain = " ".join(words)
    if plain in known:
        return known[plain].name
    near = difflib.get_close_matches(plain, known, n=3, cutoff=0.6)
    names = list(dict.fromkeys(known[match].name for match in near))
    hint = f"Did you mean {' or '.join(names)}?" if names else _HINT
    raise BadInputError(f"There is no fibre called {plain[:40]!r}.", hint)


def fibre_family(name: str) -> str:
    """What the fibre called `name` behaves like; `other` for a name not known."""
    fibre = _by_word().get(name.lower())
    return fibre.family if fibre else "other"


def parse_fibres(text: str) -> tuple[tuple[str, float], ...]:
    """A content label: `95% cotton 5% elastane`, `cotton 95, elastane 5`, `65/35 poly/cotton`,
    `wool/silk 60/40`; or, with `dry` before it, the dry shares of a laboratory's report.

    Returns (generic name, per cent) from most to least; a fibre alone is 100 %.

    Raises:
        BadInputError: a fibre nobody knows, or shares that do not add up to 100 %.
    """
    shares: dict[str, float] = {}
    dry = re.match(r"\s*dry\b[\s:]*", text, re.IGNORECASE)
    for words, percent in _label_parts(text[dry.end() :] if dry else text):
        name = find_fibre(words)
        shares[name] = shares.get(name, 0.0) + percent
    total = sum(shares.values())
    if not 99 <= total <= 101:
        raise BadInputError(f"{text.strip()[:60]!r} adds up to {total:g} %, not 100 %.", _HINT)
    if dry:
        shares = {name: round(percent, 2) for name, percent in conditioned(shares.items())}
    return tuple(sorted(shares.items(), key=lambda share: (-share[1], share[0])))


def _label_parts(text: str) -> list[tuple[str, float]]:
    """Words with their percentages, in the order of the label."""
    plain = " ".join(text.lower().split())
    if len(plain) > _LONGEST:
        raise BadInputError(f"{plain[:60]!r}… is too long for a fibre content.", _HINT)
    ratio = re.fullmatch(rf"(?P<shares>{_RATIO})\s*%?\s*(?P<names>[^0-9]+)", plain)
    ratio = ratio or re.fullmatch(rf"(?P<names>[^0-9]+)(?P<shares>{_RATIO})\s*%?", plain)
    if ratio:
        numbers = [float(number) for number in ratio["shares"].split("/")]
        names = re.split(r"[\s/,&-]+", ratio["names"].strip())
        if len(numbers) == len(names):
            return list(zip(names, numbers, strict=True))
    plain = re.sub(r"(?<![0-9]),|,(?![0-9])|[;/+&]|\band\b|\bwith\b", " ", plain).strip()
    if not re.search(r"[0-9]", plain):
        return [(plain, 100.0)] if plain else []
    pairs = (
        [(words, number) for number, words in _all(rf"({_NUMBER})\s*%?\s*([^0-9%]+)", plain)]
        if plain[0].isdigit()
        else _all(rf"([^0-9%]+)({_NUMBER})\s*%?\s*", plain)
    )
    return [(words.strip(), float(number.replace(",", "."))) for words, number in pairs]


def _all(pattern: str, plain: str) -> list[tuple[str, str]]:
    """The two groups of `pattern`, which must cover all of the text when repeated."""
    if not re.fullmatch(f"(?:{pattern})+", plain, re.ASCII):
        raise BadInputError(f"{plain[:60]!r} is not a fibre content.", _HINT)
    return [(found[1], found[2]) for found in re.finditer(pattern, plain)]
