"""What the keys of `--json` mean: written at the end of each command's help.

These keys are kept: new ones may come, none changes its meaning. Lengths are millimetres.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

LAY = {
    "title": "what is laid on what",
    "make, pattern, view, size, role": "what is laid; make is null for a bare pattern",
    "cloth": "name of the cloth, null for a bare width",
    "need_mm": "length needed, of washed cloth",
    "need_low_mm, need_high_mm, need_likely_mm": "range if estimated, and the best guess in it",
    "sureness": "laid out, charted, estimated or unknown",
    "why": "where the need comes from",
    "usable_width_mm": "between the selvedges, after the first wash",
    "nap": "the pieces all lie one way",
    "shrinkage": "still to come: length_percent, width_percent",
    "cut_from_shelf_mm": "length to cut off as the cloth lies now",
    "have_mm, spare_mm": "free length after washing; what is left or (below 0) missing",
    "verdict": "fits, close, short, too narrow, unsuited or unknown; null without a cloth",
    "caution": "where part of a flawed cloth or a remnant is promised to another make, else null",
    "kind": "open, folded, gate or crossways; this and all below null or empty without pieces",
    "utilisation": "area of the pieces over usable width times need, 0-1",
    "lower_bound_mm, lower_bound_why": "no lay can be shorter than this, and why",
    "folds_mm": "y of each lengthwise fold: one folded (double up to 2 y), two gate, else empty",
    "cross_fold_mm": "x of the fold across the cloth in a crossways lay, else null",
    "folded_need_mm": "need if folded, where any kind was asked and another is shorter, else null",
    "gap_mm": "kept between any two pieces",
    "selvedge": "keep: pieces may lie on it, the usable width is the full one; cut: they do not",
    "times": "makes it is laid for; need and all that follows are for all of them together",
    "layers": "lays of one make over each other, placements are those of one; 1: beside each other",
    "together_mm, in_layers_mm": "length of either way, the shorter is drawn; null for one make",
    "repeat_mm, repeat_across_mm, half_drop": "of the print that is met, washed; null if none is",
    "repeat_at_mm": "x of a line of the print's lattice, whose middle column is mid-width",
    "flaws": "kept clear: x_mm, y_mm and radius_mm, or corners_mm as [x, y]",
    "folded_to_mm": "x where the folded stretch ends",
    "solver, seed, seconds": "how it was found; the same seed finds the same lay",
    "checked": "the independent check passed",
    "placements": "every copy, on the opened-out cloth; for each:",
}
PLACEMENT = {
    "piece, copy": "name and number of the copy, from 1",
    "polygon": "corners [x, y]: x along the cloth, y across from one selvedge",
    "turn": "degrees the piece is turned by",
    "turned": "it lies head to foot (180 degrees)",
    "mirrored": "it is the mirror image of the outline",
    "on_fold": "it is opened out at its fold edge",
    "single": "cut from one layer, after the two layers of a lay that is not open",
    "waste": "the twin nobody needs, cut because two layers lie there; not counted",
}
SHARED = {
    "title": "what is laid on how many cloths",
    "fits": "every cloth has enough free length for its part",
    "least": "no other choice moves less to the later cloths",
    "moved": "share of the area that later cloths take, 0-1",
    "parts": "a lay for each cloth that is cut from, in their order; for each:",
}
SHARED_PART = {
    "pieces": "names of the pieces cut from it; all other keys as with one cloth",
}
CURVE = {
    "title, make, pattern, view, size, role, nap": "as without --curve",
    "kind": "kind of lay asked for, null for the shortest at each width",
    "by_chart": "there are no pieces: the envelope's chart was read",
    "tried": "how many widths were laid out or looked up",
    "points": "from the narrowest; for each:",
}
CURVE_POINT = {
    "label_width_mm, usable_width_mm": "as sold; less the usual selvedges, taken as washed",
    "need_mm": "the least found up to this width, so it never rises; null: cannot be cut",
    "found_at_mm": "usable width whose lay or chart row it is, this one or a narrower one",
    "sureness, why": "laid out, charted, estimated or unknown, and why",
}
CURVE_CLOTHS = {"cloths": "every suitable cloth, by width; for each:"}
CURVE_CLOTH = {
    "letter, cloth, cloth_id": "its letter in the plot, and the cloth",
    "usable_width_mm": "where it stands: washed; for a chart as sold, less the usual selvedges",
    "free_mm": "free length after washing",
    "need_mm, found_at_mm, sureness, why": "as for a point; of its own if it stands apart",
    "spare_mm, verdict, suit": "as in `stash pair`",
    "apart": "why the curve does not speak for it, such as nap; null: on or above it, it fits",
}
KINDS = {
    "title": "what is laid on what",
    "usable_width_mm, nap": "as without --kinds",
    "have_mm": "free length after washing, null for a bare width",
    "best": "the shortest kind; of equally short ones one of two layers",
    "kinds": "open, folded, gate and crossways; for each:",
}
KIND = {
    "kind, need_mm": "the kind and its need; null: it cannot be laid so",
    "longer_mm": "how much longer than the shortest kind",
    "spare_mm": "free length less need",
    "why": "why it cannot be laid, or what is to be known of it; else null",
}
PAIRING = {
    "cloth, cloth_id, role": "the cloth, and what it would be cut for",
    "verdict": "fits, close, short, too narrow, unsuited or unknown",
    "kind": "kind of lay, null when nothing was laid out",
    "need_mm, need_low_mm, need_high_mm": "length needed once washed; range if estimated",
    "need_likely_mm": "the best guess in that range, where there is one",
    "sureness, need_why": "laid out, charted, estimated or unknown, and why",
    "too_narrow": "the piece that is wider than the cloth",
    "checked": "the independent check of its lay passed",
    "have_mm, spare_mm": "free length after washing; what is left or (below 0) missing",
    "cut_from_shelf_mm": "length to cut off as the cloth lies now",
    "suit": "how well its nature answers what is asked, 0-1",
    "suit_known": "share of what counts that is known, 0-1: how sure the suit is",
    "reasons": "factor, mark (0-1; null: not known), sentence, gate (a hard ask), weight (how "
    "much it counts, stash settings suit_weights), source",
    "cautions": "what to look up or do before it is worn",
    "muslin_first": "the cloth is too loved for an untested pattern: why, and cloths to risk on a "
    "test, best first; told by `stash pair`, else null",
}
BECOME = {
    "could": "what the cloth could become, best first; for each:",
    "pattern, view, size": "what would be made; view and size may be empty",
    "person": "whose size it is, null for nobody's",
    "waiting": "names of makes in the queue from this pattern",
}
NEEDS = {
    "pattern, view, size": "what is laid",
    "kind": "kind of lay asked for, null for the shortest at each width",
    "needs": "for each role, the narrowest width first; for each:",
}
WIDTH_NEED = {
    "role, label_width_mm": "what is cut, and the width as sold; taken as washed",
    "without_nap, with_nap": "the need either way; for each the keys below",
    "charted_mm": "what the chart promises at this width for cloth without nap; null: nothing",
}
NEED_AT = {
    "need_mm, need_low_mm, need_high_mm": "length needed, and its range when estimated",
    "need_likely_mm": "the best guess in that range, where there is one",
    "sureness, need_why": "laid out, charted, estimated or unknown, and why",
    "kind, checked": "how the cloth lies; passed by the independent check; null without a lay",
    "too_narrow": "the piece that is wider than the cloth, null if none is",
}
FIT = {
    "make, cloth, role": "what is to be cut from what",
    "verdict, unsure": "as it is, before anything is changed; a hard ask is not measured",
    "have_mm": "free length after washing",
    "search_won_mm": "what looking longer won; null: nobody looked longer",
    "fits": "the end of the ladder fits",
    "least": "nothing cheaper fits, or nothing at all: everything was laid or ruled out",
    "cost, laid": "of the ladder (house rule, 0 is nothing); combinations laid out",
    "ladder": "the cheapest that fits, else the nearest: first as it is, then one way more each",
    "alone": "every way by itself, the cheapest first",
    "left_out": "kind and why, for ways that were not tried",
    "buy": "where nothing fits, width_mm and length_mm to buy for the pattern as it is",
}
FIT_RUNG = {
    "kind, way, does, costs, cost": "what is done and what it costs the garment; null: nothing",
    "need_mm, wins_mm": "length needed with it; how much less than the rung before",
    "short_mm, margin_mm": "need less free length (below 0: left), and what should be left",
    "fits": "enough is left, and every other cloth is enough for its part",
    "checked": "the independent check of its lay passed; null: there is no lay",
    "given": "pieces cut from another cloth; for each:",
}
FIT_GIVEN = {
    "pieces": "their names",
    "colour_apart": "CIEDE2000 between the two cloths",
    "weight_apart_percent": "how much heavier it is, below 0 lighter; null: not known",
}
MUSLIN = {
    "score": "best first, 0-1",
    "likeness": "how like the intended cloth it behaves, 0-1 or null",
    "missed": "how much it would be missed, 0-1",
    "worn": "how likely the result is worn, 0-1; null: nothing is known of what she has",
    "price": "what the season plan loses without this length of it, in worth (priority times "
    "suit); null: not worked out",
    "why": "sentences",
}
PLAN = {
    "proven, gap": "no better plan exists, or how far it may be from the best",
    "supposed": "what --what-if supposed, in words",
    "moves": "against the accepted plan, or with supposed against the plan: make, role, before, "
    "after (null: to be bought), why",
    "makes": "in the order to sew: id, make, pattern, view, size, person, state, priority, "
    "due, muslin, muslin_for, and roles; for each role:",
}
ROLE = {
    "buy": "nothing on the shelf is planned for it; the other keys are null then",
    "why": "why this cloth, or why none",
    "pinned": "promised by you",
    "waits": "to be bought, but the budget does not reach",
    "laid_with": "make and role it is laid with in one lay, whose need this is; else null",
    "runner_up": "the next best cloth, with the same keys, or null",
}
HEALTH = {
    "idle": "names of cloths no plan chooses",
    "almost": "a little short: cloth, make, role, suit (0-1), short_mm",
    "belong": "colours that go together: cloths (two names), mark (0-1), words",
    "months": "month, cloths, bought_mm, spent, cut_mm",
}
BUY = {
    "buy": "make, role, why, asks, best (place in widths), widths: width_mm, length_mm, "
    "sureness, why",
    "notions": "make, notion, amount, note",
}

DIARY = {
    "entries": "the lines, the latest first: id, day (YYYY-MM-DD), kind, text, "
    "cloth_id and make_id of what it is about with their names as cloth and make, else null",
}
HISTORY = {
    "entries": "the latest first; for each:",
    "id, at, who, what": "its number, the moment (ISO 8601), the account, and words for it",
    "undoes": "the entry it turned back: it is an undo or a redo; else null",
    "undone_by": "the entry that turned it back, so that it does not count now; else null",
    "rows": "what it did; for each:",
}
UNDO = {
    "what, again": "the change that was turned back; it was a redo",
    "dry_run": "nothing was kept",
    "rows": "what it did; for each:",
}
CHANGED_ROW = {
    "row, how": "the record or its part, and added, changed or removed",
    "fields": "key, label, before, after (null for nothing), before_text, after_text",
}

TABLE = {
    "file, kind, sheet, heading_row": "what was read: cloths, makes, chart or diary",
    "columns": "heading, field (null: nobody knows), near (the word it was taken for), sample",
    "rows": "every row below the headings; for each:",
}
TABLE_ROW = {
    "row, standing": "its number; ready, there already or not understood",
    "read": "values by field, lengths as FIELD_mm; texts: the same as shown; cells: as written",
    "troubles": "what keeps it out: where (the column), what, hint",
    "remarks, there": "what was guessed; where the same row is already, else null",
}
TABLE_TAKEN = {
    "passed, other_sheets": "lines that are no rows (row, what); sheets that were not read",
    "taken": "taken, there, left, left_in (file with the rows left, or null); null: only looked",
    "folder, read": "of a folder in place of all this: how many of what, by noun",
}


def keys_help(*parts: Mapping[str, str], of: str = "--json") -> str:
    """The end of a help page: every key that `of` writes, and what it means."""
    lines = ["\b", f"Keys of {of} (they stay; lengths in mm):"]
    for part in parts:
        for keys, meaning in part.items():
            lines += textwrap.wrap(
                f"{keys}: {meaning}", 76, initial_indent="  ", subsequent_indent="      "
            )
    return "\n".join(lines)
