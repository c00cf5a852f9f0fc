"""The screen of a project, with all that can be done on it."""

from boltend.shell.actions import ACTIONS, Action, Group
from boltend.shell.dialogs import Choose, Offer
from boltend.shell.doing_copies import CopyView
from boltend.shell.help import HelpScreen, help_text
from boltend.shell.say import say_of


class ProjectScreen(CopyView):
    """Menu, help, and what is worked out in the worker; everything else is inherited."""

    def action_menu(self) -> None:
        """All actions in a list."""
        offers = [
            Offer(action, action.words, action.key_words, find=action.group)
            for action in ACTIONS
            if action.name != "menu" and self.check_action(action.name, ())
        ]
        self.app.push_screen(Choose("What to do", offers, filtered=True), self._do)

    def _do(self, action: Action | None) -> None:
        if action is not None:
            self.run_named(action.name)

    def action_help(self) -> None:
        """Help for where the person is."""
        place = self.place
        spec = self.spec_at(place) if place is not None else None
        about = ""
        if spec is not None and place is not None and self._form is not None:
            about = f"{spec.label}: {say_of(spec, self._form.look(place))}"
        groups: tuple[Group, ...] = ("Given", "Tab", "Project", "Screen")
        self.app.push_screen(HelpScreen(help_text(groups, about)))

    def action_stop(self) -> None:
        """Put a notice away, leave a list, or stop the run of the tab in sight."""
        if self.notice.words:
            self.notice.show("")
        elif self.stop_proving():
            pass  # the lists say so
        elif self.list_in_sight:
            self.back_to_tab()
        elif self.current is not None and self.desk.stop(self.current):
            self.tell("Stopping …")

    def action_work_anew(self) -> None:
        """All of it once more, as after a stop."""
        self.repaint(self.desk.work_anew())
        self.tell("Worked out anew.")
