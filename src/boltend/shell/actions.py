"""Every action of the shell, defined once: keys, footer, menu and help all come from here."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from textual.binding import Binding, BindingType

Group = Literal["Project", "Tab", "Given", "Ladder", "Screen"]


@dataclass(frozen=True)
class Action:
    """What a person can do. `name` is its name and its binding's id; `short` stands in the footer.

    `keys` are those that it has of itself; `now` those that it has, for a person may give it others.
    """

    name: str
    words: str
    group: Group
    keys: tuple[str, ...] = ()
    short: str = ""

    @property
    def in_tab(self) -> bool:
        """Whether it is done to the tab in sight, and so only while one is."""
        return self.group == "Given" or (self.group == "Tab" and self.name != "add_tab")

    @property
    def in_ladders(self) -> bool:
        """Whether it is done to a ladder, and so only while the ladders are in sight."""
        return self.group == "Ladder"

    @property
    def now(self) -> tuple[str, ...]:
        """The keys that it has."""
        return _given.get(self.name, self.keys)

    @property
    def key_words(self) -> str:
        """The keys as a person reads them."""
        return ", ".join(key_words(key) for key in self.now)


_given: dict[str, tuple[str, ...]] = {}
"""Keys that the person gave to actions. Of the whole process, for one shell runs in it."""


def give_keys(keys: Mapping[str, tuple[str, ...]]) -> None:
    """Give actions other keys than their own; all that are not named have their own again."""
    _given.clear()
    _given.update(keys)


def key_of(name: str) -> str:
    """The first key of an action in words; where it has none, where to find it."""
    now = BY_NAME[name].now
    return key_words(now[0]) if now else "the menu"


def key_words(key: str) -> str:
    """A key as written in the footer: ^s, F2, shift+F6."""
    *held, last = key.split("+")
    names = {"pageup": "PgUp", "pagedown": "PgDn", "escape": "Esc", "left": "←", "right": "→", "up": "↑"}
    names |= {"down": "↓", "delete": "Del", "insert": "Ins", "home": "Home", "end": "End"}
    last = names.get(last, last.upper() if last[:1] == "f" and last[1:].isdigit() else last)
    if held == ["ctrl"] and len(last) == 1:
        return f"^{last}"
    last = last.upper() if held and len(last) == 1 else last
    return "+".join((*(word.capitalize() for word in held), last))


ACTIONS: tuple[Action, ...] = (
    Action("help", "Help for where you are", "Screen", ("f1",), "Help"),
    Action(
        "map", "Map: what feeds what, and what cannot be worked out", "Project", ("alt+m", "shift+f3"), ""
    ),
    Action("ladders", "Ladders: one given through several values, side by side", "Project", ("alt+a",), ""),
    Action("to_cut", "To cut: the whole project's cutting list", "Project", ("f5",), ""),
    Action("to_buy", "To buy: the whole project's shopping list", "Project", ("f8",), ""),
    Action("why", "Why so much: the working of a line of To buy or To cut", "Project"),
    Action("fabrics", "Fabrics: what they are, prices, what is in hand", "Project", ("shift+f5",), ""),
    Action("settings", "Project settings: seam, usable width, steps, copies", "Project", ("shift+f1",), ""),
    Action("rename_tab", "Rename this tab", "Tab", ("f2",), "Rename"),
    Action("use_rung", "Put this value of the ladder into the given", "Ladder", ("alt+p",), "Put"),
    Action("edit_ladder", "Edit or rename this ladder", "Ladder", ("alt+o",), "Edit"),
    Action("remove_ladder", "Remove this ladder", "Ladder", ("alt+x",), "Remove"),
    Action("link", "Link this given to another tab", "Given", ("f4", "ctrl+l"), "Link"),
    Action("go_to_source", "Go to where this given comes from", "Given", ("f3", "ctrl+g"), ""),
    Action("unlink", "Unlink this given, and keep its value", "Given", ("shift+f4",), ""),
    Action("results", "To what was found, and back to the givens", "Screen", ("alt+r",), ""),
    Action("cautions", "Cautions of this tab", "Screen", ("alt+k",), ""),
    Action("next_tab", "Next tab", "Screen", ("f6", "ctrl+pagedown"), "Next"),
    Action("previous_tab", "Previous tab", "Screen", ("shift+f6", "ctrl+pageup"), ""),
    Action("add_tab", "Add a tab", "Tab", ("f7",), "Add"),
    Action("duplicate_tab", "Duplicate this tab", "Tab", ("shift+f7",), ""),
    Action("move_left", "Move this tab to the left", "Tab", ("alt+left",), ""),
    Action("move_right", "Move this tab to the right", "Tab", ("alt+right",), ""),
    Action("remove_tab", "Remove this tab", "Tab", ("shift+f2",), ""),
    Action("aside", "Aside: a what-if, out of the lists", "Tab", ("shift+f8",), ""),
    Action("done", "Done: already sewn, out of the lists", "Tab", ("shift+f9",), ""),
    Action("note", "Note of this tab", "Tab", ("alt+n", "ctrl+n"), ""),
    Action("drop_unknown", "Take out givens that the calculator does not know", "Given"),
    Action("add_row", "Add a row", "Given", ("ctrl+o",), ""),
    Action("remove_row", "Remove this row", "Given", ("alt+delete", "ctrl+t"), ""),
    Action("row_up", "Move this row up", "Given", ("alt+up",), ""),
    Action("row_down", "Move this row down", "Given", ("alt+down",), ""),
    Action("menu", "All that can be done, and wherever one can go", "Screen", ("f9", "ctrl+p"), "Menu"),
    Action("find", "Find in names, givens, founds, working and notes", "Screen", ("ctrl+f",), "Find"),
    Action("find_next", "Find the next place", "Screen", ("shift+f12", "alt+f"), ""),
    Action("look", "Look: light, dark, high contrast, no colour", "Screen"),
    Action("both_systems", "Inches and centimetres beside each other, or one of them", "Screen", ("alt+u",)),
    Action("undo", "Undo", "Project", ("ctrl+z",), "Undo"),
    Action("redo", "Redo", "Project", ("ctrl+y",), ""),
    Action("start", "Start: another project or question", "Project", ("alt+home",), ""),
    Action("open", "Open a project file", "Project"),
    Action("empty_project", "A new, empty project", "Project"),
    Action("printed", "Compare the yardage that a pattern prints", "Project"),
    Action("save", "Save", "Project", ("ctrl+s",), "Save"),
    Action("save_as", "Save as another file", "Project"),
    Action("name_project", "Name the project", "Project"),
    Action("problems", "What is wrong in the file", "Project"),
    Action("plugins", "Plugins: which are there, in what state, and why", "Project"),
    Action("copy", "Copy what was chosen, else what is in sight, as text", "Project", ("alt+c",), ""),
    Action("copy_tab", "Copy all of this tab, as text", "Tab"),
    Action("export", "Export the plan to a file: PDF, HTML, text, Markdown, JSON", "Project", ("alt+e",), ""),
    Action(
        "customer", "A page for the customer: the quilt, what to buy, what it costs", "Project", ("alt+i",)
    ),
    Action("picture", "Picture of what is in sight on the whole screen", "Screen", ("alt+v",), ""),
    Action(
        "whole_quilt", "Picture of the whole quilt: blocks, sashing, borders, binding", "Project", ("alt+q",)
    ),
    Action("work_anew", "Work everything out anew", "Screen", ("ctrl+r",), ""),
    Action("stop", "Stop what is being worked out", "Screen", ("escape",), ""),
    Action("leave", "Quit", "Project", ("ctrl+q",), "Quit"),
    # Last in the line of keys: where there is room for them.
    Action("ladder", "Ladder of this given: several values side by side", "Given", ("alt+l",), "Ladder"),
    Action("back", "Which given makes this so: work backwards", "Screen", ("alt+w",), "Backwards"),
)

BY_NAME = {action.name: action for action in ACTIONS}


def bindings() -> list[BindingType]:
    """The bindings of the project's screen, each with an id: by it the app's keymap binds other keys."""
    return [
        Binding(
            ",".join(action.keys),
            action.name,
            action.short or action.words,
            show=bool(action.short),
            id=action.name,
            # Textual's own ctrl+q would leave without asking.
            priority=action.name == "leave",
        )
        for action in ACTIONS
        if action.keys
    ]
