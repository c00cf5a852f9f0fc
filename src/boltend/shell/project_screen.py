"""The screen of a project, with all that can be done on it."""

from textual import events
from textual.binding import ActiveBinding
from textual.widget import Widget

from boltend.shell.actions import ACTIONS, BY_NAME, Group, key_of, key_words
from boltend.shell.doing_find import FindView
from boltend.shell.doing_lists import WITH_WHY
from boltend.shell.keys import NO_KEY
from boltend.shell.result_lines import CAUTIONS

_SCROLL = "↑ ↓ PgUp PgDn scroll."

_WHY = (
    "↑ ↓ choose a line, PgUp PgDn a page. Enter says why so much of it: which tab asks for what, what is in "
    "hand, and each rounding; from there Enter goes to the tab."
)

_IN_LADDERS = ("ladder", "use_rung", "edit_ladder", "remove_ladder", "copy", "export")
_LADDERS = (
    "Ladders: the project worked out for several values of one given, side by side. ↑ ↓ ← → and PgUp PgDn "
    "choose, Enter says what can be done with a value or a ladder; {use_rung} puts the value into the given, "
    "{edit_ladder} changes values and what stands beside them, {remove_ladder} takes the ladder out. {copy} "
    "copies the chosen one as text, {export} writes it to a file. {ladder} on a given makes another. "
    "* is what the project has now, ~ may still become less, + behind a total means that something is not in "
    "it: the line below says what. Esc stops what is worked out, then goes back."
)

_UNREAD = ("save", "leave", "stop")
"""What may be done in a window that is too small to read anything."""

_NOT_HERE = {
    "back": "Work backwards from a tab, or from To buy. Esc goes back to the tab.",
}
"""What is said of an action out of reach, where more can be said than that it is."""


class ProjectScreen(FindView):
    """Help, and what is worked out in the worker; everything else is inherited."""

    @property
    def active_bindings(self) -> dict[str, ActiveBinding]:
        """What the footer shows: in the order of our actions, and none that the person left without a key.

        What is most wanted in the place comes first.
        """
        found = super().active_bindings
        order = {name: at for at, name in enumerate(dict.fromkeys((*self._wanted_here(), *BY_NAME)))}
        keys = sorted(found, key=lambda key: order.get(found[key].binding.action, -1))
        return {key: found[key] for key in keys if key != NO_KEY}

    def _wanted_here(self) -> tuple[str, ...]:
        if self.list_in_sight == "ladders":
            return "use_rung", "edit_ladder", "remove_ladder", "menu", "help", "undo", "save"
        if self.focused is self.body.results and not self.list_in_sight:
            return "back", "menu", "help", "next_tab", "find", "undo", "save", "leave"
        return ()

    def set_focus(
        self, widget: Widget | None, scroll_visible: bool = True, from_app_focus: bool = False
    ) -> None:
        """As Textual's, but a field is brought into sight by its form, which knows where its heads stand."""
        in_form = widget is not None and self._form is not None and self._form in widget.ancestors
        super().set_focus(widget, scroll_visible and not in_form, from_app_focus)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """In a window in which nothing can be read, only what needs no reading."""
        if action in BY_NAME and self.has_class("-small"):
            return action in _UNREAD
        return super().check_action(action, parameters)

    def on_key(self, event: events.Key) -> None:
        """A key that nobody took: where its action is only out of reach here, that is said."""
        action = next((action for action in ACTIONS if event.key in action.now), None)
        if action is None or self.has_class("-small") or self.check_action(action.name, ()):
            return
        where = (
            f"for the ladders: {key_of('ladders')}" if action.in_ladders else "for a tab: Esc goes back to it"
        )
        self.tell(_NOT_HERE.get(action.name, f"{key_words(event.key)} is {where}."))

    def action_help(self) -> None:
        """Help for where the person is."""
        from boltend.shell.help import HelpScreen, help_text

        about, groups = self._where()
        self.app.push_screen(HelpScreen(help_text(groups, about)))

    def _where(self) -> tuple[str, tuple[Group, ...]]:
        """What there is to say of the place, and which actions come first there."""
        place = self.place
        spec = self.spec_at(place) if place is not None else None
        if spec is not None and place is not None and self._form is not None:
            from boltend.shell.given_help import given_help, row_signs

            of = self._form.spec.given(place.given) if place.column else None
            about = given_help(spec, self._form.look(place), place.row, of.label if of is not None else "")
            if spec.kind == "rows" or of is not None:
                about += f"\n{row_signs()}"
            return about, ("Given", "Tab", "Project", "Screen", "Ladder")
        if self.list_in_sight == "ladders":
            return _LADDERS.format(**{name: key_of(name) for name in _IN_LADDERS}), (
                "Ladder",
                "Project",
                "Screen",
                "Tab",
                "Given",
            )
        if self.list_in_sight:
            action = BY_NAME[self.list_in_sight]
            back = f"Esc or {key_of(action.name)} goes back to the field you came from."
            shown = "how cloth is cut" if action.name == "to_cut" else "the whole quilt"
            large = f"{key_of('picture')} shows {shown} on the whole screen."
            why = _WHY if self.list_in_sight in WITH_WHY else _SCROLL
            return f"{action.words}. {why} {large} {back}", (
                "Project",
                "Screen",
                "Tab",
                "Given",
                "Ladder",
            )
        if self.focused is self.bar:
            about = "Tabs: ← → go to another, Enter or ↓ leads into it."
            return about, ("Tab", "Screen", "Project", "Given", "Ladder")
        if self.focused is self.results:
            asks = f"{key_of('back')} asks which given makes one so, {key_of('copy')} copies it."
            about = (
                f"What is found. {_SCROLL} {asks} Enter on a line with → (or a click) "
                "goes to the tab that uses it; Esc leads back."
            )
            return about, ("Screen", "Tab", "Given", "Project", "Ladder")
        return "", ("Tab", "Project", "Screen", "Given", "Ladder")

    def action_stop(self) -> None:
        """Put a notice away, leave a list, stop the run of the tab in sight, or leave what was found."""
        self.notice.pass_by()  # what is said in passing takes no key for itself
        if self.notice.words:
            self.notice.show("")
        elif self.stop_proving():
            pass  # the lists say so
        elif self.leave_why():
            pass  # the list is in sight again
        elif self.list_in_sight:
            self.back_to_tab()
        elif self.current is not None and self.desk.stop(self.current):
            self.tell("Stopping …")
        elif self.focused is self.results:
            self.action_results()

    def action_results(self) -> None:
        """To what was found, where the arrows scroll, and back to the field."""
        if self.list_in_sight:
            return
        if self.focused is self.results:
            self.show_tab(self.current, self._came_from)
        else:
            self._came_from = self.place
            self.set_focus(self.results)
            copies = f"{key_of('copy')} copies one; {key_of('back')} asks what makes it so"
            self.tell(f"↑ ↓ what was found; {copies}; {key_of('stop')} back")

    def action_cautions(self) -> None:
        """To the cautions of the tab in sight, which stand below all else."""
        if self.list_in_sight:
            return
        lines = self.results.lines
        at = next((n for n, line in enumerate(lines) if line.parts[:1] == ((CAUTIONS, "title"),)), None)
        if at is None:
            self.tell("This tab has no caution.")
            return
        if self.focused is not self.results:
            self._came_from = self.place
            self.set_focus(self.results)
        self.results.mark(at)
        self.tell(f"{key_of('results')} or {key_of('stop')} leads back to the field.")

    def action_work_anew(self) -> None:
        """All of it once more, as after a stop."""
        self.climb_anew()
        self.repaint(self.desk.work_anew())
        self.tell("Worked out anew.")
