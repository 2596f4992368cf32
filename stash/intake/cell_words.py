"""The words of cells: not known, yes and no, about, units and choices in several languages.

English, German, French, Spanish, Italian and Dutch (from memory), in lower case, no accents.
"""

from __future__ import annotations

NOT_KNOWN = frozenset(
    (
        *("?", "??", "???", "-", "--", "–", "—", ".", "…", "...", "n/a", "na", "#n/a", "n.a."),
        *("unknown", "unk", "not known", "dont know", "don't know", "not sure", "no idea"),
        *("tbc", "tbd", "to measure", "not measured", "unsure", "none known", "k.a.", "k. a."),
        *("unbekannt", "keine ahnung", "weiss nicht", "inconnu", "inconnue", "desconocido"),
        *("desconocida", "no se", "sconosciuto", "sconosciuta", "non so", "onbekend"),
    )
)
YES = frozenset(
    (
        *("yes", "y", "x", "✓", "✔", "✅", "☑", "true", "1", "on", "done", "ja", "j", "oui", "o"),
        *("si", "sí", "s", "wahr", "vrai", "verdadero", "vero", "waar", "ok"),
    )
)
NO = frozenset(
    (
        *("no", "n", "✗", "✘", "❌", "☐", "false", "0", "off", "not yet", "never", "nein", "non"),
        *("nee", "falsch", "faux", "falso", "onwaar", "noch nicht", "pas encore"),
    )
)
GONE = frozenset(
    (
        *("gone", "none", "none left", "used", "used up", "all used", "nothing left", "empty"),
        *("aufgebraucht", "verbraucht", "alles weg", "fini", "epuise", "agotado", "finito", "op"),
    )
)
"""In a length: nothing is left."""
GIFTS = frozenset(
    ("gift", "free", "a gift", "present", "geschenk", "gratis", "cadeau", "regalo", "offert")
)
ABOUT = (
    *("approximately", "approx.", "approx", "about", "around", "roughly", "circa", "ca.", "ca"),
    *("c.", "~", "≈", "±", "+/-", "etwa", "ungefahr", "ungefähr", "rund", "environ", "env.", "env"),
    *("aprox.", "aprox", "unos", "ongeveer", "ung.", "maybe", "est.", "est"),
)
"""Before an amount, or after it: it was not measured well."""
AT_LEAST = ("at least", "more than", "over", "min.", "min", ">=", "≥", ">", "mindestens", "plus de")
LESS = (
    *("almost", "nearly", "just under", "less than", "under", "up to", "max.", "max", "not quite"),
    *("<=", "≤", "<", "fast", "knapp", "presque", "moins de", "casi", "quasi", "bijna"),
)
"""Before an amount: there may be less, so the amount is not there to be cut."""
LEFTOVERS = (
    *(
        "left",
        "remaining",
        "wide",
        "long",
        "breit",
        "lang",
        "ubrig",
        "übrig",
        "restant",
        "restants",
    ),
    *("de large", "de long", "breed", "total", "in total", "piece", "stück"),
)
"""After an amount: words that add nothing to it."""
UNITS = {
    **dict.fromkeys(("mètre", "mètres", "metro", "metros", "metri", "lfm", "mts", "mt", "ms"), "m"),
    **dict.fromkeys(("zentimeter", "centimètre", "centimètres", "centimetri", "cmt"), "cm"),
    **dict.fromkeys(("zoll", "pouce", "pouces", "pulgada", "pulgadas", "pollici", "duim"), "in"),
    **dict.fromkeys(("yarda", "yardas", "iarde", "y", "yrd", "yrds", "yardage"), "yd"),
    "millimeter": "mm",
}
"""Unit words that the length parser does not know, with ours."""
CHOICES: dict[str, dict[str, str]] = {
    "structure": {
        "woven": "weave plain twill satin w gewebe gewebt webware webstoff tisse tissu chaine "
        "tejido tessuto geweven",
        "knit": "knitted jersey stretch_knit k strick gestrickt strickstoff maschenware wirkware "
        "tricot maille punto maglia gebreid",
        "felted": "felt nonwoven non_woven filz feutre fieltro feltro vilt",
        "lace": "net spitze dentelle encaje pizzo kant",
        "coated": "laminated waxed oilcloth beschichtet enduit",
    },
    "state": {
        "thought": "idea planned plan wish geplant prevu",
        "cut": "cut_out zugeschnitten coupe",
        "sewing": "in_progress wip started begonnen en_cours",
        "worn": "finished done complete completed fertig fini",
        "let go": "abandoned given_away",
    },
    "kind": {"bought": "purchase gekauft", "finished": "done fertig", "fitting": "anprobe"},
    "hand": {
        "fluid": "drapey flowing fliessend",
        "soft": "weich doux",
        "firm": "fest",
        "crisp": "stiff steif",
    },
    "role": {"lining": "futter doublure", "interfacing": "einlage", "main": "oberstoff shell"},
}
"""By field and choice; an underscore stands for a space."""
MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january januar janvier enero gennaio januari janv ene gen",
            "feb february februar fevrier febrero febbraio februari fevr",
            "mar march marz mars marzo maart mrz",
            "apr april avril abril aprile avr abr",
            "may mai mayo maggio mei mag",
            "jun june juni juin junio giugno giu",
            "jul july juli juillet julio luglio juil lug",
            "aug august aout agosto augustus ago",
            "sep sept september septembre septiembre settembre set",
            "oct october oktober octobre octubre ottobre okt ott",
            "nov november novembre noviembre",
            "dec december dezember decembre diciembre dicembre dez dic",
        ),
        1,
    )
    for name in names.split()
}
