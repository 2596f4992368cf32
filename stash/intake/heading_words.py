"""What people write over the columns of their tables, in the languages of the sewing table.

English, German, French, Spanish, Italian and Dutch (from memory). Words are in lower case,
without accents, brackets or units. The labels and keys of our own fields are added to them.
"""

from __future__ import annotations

_NOTES = (
    "notes note comments comment remarks info details other bemerkung bemerkungen notiz notizen "
    "anmerkung anmerkungen kommentar remarques remarque commentaire commentaires notas "
    "observaciones comentarios nota commenti osservazioni opmerking opmerkingen notities"
)
_NAME = (
    "name title description bezeichnung nom designation nombre descripcion nome descrizione naam"
)
_SIZE = "size sizes grosse groesse taille talla taglia maat"

HEADING_WORDS: dict[str, dict[str, str]] = {
    "cloths": {
        "name": f"{_NAME} omschrijving beschreibung fabric cloth material_name fabric_name "
        "cloth_name item stoff tissu tela tessuto stof",
        "structure": "structure construction weave knit_or_woven woven_or_knit knit_woven "
        "woven_knit fabric_type type_of_fabric webart bindung stoffart gewebeart armure "
        "type_de_tissu estructura tipo_de_tela struttura tipo_di_tessuto weefsel stofsoort",
        "width": "width wide fabric_width cloth_width bolt_width w breite stoffbreite largeur "
        "laize ancho anchura larghezza altezza breedte stofbreedte",
        "length": "length length_left left remaining amount amount_left how_much yardage meterage "
        "metreage metrage metres meters yards quantity qty on_hand lange laenge stofflange rest "
        "menge restmenge longueur quantite reste largo longitud cantidad metros lunghezza "
        "quantita metri lengte hoeveelheid",
        "bought": "length_bought amount_bought bought_length original_length gekaufte_lange "
        "longueur_achetee largo_comprado lunghezza_acquistata gekochte_lengte",
        "got": "got_on got date date_bought bought_on date_purchased purchase_date purchased "
        "bought_when when when_bought date_acquired acquired gekauft_am kaufdatum datum "
        "date_d_achat achete_le fecha fecha_de_compra data data_di_acquisto acquistato_il "
        "gekocht_op aankoopdatum",
        "fibres": "fibres fibers fibre fiber content contents fibre_content fiber_content "
        "composition material materials materialzusammensetzung zusammensetzung faser fasern "
        "matiere matieres fibra fibras composicion contenido fibre_tessili composizione "
        "materiale samenstelling vezel vezels materiaal made_of",
        "weight": "weight gsm weight_gsm gewicht flachengewicht stoffgewicht poids grammage peso "
        "gramaje grammatura gramm",
        "stretch_across": "stretch stretch_across crosswise_stretch stretch_percent dehnung "
        "querdehnung elastizitat elasticite extensible elasticidad elasticita rek rekbaarheid",
        "stretch_along": "stretch_along lengthwise_stretch langsdehnung",
        "recovery": "recovery rucksprung",
        "hand": "hand handle drape_hand griff main mano tacto greep",
        "nap": "nap with_nap directional one_way one_way_design pile strich strichrichtung "
        "sens con_pelo verso vleug richting",
        "raised": "raised raised_surface brushed gerauht geraut",
        "sheer": "sheer see_through transparent durchsichtig transparente trasparente",
        "washed": "washed prewashed pre_washed prewash pre_wash preshrunk gewaschen vorgewaschen "
        "lave prelave lavado prelavado lavato prelavato gewassen voorgewassen",
        "shrink_length": "shrinks_in_length shrinkage shrinkage_length einlauf krimp retrait "
        "encogimiento restringimento",
        "shrink_width": "shrinks_in_width shrinkage_width",
        "care": "care care_instructions washing wash laundry pflege pflegehinweis entretien "
        "cuidado cuidados lavaggio wasvoorschrift",
        "colour_name": "colour_in_words colour_name color_name farbname",
        "colour": "colour color colours colors shade farbe farben couleur couleurs coloris color "
        "colore colori kleur kleuren",
        "print": "print pattern design motif muster druck dessin motivo imprime estampado "
        "stampa fantasia patroon",
        "repeat_length": "repeat pattern_repeat repeat_along rapport raccord rapporto",
        "repeat_width": "repeat_across",
        "selvedge": "selvedge selvage webkante lisiere orillo cimosa zelfkant",
        "loved": "loved love rating stars favourite favorite liebe",
        "price": "price price_per_metre price_per_meter price_per_yard price_each_metre cost "
        "cost_per_metre cost_per_meter cost_per_yard price_m price_yd preis meterpreis "
        "preis_pro_meter kosten prix prix_au_metre cout precio precio_por_metro coste prezzo "
        "prezzo_al_metro costo prijs prijs_per_meter",
        "again": "can_be_bought_again buy_again available rebuy nachkaufbar",
        "place": "place location stored where where_kept storage box bin drawer shelf lagerort "
        "aufbewahrung ort fach kiste emplacement rangement lieu lugar ubicacion caja posizione "
        "luogo scatola plaats doos lade",
        "notes": _NOTES,
        "flaws": "flaws flaw faults damage fehler defauts defectos difetti",
        "outline": "outline",
    },
    "makes": {
        "name": f"{_NAME} make garment project item projekt projet proyecto progetto project_name",
        "pattern": "pattern pattern_name schnitt schnittmuster patron cartamodello patroon",
        "view": "view version variante variation ansicht vue vista",
        "size": _SIZE,
        "person": "person for for_whom who recipient fur wen pour para per voor",
        "muslin": "muslin wearable_muslin toile test_garment probeteil nesselmodell",
        "muslin_for": "tests_the_make muslin_for toile_for",
        "state": "state status stage stand etat estado stato",
        "priority": "priority rank prioritat priorite prioridad priorita prioriteit",
        "due": "due due_date deadline by needed_by termin fallig echeance fecha_limite scadenza",
        "notes": _NOTES,
    },
    "chart": {
        "pattern": "pattern pattern_name schnitt schnittmuster patron cartamodello patroon",
        "size": _SIZE,
        "width": "width cloth_width fabric_width breite stoffbreite largeur laize ancho "
        "larghezza altezza breedte",
        "amount": "amount yardage meterage metrage fabric_needed required menge verbrauch "
        "stoffverbrauch quantite cantidad quantita hoeveelheid",
        "view": "view version ansicht vue vista",
        "role": "role use used_for verwendung",
        "with_nap": "with_nap nap mit_strich",
    },
    "diary": {
        "day": "day date datum fecha data jour dia giorno dag when",
        "kind": "kind type event what art evenement evento soort",
        "cloth": "cloth fabric stoff tissu tela tessuto stof",
        "make": "make garment project projekt projet proyecto progetto",
        "text": f"text entry what_happened happened line story eintrag {_NOTES}",
    },
}
"""By kind of table and key of a field; an underscore stands for a space."""

HINTED_NOTES = (
    "shop",
    "store",
    "bought at",
    "bought from",
    "bought where",
    "where bought",
    "source",
    "supplier",
    "vendor",
    "seller",
    "geschaft",
    "laden",
    "gekauft bei",
    "handler",
    "magasin",
    "achete chez",
    "fournisseur",
    "tienda",
    "comprado en",
    "negozio",
    "acquistato da",
    "winkel",
    "gekocht bij",
)
"""Columns that have no field of their own and are told in the notes, under their heading."""

BY_CONTENT: dict[str, tuple[str, ...]] = {
    "colour": ("colour", "colour_name"),
    "bought": ("bought", "got"),
    "gekauft": ("got", "bought"),
    "purchased": ("got", "bought"),
    "type": ("structure", "fibres"),
    "art": ("fibres", "structure"),
    "tipo": ("fibres", "structure"),
    "material": ("fibres", "name"),
}
"""Headings, or fields, whose cells decide: the first field that can read most of them."""

LEFT_OUT = ("why not taken",)
"""A column we wrote ourselves beside rows that were left."""

FILLERS = frozenset(
    (
        *("the", "of", "in", "a", "fabric", "cloth", "de", "la", "le", "du", "del", "di", "der"),
        *("die", "das", "stoff", "tissu", "tela", "tessuto", "stof"),
    )
)
"""Words that say nothing over a column when others stand beside them."""
