"""Every action of the shell, defined once: keys, footer, menu, palette and help all come from here."""

from dataclasses import dataclass
from typing import Literal

from textual.binding import Binding, BindingType

Group = Literal["Project", "Tab", "Given", "Screen"]


@dataclass(frozen=True)
class Action:
    """What a person can do. `name` is its name and its binding's id; `short` stands in the footer."""

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
    def key_words(self) -> str:
        """The keys as a person reads them."""
        return ", ".join(key_words(key) for key in self.keys)


def key_words(key: str) -> str:
    """A key as written in the footer: ^s, F2, shift+F6."""
    *held, last = key.split("+")
    names = {"pageup": "PgUp", "pagedown": "PgDn", "escape": "Esc", "left": "←", "right": "→"}
    last = names.get(last, last.upper() if last[:1] == "f" and last[1:].isdigit() else last)
    if held == ["ctrl"] and len(last) == 1:
        return f"^{last}"
    return "+".join((*(word.capitalize() for word in held), last))


ACTIONS: tuple[Action, ...] = (
    Action("help", "Help for where you are", "Screen", ("f1",), "Help"),
    Action("map", "Map: what feeds what, and what cannot be worked out", "Project", ("shift+f3",), ""),
    Action("to_cut", "To cut: the whole project's cutting list", "Project", ("f5",), ""),
    Action("to_buy", "To buy: the whole project's shopping list", "Project", ("f8",), ""),
    Action("fabrics", "Fabrics: what they are, prices, what is in hand", "Project", ("shift+f5",), ""),
    Action("settings", "Project settings: seam, usable width, steps, copies", "Project", ("shift+f1",), ""),
    Action("rename_tab", "Rename this tab", "Tab", ("f2",), "Rename"),
    Action("link", "Link this given to another tab", "Given", ("f4", "ctrl+l"), "Link"),
    Action("go_to_source", "Go to where this given comes from", "Given", ("f3", "ctrl+g"), ""),
    Action("unlink", "Unlink this given, and keep its value", "Given", ("shift+f4",), ""),
    Action("next_tab", "Next tab", "Screen", ("f6", "ctrl+pagedown"), "Next"),
    Action("previous_tab", "Previous tab", "Screen", ("shift+f6", "ctrl+pageup"), ""),
    Action("add_tab", "Add a tab", "Tab", ("f7",), "Add"),
    Action("duplicate_tab", "Duplicate this tab", "Tab", ("shift+f7",), ""),
    Action("move_left", "Move this tab to the left", "Tab", ("alt+left",), ""),
    Action("move_right", "Move this tab to the right", "Tab", ("alt+right",), ""),
    Action("remove_tab", "Remove this tab", "Tab", ("shift+f2",), ""),
    Action("aside", "Aside: a what-if, out of the lists", "Tab", ("shift+f8",), ""),
    Action("done", "Done: already sewn, out of the lists", "Tab", ("shift+f9",), ""),
    Action("note", "Note of this tab", "Tab", ("ctrl+n",), ""),
    Action("drop_unknown", "Take out givens that the calculator does not know", "Given"),
    Action("add_row", "Add a row", "Given", ("ctrl+o",), ""),
    Action("remove_row", "Remove this row", "Given", ("alt+delete", "ctrl+t"), ""),
    Action("row_up", "Move this row up", "Given", ("alt+up",), ""),
    Action("row_down", "Move this row down", "Given", ("alt+down",), ""),
    Action("menu", "All that can be done", "Screen", ("f9",), "Menu"),
    Action("undo", "Undo", "Project", ("ctrl+z",), "Undo"),
    Action("redo", "Redo", "Project", ("ctrl+y",), ""),
    Action("save", "Save", "Project", ("ctrl+s",), "Save"),
    Action("save_as", "Save as another file", "Project"),
    Action("name_project", "Name the project", "Project"),
    Action("problems", "What is wrong in the file", "Project"),
    Action("copy", "Copy what is in sight, as text", "Project", ("alt+c",), ""),
    Action("export", "Export the plan to a file: text, Markdown, JSON", "Project", ("alt+e",), ""),
    Action("work_anew", "Work everything out anew", "Screen", ("ctrl+r",), ""),
    Action("stop", "Stop what is being worked out", "Screen", ("escape",), ""),
    Action("leave", "Quit", "Project", ("ctrl+q",), "Quit"),
)

BY_NAME = {action.name: action for action in ACTIONS}


def bindings() -> list[BindingType]:
    """The bindings of the project's screen, each with an id so that it can be bound to another key."""
    return [
        Binding(
            ",".join(action.keys),
            action.name,
            action.short or action.words,
            show=bool(action.short),
            key_display=key_words(action.keys[0]),
            id=action.name,
            # Textual's own ctrl+q would leave without asking.
            priority=action.name == "leave",
        )
        for action in ACTIONS
        if action.keys
    ]
