"""Words printed on pattern pieces, in the languages home patterns come in (common practice).

A space stands for any gap; letters are compared without regard to case.
"""

from __future__ import annotations

CUT_WORDS = (
    *("cut", "cut out", "coupe", "coupez", "couper", "à couper", "schneiden", "zuschneiden"),
    *("cortar", "corta", "corte", "cortar", "tagliare", "taglia n.", "knip", "knippen"),
    *("klipp", "klip", "leikkaa", "skär", "qty", "quantity"),
)
TIMES_WORDS = (
    *("x", "×", "times", "fois", "mal", "veces", "vezes", "volte", "keer", "pieces", "pièces"),
    *("pcs", "stück", "piezas", "stk"),
)
PAIR_WORDS = ("pair", "pairs", "paire", "paires", "paar", "par", "pares", "paio", "paia")
"""One pair is two copies, one the mirror image of the other."""
ALIKE_WORDS = ("alike", "same way", "not mirrored", "non symétrique", "nicht gegengleich")
FOLD_WORDS = (
    *("on fold", "on the fold", "place on fold", "au pli", "sur le pli", "sur la pliure"),
    *("pliure du tissu", "stoffbruch", "im bruch", "im stoffbruch", "al doblez", "en el doblez"),
    *("sobre el doblez", "con doblez", "na dobra", "sulla piega", "su ripiegatura"),
    *("aan de stofvouw", "stofvouw", "mot vik", "mot brett", "mod fold"),
)
NOT_WORDS = (
    *("not", "no", "without", "do not", "don't", "not placed", "nicht", "kein", "keinen", "ohne"),
    *("pas", "ne pas", "ne pas placer", "sans", "sin", "não", "sem", "non", "senza", "niet"),
    *("geen", "inte", "utan", "ikke", "uden"),
)
"""Before the words of a fold: it is none."""
SIZE_WORDS = ("size", "taille", "größe", "groesse", "grösse", "gr.", "talla", "tamanho", "maat")
ROLE_WORDS: dict[str, tuple[str, ...]] = {
    "lining": ("lining", "doublure", "futter", "futterstoff", "forro", "fodera", "voering"),
    "interfacing": (
        *("interfacing", "fusible", "entoilage", "thermocollant", "einlage", "vlieseline"),
        *("bügeleinlage", "entretela", "teletta", "tussenvoering"),
    ),
    "rib": ("rib", "ribbing", "bord-côte", "bord-côtes", "bündchen", "puño", "boordstof"),
    "contrast": ("contrast", "contraste", "kontrast", "kontraststoff", "contrasto"),
    "main": (
        *("main fabric", "main", "self", "fabric", "tissu principal", "tissu", "oberstoff"),
        *("hauptstoff", "stoff", "tela principal", "tela", "tessuto", "stof"),
    ),
}
"""By the role it names; the first role that is found counts."""
GRAIN_WORDS = (
    *("grain", "grainline", "grain line", "straight of grain", "droit fil", "droit-fil", "fil"),
    *("fadenlauf", "hilo", "al hilo", "recto hilo", "drittofilo", "draadrichting", "trådriktning"),
)
FOLD_MARK_WORDS = ("fold", "pli", "pliure", "bruch", "doblez", "piega")
"""Alone on a piece, mostly along the edge that lies on the fold."""
FOLD_LINE_WORDS = (*FOLD_MARK_WORDS, "fold line", "foldline")
"""As the whole name of a line; a fold line may also be one along which the sewn piece is turned."""
SQUARE_WORDS = (
    *("test square", "scale square", "scale test", "calibration square", "print check"),
    *("testquadrat", "kontrollquadrat", "maßquadrat", "carré test", "carré de contrôle"),
    *("carré d'échelle", "cuadro de prueba", "cuadrado de prueba", "quadrato di prova"),
    *("quadrado de teste", "testvierkant"),
)
LETTER_SIZES = (
    *("XXXS", "XXS", "XS", "S", "M", "L", "XL", "XXL", "XXXL", "2XL", "3XL", "4XL", "5XL", "6XL"),
)
ASIDE_WORDS = ("notes", "note", "annotations", "text", "texts", "texte", "legend", "guides")
"""Layers of these names hold no pieces."""
