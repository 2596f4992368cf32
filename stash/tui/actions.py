"""Every action of the app, once: keys, footer, help and command palette derive from here."""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import Binding, BindingType


@dataclass(frozen=True, slots=True)
class Action:
    """One thing a key does in one place.

    `place` is "app" or the name of a screen; `name` is the Textual action it runs there;
    `label` stands in the footer, `text` in help and in the command palette.
    """

    place: str
    key: str
    name: str
    label: str
    text: str
    footer: bool = True
    first: bool = False
    """Taken before the focused widget sees the key, so that fast typing stays in order."""

    @property
    def id(self) -> str:
        """The name a keymap may use for it, such as `shelf.add`."""
        return f"{self.place}.{self.name}"


@dataclass(frozen=True, slots=True)
class RoomEntry:
    """A room: its name, the key that opens it, and where its screen is imported from."""

    name: str
    key: str
    module: str
    screen: str
    text: str

    @property
    def title(self) -> str:
        """The name as it is shown."""
        return self.name.capitalize()


def _room(name: str, key: str, screen: str, text: str) -> RoomEntry:
    return RoomEntry(name, key, f"stash.tui.screens.{name}", screen, text)


ROOMS: tuple[RoomEntry, ...] = (
    _room("bench", "1", "BenchRoom", "What can I sew next, and what stops me"),
    _room("shelf", "2", "ShelfRoom", "Every cloth, what is free of it, what it could become"),
    _room("patterns", "3", "PatternsRoom", "Patterns with their pieces and charts"),
    _room("makes", "4", "MakesRoom", "What is to be sewn, being sewn, and worn"),
    _room("pairing", "5", "PairingRoom", "One make against every cloth on the shelf"),
    _room("buying", "6", "BuyingRoom", "What little has to be bought"),
    _room("diary", "7", "DiaryRoom", "What happened, day by day"),
)

KEY_NAMES = {
    "question_mark": "?",
    "slash": "/",
    "escape": "esc",
    "plus": "+",
    "minus": "-",
    "enter": "enter",
    "right": "→",
    "left": "←",
    "down": "↓",
    "up": "↑",
}
"""Keys as they are shown, where Textual's name for them is another."""

_KEEPING = (
    ("a", "add", "Add", "Add a new one"),
    ("e", "edit", "Edit", "Change the chosen one"),
    ("d", "remove", "Remove", "Remove the chosen one, after a question"),
)


def _keeping(place: str, noun: str) -> tuple[Action, ...]:
    return tuple(Action(place, k, n, label, f"{text} ({noun})") for k, n, label, text in _KEEPING)


def _bringing(place: str) -> tuple[Action, ...]:
    text = "Bring in a table you keep: CSV, XLSX or ODS"
    return (Action(place, "i", "bring_in", "Import", text),)


def _filtering(place: str) -> tuple[Action, ...]:
    return (Action(place, "slash", "filter", "Filter", "Show only the rows with these words"),)


def _panning(place: str) -> tuple[Action, ...]:
    ways = (("left", "-1,0"), ("right", "1,0"), ("up", "0,-1"), ("down", "0,1"))
    return tuple(
        Action(place, key, f"pan({way})", "Move", f"Move a larger drawing {key}", footer=False)
        for key, way in ways
    )


def _back(place: str, text: str = "Back to where you came from") -> Action:
    return Action(place, "escape", "back", "Back", text)


ACTIONS: tuple[Action, ...] = (
    *(
        Action("app", room.key, f"room('{room.name}')", room.title, f"{room.title}: {room.text}")
        for room in ROOMS
    ),
    Action("app", "ctrl+z", "undo", "Undo", "Undo your last change", footer=False),
    Action("app", "ctrl+y", "redo", "Redo", "Do again what you undid last", footer=False),
    Action("app", "question_mark", "help", "Help", "Every key of this screen"),
    Action("app", "ctrl+t", "light_or_dark", "Light or dark", "Change the colours", footer=False),
    Action("app", "q", "quit", "Quit", "Leave; everything is already kept"),
    Action("bench", "s", "plan", "Season plan", "Give every make a cloth, the whole queue at once"),
    Action("bench", "v", "view", "Plan view", "What the plan chose, what moved, and accept it"),
    Action("bench", "x", "stop", "Stop", "Stop the season plan; what was laid so far is kept"),
    Action("bench", "enter", "pair", "Pair", "Set the chosen make against the shelf"),
    Action("bench", "l", "lay", "Lay", "Draw the lay of the chosen make"),
    *_keeping("shelf", "cloth"),
    *_bringing("shelf"),
    *_filtering("shelf"),
    Action("shelf", "s", "sort", "Sort", "Order the shelf by the next column"),
    Action("shelf", "S", "turn", "Turn order", "Turn the order round"),
    Action("shelf", "l", "lay", "Lay", "Lay the best make for this cloth on it"),
    Action("shelf", "b", "become", "Become", "Everything this cloth could become, best first"),
    _back("shelf", "Clear the filter; then back to the Bench"),
    *_keeping("patterns", "pattern"),
    Action("patterns", "p", "piece", "Piece", "Draw a piece from a few measurements"),
    Action("patterns", "c", "chart", "Chart row", "Add a line of the envelope's chart"),
    Action("patterns", "i", "import", "Import", "Read pieces from an SVG, DXF or PDF file"),
    Action("patterns", "enter", "parts", "Parts", "Every part, to add to, change or take out"),
    Action("patterns", "w", "widths", "Widths", "What it would need over all common widths"),
    Action("patterns", "l", "lay", "Lay", "Lay this pattern at a width"),
    *_filtering("patterns"),
    _back("patterns", "Clear the filter; then back to the Bench"),
    *_keeping("parts", "part"),
    _back("parts", "Back to the Patterns"),
    Action("found", "enter", "take", "Take", "Keep the chosen pieces, all in one change"),
    Action("found", "space", "choose_piece", "Choose", "Take this outline, or leave it"),
    Action("found", "a", "choose_all", "All or none", "Choose every good outline, or none"),
    Action("found", "z", "size", "Drawn size", "Show one of the sizes drawn in layers, or all"),
    Action("found", "k", "keep_as", "Keep as", "Choose which size of the pattern they are"),
    Action("found", "r", "answers", "Read anew", "Say scale, unit, grain, seam or pages"),
    _back("found", "Back to the Patterns; nothing is kept"),
    Action("widths", "z", "size", "Size", "Choose the size"),
    Action("widths", "v", "view", "View", "Choose the view"),
    Action(
        "widths", "k", "kind", "Kind", "Best, open, folded, gate, crossways: how the cloth lies"
    ),
    Action("widths", "enter", "lay", "Lay", "Draw the lay at this width, with nap"),
    Action("widths", "x", "stop", "Stop", "Stop working out the lays"),
    _back("widths", "Back to the Patterns"),
    *_keeping("makes", "make"),
    Action("makes", "enter", "pair", "Pair", "Set this make against the shelf"),
    Action("makes", "l", "lay", "Lay", "Draw the lay of this make"),
    Action("makes", "u", "release", "Release", "Free the cloth promised to this make"),
    Action("makes", "c", "cut", "Cut", "Say that this make has been cut"),
    *_bringing("makes"),
    *_filtering("makes"),
    _back("makes", "Clear the filter; then back to the Bench"),
    Action("pairing", "m", "make", "Make", "Choose the make"),
    Action("pairing", "r", "role", "Role", "Go to the next role of the make"),
    Action("pairing", "enter", "lay", "Lay", "Draw the lay on the chosen cloth"),
    Action("pairing", "i", "fit_in", "Fit in", "What makes it fit, where the cloth is too short"),
    Action("pairing", "g", "grid", "Grid", "Every make against every cloth, at a glance"),
    Action("pairing", "p", "promise", "Promise", "Promise the chosen cloth to this make"),
    Action("pairing", "u", "release", "Release", "Free the cloth promised to this role"),
    Action("pairing", "x", "stop", "Stop", "Stop working out the lays"),
    _back("pairing", "Back to the Bench"),
    Action("grid", "enter", "pair", "Pair", "Look at this make and this cloth in the Pairing"),
    Action("grid", "l", "lay", "Lay", "Draw the lay of this make on this cloth"),
    Action("grid", "i", "fit_in", "Fit in", "What makes it fit, where the cloth is too short"),
    Action("grid", "x", "stop", "Stop", "Stop; the columns that are there stay, lays are kept"),
    _back("grid", "Back to the Pairing"),
    Action("buying", "enter", "pair", "Pair", "See what the shelf has for this make"),
    Action("buying", "x", "stop", "Stop", "Stop the season plan; what was laid so far is kept"),
    _back("buying", "Back to the Bench"),
    Action("diary", "a", "add", "Add", "Write a line"),
    *_bringing("diary"),
    Action("diary", "h", "history", "History", "Every change of the stash, before and after"),
    _back("diary", "Back to the Bench"),
    Action("import", "enter", "take", "Take", "Take the chosen rows, all in one change"),
    Action("import", "space", "choose_row", "Choose", "Take this row, or leave it"),
    Action("import", "a", "choose_all", "All or none", "Choose every good row, or none"),
    Action("import", "c", "column", "Columns", "Say what a column is"),
    Action("import", "n", "rest", "Rest to notes", "All columns not known go into the notes"),
    Action("import", "k", "keep", "Keep choices", "Keep what you said of the table in a file"),
    _back("import", "Back to the room; no more of it is taken"),
    Action("history", "u", "turn_back", "Undo this", "Undo the chosen change or undo"),
    _back("history", "Back to the Diary"),
    Action("lay", "k", "kind", "Kind", "Best, open, folded, gate, crossways: how the cloth lies"),
    Action("lay", "t", "kinds", "All kinds", "Every kind of lay with its length, to choose from"),
    Action("lay", "n", "nap", "Nap", "With or without nap: may pieces be turned head to foot"),
    Action("lay", "g", "gap", "Gap", "Keep a gap between pieces"),
    Action("lay", "w", "width", "Width", "Lay it on another width, or on another cloth"),
    Action("lay", "c", "curve", "Curve", "Need against width, with every suitable cloth on it"),
    Action("lay", "i", "fit_in", "Fit in", "What makes it fit, where the cloth is too short"),
    Action("lay", "s", "search", "Search on", "Look longer for a shorter lay"),
    Action("lay", "x", "stop", "Stop", "End the search; the shortest lay so far is kept"),
    Action("lay", "plus", "larger", "Larger", "Draw it larger; the arrow keys move it"),
    Action("lay", "minus", "smaller", "Smaller", "Draw it smaller again"),
    Action("lay", "f", "fit", "Fit", "Fit the whole lay to the screen"),
    *_panning("lay"),
    Action("lay", "p", "promise", "Promise", "Promise this cloth to this make"),
    _back("lay"),
    Action("plan", "enter", "accept_one", "Accept make", "Promise what is chosen for this make"),
    Action("plan", "a", "accept_all", "Accept all", "Promise every choice of the plan"),
    Action("plan", "w", "what_if", "What if", "Suppose a make dropped, or a cloth bought or gone"),
    Action("plan", "l", "lay", "Lay", "Draw the lay on the chosen cloth"),
    Action("plan", "x", "stop", "Stop", "Stop planning; what was laid so far is kept"),
    _back("plan", "Drop what was supposed; then back to the Bench"),
    Action("become", "enter", "lay", "Lay", "Draw the lay of the chosen pattern on the cloth"),
    Action("become", "x", "stop", "Stop", "Stop working out the lays"),
    _back("become", "Back to the Shelf"),
    Action("ways", "enter", "draw", "Draw", "Draw the lay with everything up to this way"),
    Action("ways", "o", "allow", "Allow", "Say what may change, and what you do not want"),
    Action("ways", "x", "stop", "Stop", "Stop laying; what was laid so far is kept"),
    _back("ways"),
    Action("drawn", "n", "following", "Next cloth", "The lay on the next cloth"),
    Action("drawn", "plus", "larger", "Larger", "Draw it larger; the arrow keys move it"),
    Action("drawn", "minus", "smaller", "Smaller", "Draw it smaller again"),
    Action("drawn", "f", "fit", "Fit", "Fit the whole lay to the screen"),
    *_panning("drawn"),
    _back("drawn", "Back to the ways"),
    Action("curve", "right", "following", "Next cloth", "Choose the next wider cloth"),
    Action("curve", "left", "previous", "Cloth before", "Choose the cloth before"),
    Action("curve", "down", "following", "Next cloth", "Choose the next wider cloth", footer=False),
    Action("curve", "up", "previous", "Cloth before", "Choose the cloth before", footer=False),
    Action("curve", "enter", "take", "Lay", "Lay it on the chosen cloth"),
    Action("curve", "n", "nap", "Nap", "As if every cloth had nap, or as the cloths are"),
    Action("curve", "x", "stop", "Stop", "Stop working it out; what was laid so far is kept"),
    _back("curve", "Back to the lay"),
    Action("kinds", "enter", "take", "Lay", "Lay it in the chosen kind"),
    Action("kinds", "x", "stop", "Stop", "Stop laying them; what was laid so far is kept"),
    _back("kinds", "Back to the lay"),
    Action("form", "ctrl+s", "save", "Save", "Keep what is typed"),
    Action("form", "enter", "enter", "Next", "Go to the next field; save in the last", first=True),
    Action("form", "tab,down", "next", "Next", "Go to the next field", False, first=True),
    Action("form", "shift+tab,up", "previous", "Back", "Go to the field before", False, first=True),
    Action("form", "escape", "back", "Cancel", "Leave without keeping anything"),
    Action("clash", "t", "theirs", "Keep theirs", "Leave the record as they changed it"),
    Action("clash", "m", "mine", "Mine on top", "Keep what you typed on top of what they changed"),
    Action("clash", "escape", "back", "Cancel", "Back to the form; nothing is kept yet"),
    Action("choose", "enter", "take", "Take", "Take this; a letter finds the next", first=True),
    Action("choose", "escape", "back", "Cancel", "Leave without choosing"),
    Action("confirm", "y", "yes", "Yes", "Do it"),
    Action("confirm", "n", "no", "No", "Leave it as it is"),
    Action("confirm", "escape", "no", "No", "Leave it as it is", footer=False),
    _back("help"),
)


def actions_of(place: str) -> tuple[Action, ...]:
    """The actions of one place, in the order of the footer."""
    return tuple(action for action in ACTIONS if action.place == place)


def bindings(place: str) -> list[BindingType]:
    """The key bindings of one place, for its `BINDINGS`."""
    return [
        Binding(
            action.key,
            action.name,
            action.label,
            show=action.footer,
            priority=action.first,
            tooltip=action.text,
            id=action.id,
            key_display=KEY_NAMES.get(action.key),
        )
        for action in actions_of(place)
    ]
