"""What kind of cloth a trade name means: a jersey is knit, a poplin is woven (common practice)."""

from __future__ import annotations

import re

CLOTH_WORDS: dict[str, str] = {
    "knit": "jersey interlock rib ribbing ponte knit knits tricot sweatshirting sweatshirt sweat "
    "fleece french-terry velour stretch-velvet powernet",
    "lace": "lace guipure chantilly broderie-lace spitze dentelle",
    "felted": "felt boiled-wool loden-felt filz",
    "coated": "oilcloth laminate laminated waxed pul vinyl leatherette wachstuch",
    "woven": "poplin lawn twill denim chambray corduroy cord needlecord velveteen velvet canvas "
    "gabardine muslin calico voile batiste chiffon georgette crepe satin sateen taffeta organza "
    "habotai tweed flannel seersucker gingham drill duck ticking suiting flanell popeline "
    "cambric damask brocade percale shirting linen",
}
_KIND = {word: kind for kind, words in CLOTH_WORDS.items() for word in words.split()}


def structure_from_words(text: str) -> tuple[str, str]:
    """The structure a cloth's name speaks of and the word that says so; empty if none or several.

    `cotton jersey` is `("knit", "jersey")`.
    """
    plain = text.lower()
    found = [
        (place.start(), kind, word)
        for word, kind in _KIND.items()
        if (place := re.search(rf"\b{word.replace('-', '[ -]')}s?\b", plain))
    ]
    kinds = {kind for _, kind, _ in found}
    if len(kinds) != 1:
        return "", ""
    _, kind, word = min(found)
    return kind, word
