"""Ladders: one given through several values, kept in the project, worked out beside everything else."""

from functools import partial
from typing import TYPE_CHECKING, Any

from boltend.core.host.calls import Outcome
from boltend.core.project.edits import checked_name
from boltend.core.project.edits_fabrics import add_ladder, change_ladder, remove_ladder
from boltend.core.project.plain import free_name
from boltend.core.project.problems import EditRefused
from boltend.shell.actions import BY_NAME, key_of
from boltend.shell.dialogs import Choose, Offer
from boltend.shell.doing_copies import CopyView
from boltend.shell.looks import Place
from boltend.shell.result_lines import ResultLine
from boltend.shell.results import Results
from boltend.shell.tab_bar import LISTS
from boltend.shell.texts import shown

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.core.asking import Spot
    from boltend.core.asking.apart import Apart
    from boltend.core.pool import Pool
    from boltend.core.project.model import LadderRow
    from boltend.shell.climbing import Climbed, Climbs, Standing
    from boltend.shell.planning import Wanted

LADDERS = "ladders"


class LadderView(CopyView):
    """A view with the project's ladders."""

    _climbs: "Climbs | None" = None
    _climbing: "Wanted | None" = None
    _content = False
    _climb_fault = ""
    _ladder_pool: "Pool | None" = None
    _new_ladder: int | None = None
    """The key of a ladder just made: it stays in sight while others grow, until another is chosen."""
    _aparts: "tuple[Apart, ...]" = ()

    def _later(self, ticket: object, outcome: Outcome) -> None:
        # From another thread. What is worked out beside the project is none of its tabs.
        if not any(apart.arrived(ticket, outcome) for apart in self._aparts):
            super()._later(ticket, outcome)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What is done to a ladder is out of reach while none is in sight."""
        known = BY_NAME.get(action)
        if known is not None and known.in_ladders and self.list_in_sight != LADDERS:
            return False
        return super().check_action(action, parameters)

    def _paint_frame(self) -> None:
        if self.bar.has_ladders != bool(self.desk.project.ladders):
            self.bar.has_ladders = not self.bar.has_ladders
            self.bar.refresh()
        super()._paint_frame()

    # In sight -------------------------------------------------------------------------------------

    def action_ladders(self) -> None:
        """The ladders, or back to the tab."""
        self._turn_to(LADDERS)

    def see_list(self, name: str) -> None:
        """Bring a list into sight, or with "" none; ladders out of sight are not climbed."""
        if name != LADDERS:
            self._stop_climbing()
            self._new_ladder = None
        super().see_list(name)

    def lists_changed(self) -> None:
        """Climb anew where the ladders in sight are not the project's any more."""
        if self.list_in_sight != LADDERS:
            super().lists_changed()
            return
        book = self.desk.book
        if book is None or not self.is_current:
            return
        from boltend.shell.climbing import Climbs

        self._climbs = self._climbs or Climbs()
        if self._climbs.follow(book):
            self._stop_climbing()
            self._content, self._climb_fault = False, ""
        if self._climbs.open() and self._climbing is None and not self._content:
            self._climb()
        self._paint_list(from_top=False)

    def _climb(self) -> None:
        from boltend.core.asking.apart import Apart
        from boltend.shell.climbing import climb_in_thread
        from boltend.shell.planning import Wanted, new_pool

        assert self._climbs is not None  # asked before
        assert self.desk.bench is not None  # there is a book
        run = self._climbing = Wanted()
        apart = Apart(self.desk.bench, run)
        self._aparts = (apart,)
        self._ladder_pool = self._ladder_pool or new_pool()
        pool, project, ladders = self._ladder_pool, self._climbs.project, self._climbs.open(self._new_ladder)
        work = partial(climb_in_thread, pool, apart, project, ladders, run, self.post_message)
        self.run_worker(work, thread=True, exclusive=True, group="ladders", description="ladders")

    def on_climbed(self, event: "Climbed") -> None:
        """Rungs came from the thread."""
        if event.run is not self._climbing or self._climbs is None:
            return  # of a project that has changed since
        self._climbs.take(event.told)
        if event.last:
            self._climbing = None
            self._content = bool(self._climbs.open())  # what fails once, fails again
            self._climb_fault = event.fault
        if self.list_in_sight == LADDERS:
            self._paint_list(from_top=False)

    def _stop_climbing(self) -> bool:
        """Let what is worked out go; whether there was anything."""
        run, self._climbing = self._climbing, None
        if run is not None:
            run.stop()
        return run is not None

    def stop_proving(self) -> bool:
        """Be content with what there is of the ladders; tell whether more was worked out."""
        if self.list_in_sight != LADDERS:
            return super().stop_proving()
        self._content = self._stop_climbing()
        self._paint_list(from_top=False)
        return self._content

    def climb_anew(self) -> None:
        """Ladders that were stopped go on; the others are worked out once more."""
        if not self._content:
            self._stop_climbing()
            self._climbs = None
        self._content = False

    def on_unmount(self) -> None:
        """Let the thread and its process end."""
        self._stop_climbing()
        if self._ladder_pool is not None:
            self._ladder_pool.close()

    def _paint_list(self, *, from_top: bool) -> None:
        if self.list_in_sight != LADDERS:
            super()._paint_list(from_top=from_top)
            return
        at = self._ladder_chosen()
        self.pane.say(self._says())
        self.pane.show(self._lines(), from_top=from_top, leads=True)
        keys = [each.row.key for each in self._climbs.standing] if self._climbs is not None else []
        new = keys.index(self._new_ladder) if self._new_ladder in keys else None
        if new is not None and (at is None or at == (new, None) or from_top):
            self._choose_ladder(new, scroll=True)
        elif at is not None and not from_top:
            self._choose_ladder(*at)

    def _says(self) -> str:
        if self.list_in_sight != LADDERS:
            return super()._says()
        title = f"{LISTS[LADDERS]}, side by side"
        if self._climb_fault:
            return f"{title} · not worked out: {self._climb_fault}"
        done, of = self._climbs.counts if self._climbs is not None else (0, 0)
        stop = key_of("stop")
        if self._climbing is not None:
            what = f"{done} of {of} worked out" if done < of else "looking for shorter plans"
            return f"{title} · {what} … {stop} stops"
        if done < of:
            return f"{title} · stopped at {done} of {of} · {key_of('work_anew')} goes on"
        if not of:
            return f"{title} · {stop} goes back"
        return f"{title} · ↑ ↓ ← → choose, Enter edits or takes · {stop} goes back"

    def _lines(self) -> tuple[ResultLine, ...]:
        from boltend.shell.ladder_lines import ladder_lines

        book, climbs = self.desk.book, self._climbs
        press = f"Go to a given and press {key_of('ladder')}"
        hint = f"No ladder yet. {press}: it is worked out for several values, side by side."
        if book is None or climbs is None:
            return ()
        return ladder_lines(book, climbs.standing, self.pane.lines_width, hint)

    def _ladder_chosen(self) -> tuple[int, int | None] | None:
        """The ladder and the rung that the chosen line leads to."""
        from boltend.shell.ladder_table import target

        leads_to = self.pane.lines.leads_to
        return target(leads_to) if leads_to is not None else None

    def _choose_ladder(self, ladder: int, rung: int | None = None, *, scroll: bool = False) -> None:
        from boltend.shell.ladder_table import leads_to

        lines = self.pane.lines
        at = lines.choose(leads_to(ladder, rung))
        if at is not None and scroll:
            lines.scroll_to(y=max(0, at - 1), animate=False, force=True)

    def _standing(self) -> "Standing | None":
        """The chosen ladder."""
        at, climbs = self._ladder_chosen() if self.list_in_sight == LADDERS else None, self._climbs
        return climbs.standing[at[0]] if at is not None and climbs and at[0] < len(climbs.standing) else None

    # Made, edited, removed ------------------------------------------------------------------------

    def action_ladder(self) -> None:
        """Ask for the values of a ladder of the focused given."""
        spot = self._spot_here()
        if spot is None:
            self.tell(
                f"Go to a given first: {key_of('ladder')} works the project out for several values of it."
            )
        else:
            self._ask_ladder(spot, None)

    def _spot_here(self) -> "Spot | None":
        place, tab = self.place, self.tab
        return self.spot_at(tab.key, place) if place is not None and tab is not None else None

    def spot_at(self, tab: int, place: Place) -> "Spot | None":
        """The given, or the cell, at a place of the tab in sight."""
        from boltend.core.asking import Spot

        spec = self.spec_at(place)
        if spec is None or spec.kind == "rows":
            return None
        return Spot(tab, spec, place.given if place.column else "", place.row)

    def _ask_ladder(self, spot: "Spot", row: "LadderRow | None") -> None:
        from boltend.shell.ladder_dialog import LadderDialog

        assert self.desk.book is not None  # nothing is in sight before
        taken = [each.name for each in self.desk.project.ladders if each is not row and each.name]

        def wrong(name: str) -> str:
            try:
                checked_name(name, taken, "ladder")
            except EditRefused as error:
                return str(error)
            return ""

        dialog = LadderDialog(self.desk.book, spot, row, wrong)
        if row is None:
            first, *others = dialog.lines[::-1]
            dialog.lines = [*others[::-1], first._replace(text=free_name(first.text, taken))]
        self.app.push_screen(dialog, partial(self._keep_ladder, None if row is None else row.key))

    def _keep_ladder(self, key: int | None, data: "dict[str, Any] | None") -> None:
        if data is None:
            return
        if key is None:
            made = self.edit(lambda p: add_ladder(p, data), f"the ladder {data['name']}")
        else:
            made = self.edit(lambda p: change_ladder(p, key, data), f"the ladder {data['name']}")
        if not made:
            return
        rows = self.desk.project.ladders
        self._new_ladder = key if key is not None else rows[-1].key
        if self.list_in_sight != LADDERS:
            self._turn_to(LADDERS)
        number = next(n for n, row in enumerate(rows) if row.key == self._new_ladder)
        self._choose_ladder(number, scroll=True)

    def action_edit_ladder(self) -> None:
        """Change what the chosen ladder runs through, takes, and is called."""
        each, book = self._standing(), self.desk.book
        if each is None or book is None:
            self._tell_none()
            return
        from boltend.core.asking import AskError
        from boltend.core.asking.spots import spot_of, tab_of

        try:
            spot = spot_of(book, tab_of(book, each.row.tab), each.row.given)
        except AskError as error:
            self.tell(f"It cannot be edited here: {error}", bad=True)
            return
        self._ask_ladder(spot, each.row)

    def action_remove_ladder(self) -> None:
        """Take the chosen ladder out of the project."""
        each = self._standing()
        if each is None:
            self._tell_none()
            return
        key, name = each.row.key, each.row.name
        if self.edit(lambda p: remove_ladder(p, key), f"removing the ladder {name}"):
            self.tell(f"Removed: {name}. {key_of('undo')} brings it back.")

    def action_use_rung(self) -> None:
        """Put the chosen value into the given."""
        at, each = self._ladder_chosen(), self._standing()
        if at is None or each is None or each.ladder is None or at[1] is None:
            self.tell("Choose a value first: ↑ ↓ ← →.")
            return
        self.put_value(each.ladder.spot, each.ladder.values[at[1]])

    def put_value(self, spot: "Spot", raw: Any) -> None:
        """Put a value that was found on trial into its given."""
        tab = self.desk.project.find_tab(spot.tab)
        if tab is None:
            return
        words = f"{spot.label} of “{tab.name}”"
        if self.edit(lambda p: spot.put(p, raw), f"{spot.label} in {tab.name}"):
            self.tell(f"{words} is {shown(str(raw))} now; {key_of('undo')} takes it back")

    def _tell_none(self) -> None:
        self.tell(f"Choose a ladder first: {key_of('ladders')}, then ↑ ↓.")

    def on_results_tab_asked(self, event: Results.TabAsked) -> None:
        """Enter or a click on a line: of a ladder its dialog, of a rung what can be done with its value."""
        if self.list_in_sight != LADDERS:
            return
        event.prevent_default()  # it leads to no tab
        from boltend.shell.ladder_table import target

        ladder, rung = target(event.key)
        self._choose_ladder(ladder, rung)
        if rung is None:
            self.action_edit_ladder()
            return
        each = self._standing()
        if each is None or each.ladder is None:
            return
        value = shown(str(each.ladder.values[rung]))
        offers = [
            Offer("use", f"Put {value} into {each.ladder.spot.label}", "", find="value"),
            Offer("edit", "Edit or rename this ladder"),
            Offer("remove", "Remove this ladder"),
        ]
        does = {
            "use": self.action_use_rung,
            "edit": self.action_edit_ladder,
            "remove": self.action_remove_ladder,
        }
        self.app.push_screen(Choose(each.row.name, offers), lambda what: does[what]() if what else None)
