"""Fibres as labels in other languages name them, and how such a label is put into English.

German, French, Spanish, Italian and Dutch names of Regulation (EU) No 1007/2011, Annex I, in
the language versions of the regulation (from memory); trade names that became plain words.
"""

from __future__ import annotations

import re

from stash.errors import BadInputError
from stash.trade.fibres import find_fibre
from stash.units.letters import bare_letters

_WORDS: dict[str, str] = {
    "cotton": "baumwolle coton algodon cotone katoen bw",
    "linen": "leinen flachs lin lino linnen vlas",
    "hemp": "hanf chanvre canamo canapa hennep",
    "wool": "wolle schurwolle laine lana wol scheerwol",
    "silk": "seide soie seda seta zijde",
    "cashmere": "kaschmir cachemire cachemir kasjmier",
    "mohair": "mohar",
    "alpaca": "alpaka",
    "viscose": "viskose viscosa",
    "lyocell": "liocel",
    "acetate": "acetat acetato acetaat",
    "polyester": "poliester poliestere",
    "polyamide": "polyamid poliamida poliammide",
    "acrylic": "polyacryl acryl acrylique acrilico acrilica acryle",
    "elastane": "elasthan elasthanne elastano elastan elastaan lycra",
    "polyurethane": "polyurethan poliuretano",
    "other fibres": "sonstige",
}
_ENGLISH = {word: name for name, words in _WORDS.items() for word in words.split()}
_AND = frozenset({"und", "et", "y", "e", "en", "mit", "avec", "con", "met", "with", "and"})
_LONGEST = 100
_SPLIT = re.compile(r"([^\W\d_]+)")


def label_in_english(text: str) -> str:
    """A content label with the fibre names it has in other languages put into English."""
    parts = _SPLIT.split(text)
    return "".join(_word(part) for part in parts)


def _word(word: str) -> str:
    plain = bare_letters(word)
    if plain in _AND:
        return "and"
    return _ENGLISH.get(plain, word)


def unshared_fibres(text: str) -> tuple[str, ...]:
    """The fibres of a label that names two or more and no shares, such as `cotton elastane`.

    Empty for every other text.
    """
    if re.search(r"\d", text) or len(text) > _LONGEST:
        return ()
    words = [word for word in re.split(r"[\s/,;&+-]+", text.strip().lower()) if word]
    names = [name for word in words if word not in _AND and (name := _known(word))]
    others = [word for word in words if word not in _AND and not _known(word)]
    return tuple(dict.fromkeys(names)) if len(set(names)) > 1 and not others else ()


def _known(word: str) -> str:
    try:
        return find_fibre(word)
    except BadInputError:
        return ""
