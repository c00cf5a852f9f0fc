"""What can be done with tabs: added, renamed, duplicated, moved, removed, put aside, done."""

from collections.abc import Callable, Container, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING

from textual import on

from boltend.core.contract import CalculatorSpec, Start
from boltend.core.project.edits import (
    RESERVED,
    add_tab,
    checked_name,
    duplicate_tab,
    move_tab,
    remove_tab,
    rename_tab,
    set_given,
    set_tab_flag,
)
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project, Tab
from boltend.core.project.plain import free_name
from boltend.core.project.problems import EditRefused
from boltend.shell.actions import key_of
from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.doing_asked import AskedView
from boltend.shell.head import Head
from boltend.shell.start_place import first_open, is_wanting
from boltend.shell.tab_bar import TabBar

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.shell.link_offers import LinkTo
    from boltend.shell.start_numbers import Taken
    from boltend.shell.start_offers import Do

Begin = tuple[Start | CalculatorSpec, str]
"""A question that a project begins with, and what was typed to find it."""

MOST_BELOW = 54
"""Letters of a name and its founds that fit a line of the list at 80 columns."""


class TabView(AskedView):
    """A view whose tabs can be changed."""

    def action_next_tab(self) -> None:
        """To the right, round the end."""
        self._step(1)

    def action_previous_tab(self) -> None:
        """To the left, round the end."""
        self._step(-1)

    def _step(self, by: int) -> None:
        keys = [tab.key for tab in self.desk.project.tabs]
        if self.current in keys:
            self.show_tab(keys[(keys.index(self.current) + by) % len(keys)])

    # Adding ---------------------------------------------------------------------------------------

    @on(TabBar.AddAsked)
    def _add_asked(self) -> None:
        self.action_add_tab()

    def action_add_tab(self) -> None:
        """Choose a calculator by what it answers, then a name."""
        from boltend.shell.start_offers import Do, list_lines, of_one, searched, start_lines

        if self.desk.bench is None:
            return
        offers: list[Offer[CalculatorSpec | Start | Do]] = [
            Offer(
                spec,
                spec.asks or spec.name,
                below=f"{spec.name} · finds {_founds(spec)}",
                find=searched(spec),
            )
            for spec in self.desk.bench.specs.values()
        ]
        offers += [
            Offer(
                start, start.question, find=line.find,
                below=("several tabs: " if len(start.tabs) > 1 else "one tab: ")
                + ", ".join(name for name, _, _ in start.tabs),
            )
            for start, line in zip(self.desk.bench.starts, start_lines(self.desk.bench), strict=True)
            if not of_one(start)
        ]  # fmt: skip
        offers += [
            Offer(line.pick, line.words, below=line.about, find=line.find)
            for line in list_lines()
            if isinstance(line.pick, Do)
        ]
        choose = Choose("What do you want to know?", offers, filtered=True)
        self.app.push_screen(choose, lambda what: self._chosen(what, choose.typed))

    def _chosen(self, what: "CalculatorSpec | Start | Do | None", typed: str = "") -> None:
        from boltend.shell.start_offers import Do

        if isinstance(what, Do):
            self.run_named(what.action)
        elif what is not None:
            self.begin_with(what, typed)

    def begin_with(self, what: Start | CalculatorSpec, typed: str = "") -> None:
        """The tabs of a question, or one tab; the numbers that were typed to find it go where they belong."""
        if isinstance(what, Start):
            self._begin(what, typed)
        else:
            self.add_named(what, typed)

    def add_named(self, spec: CalculatorSpec, typed: str = "") -> None:
        """A tab under the calculator's own name: what is typed next belongs to its first given.

        No name is asked for, which would take what somebody in a hurry types for the given.
        """
        name = free_name(spec.name.replace("_", " ").capitalize(), self._names())
        at = self._at() + 1 if self.tab is not None else None
        taken = self.taken(typed, [(name, spec.name, {})])
        givens = taken.givens[0]
        label, one_edit = f"adding {name}", object()
        if not self.edit(lambda p: add_tab(p, name, spec.name, givens, at=at), label, one_edit):
            return
        key = self.desk.project.tab(name).key
        links = self._sure_links(key, spec)
        for given, (other, found) in links.items():
            link = {"from": other, "take": found}
            self.edit(partial(set_given, key=key, given=given, raw=link), label, one_edit)
        taken = self.priced(taken, [name], label, one_edit)
        self.show_begun(key, givens)
        words = f"{said_words(taken)}Added “{name}”. {key_of('rename_tab')} gives it a name of yours."
        if links:
            linked = ", ".join(
                f"{spec.by_name[given].label} to “{other}”" for given, (other, _) in links.items()
            )
            words += f" Linked: {linked}; {key_of('unlink')} unlinks."
        self.tell(words.strip())

    def _sure_links(self, key: int, spec: CalculatorSpec) -> "dict[str, LinkTo]":
        """What a new tab must be told and a tab before it finds under the same name: nobody means another."""
        from boltend.shell.link_offers import sure_link

        book, tab = self.desk.book, self.desk.project.find_tab(key)
        if book is None or tab is None:
            return {}
        free = [given for given in spec.givens if given.name not in tab.given]
        found = {g.name: sure_link(book, tab, g) for g in free if g.required or g.takes}
        links = {name: link for name, link in found.items() if link is not None}
        # What may be left out says more of the same thing: the height beside a width that is linked.
        sources = {link[0] for name, link in links.items() if spec.by_name[name].required}
        return {n: link for n, link in links.items() if spec.by_name[n].required or link[0] in sources}

    def show_begun(self, key: int, said: Container[str] = ()) -> None:
        """A tab that was just made: the first given that is wanting has the focus."""
        book = self.desk.book
        self.show_tab(key, first_open(book.prepared(key), said) if book is not None else None)

    def _begin(self, start: Start, typed: str = "") -> None:
        """All tabs of a question, under free names, with their links carried over to those.

        `typed`: what was typed to find it; the numbers that it says are put where they belong.
        """
        from boltend.shell.start_offers import fabrics_of
        from boltend.shell.start_without import without

        specs = self.desk.bench.specs if self.desk.bench is not None else {}
        start, not_heard = without(start, typed, specs)
        names: dict[str, str] = {}
        others = self._names()
        for name, _, _ in start.tabs:
            names[name] = free_name(name, [*others, *names.values()])

        taken = self.taken(typed, start.tabs)
        if not_heard:
            taken = taken._replace(left=(*taken.left, not_heard))
        tabs = [
            (name, calculator, {**givens, **said})
            for (name, calculator, givens), said in zip(start.tabs, taken.givens, strict=True)
        ]
        fabrics = fabrics_of(tabs, specs, self.desk.project)

        def make(project: Project) -> Project:
            for name in fabrics:
                project = add_fabric(project, name)
            for name, calculator, givens in tabs:
                linked = {k: carried(v, names) for k, v in givens.items()}
                project = add_tab(project, names[name], calculator, linked)
            return project

        label, one_edit = "adding " + ", ".join(names.values()), object()
        if self.edit(make, label, one_edit):
            taken = self.priced(taken, list(names.values()), label, one_edit)
            made = [self.desk.project.tab(name) for name in names.values()]
            at = self._first_wanting(made) if taken.said else 0
            self.show_begun(made[at].key, taken.givens[at])
            few = not taken.said and not taken.left
            priced = ", ".join(f"“{name}”" for name in fabrics) if few else "the fabrics"
            has_price = taken.price is not None and taken.price.words not in taken.left
            price = "" if has_price else f"price of {priced}, and "
            more = f"{key_of('fabrics')}: {price}the yardage that a pattern prints."
            words = said_words(taken) + question_words(start, specs)
            lines = (words, self._came_to(made), more if fabrics else "")
            if any(lines):
                self.tell("\n".join(filter(None, lines)).strip())

    def _first_wanting(self, made: Sequence[Tab]) -> int:
        """Which of the tabs of a question is the first that the person must still tell something; else 0."""
        book = self.desk.book
        ready = [book.prepared(tab.key) if book is not None else None for tab in made]
        return next((n for n, each in enumerate(ready) if each is not None and is_wanting(each)), 0)

    def _came_to(self, made: Sequence[Tab]) -> str:
        """The quilt that several tabs of a question come to, and where to go on; nothing while one waits."""
        from boltend.core.report.quilt_size import quilt_of, size_words

        book = self.desk.book
        if book is None or len(made) < 2 or any(book.results[t.key].state != "worked out" for t in made):
            return ""
        quilt = quilt_of(book, made)
        goes = f"{key_of('next_tab')} next tab, {key_of('to_buy')} what to buy"
        return f"Quilt: {size_words(book, quilt)} · {goes}" if quilt is not None else ""

    # Changing -------------------------------------------------------------------------------------

    def action_rename_tab(self) -> None:
        """Another name, carried into every link."""
        tab = self.tab
        if tab is not None:
            ask = AskText("Rename the tab", tab.name, self._wrong_name(tab), body="Links to it follow.")
            self.app.push_screen(ask, lambda name: self._rename(tab, name))

    def _rename(self, tab: Tab, name: str | None) -> None:
        if name is not None:
            self.edit(lambda p: rename_tab(p, tab.key, name), f"renaming {tab.name}")

    def _wrong_name(self, but: Tab | None = None) -> Callable[[str], str]:
        others = self._names(but)

        def wrong(name: str) -> str:
            try:
                checked_name(name, others, "tab")
            except EditRefused as error:
                return str(error)
            return ""

        return wrong

    def _names(self, but: Tab | None = None) -> list[str]:
        return [RESERVED, *(t.name for t in self.desk.project.tabs if t.name and t is not but)]

    def action_duplicate_tab(self) -> None:
        """A copy beside it."""
        tab = self.tab
        if tab is not None and self.edit(lambda p: duplicate_tab(p, tab.key), f"duplicating {tab.name}"):
            self.show_tab(self.desk.project.tabs[self._at(tab.key) + 1].key)

    def action_move_left(self) -> None:
        """One place to the left."""
        self._move(-1)

    def action_move_right(self) -> None:
        """One place to the right."""
        self._move(1)

    def _move(self, by: int) -> None:
        tab = self.tab
        if tab is not None:
            self.edit(lambda p: move_tab(p, tab.key, self._at() + by), f"moving {tab.name}")

    def _at(self, key: int | None = None) -> int:
        wanted = self.current if key is None else key
        return next(i for i, tab in enumerate(self.desk.project.tabs) if tab.key == wanted)

    def action_remove_tab(self) -> None:
        """Take it out; where others take from it, say which, and ask."""
        tab = self.tab
        if tab is None:
            return
        users = self._users(tab)
        if not users:
            self._remove(tab, True)
            return
        body = "These tabs take from it, and would wait:\n" + "\n".join(f"  {line}" for line in users[:8])
        offers = [Offer(False, "Keep it"), Offer(True, "Remove it", "undo brings it back, links and all")]
        self.app.push_screen(
            Choose(f"Remove “{tab.name}”?", offers, body=body), lambda yes: self._remove(tab, yes)
        )

    def _users(self, tab: Tab) -> list[str]:
        book = self.desk.book
        result = book.results.get(tab.key) if book is not None else None
        if book is None or result is None or result.spec is None:
            return []
        return [
            f"“{book.project.tab(key).name}” · {given} from {found.label}"
            for found in result.spec.founds
            for key, given in book.users(tab.key, found.name)
        ]

    def _remove(self, tab: Tab, yes: bool | None) -> None:
        if not yes or self.desk.project.find_tab(tab.key) is None:
            return
        keys = [t.key for t in self.desk.project.tabs]
        at = keys.index(tab.key)
        after = keys[at + 1] if at + 1 < len(keys) else keys[at - 1] if at else None
        if self.edit(lambda p: remove_tab(p, tab.key), f"removing {tab.name}"):
            self.show_tab(after)
            self.tell(f"Removed “{tab.name}”. {key_of('undo')} brings it back.")

    def action_aside(self) -> None:
        """A what-if, or no longer."""
        tab = self.tab
        if tab is not None:
            words = f"{tab.name} no longer aside" if tab.aside else f"{tab.name} aside"
            self.edit(lambda p: set_tab_flag(p, tab.key, "aside", not tab.aside), words)

    def action_done(self) -> None:
        """Sewn, or not yet."""
        tab = self.tab
        if tab is not None:
            words = f"{tab.name} not done" if tab.done else f"{tab.name} done"
            self.edit(lambda p: set_tab_flag(p, tab.key, "done", not tab.done), words)

    @on(Head.MenuAsked)
    def _menu_asked(self) -> None:
        self.run_named("menu")

    def run_named(self, name: str) -> None:
        """Do an action by its name."""
        method: Callable[[], None] = getattr(self, f"action_{name}")
        method()


def _founds(spec: CalculatorSpec) -> str:
    """The first founds, as many as stand in one line of the list beside the calculator's name."""
    labels = [found.label.lower() for found in spec.founds]
    fit = max((n for n in (1, 2, 3) if len(spec.name) + len(", ".join(labels[:n])) <= MOST_BELOW), default=1)
    return ", ".join(labels[:fit]) + (" …" if len(labels) > fit else "")


def said_words(taken: "Taken") -> str:
    """What was taken from a typed question, and what was not; or nothing."""
    said = "; ".join(f"{label} {text}" for label, text in taken.said)
    words = f"From your question: {said}. " if said else ""
    return f"{words}\n! Not used: {', '.join(taken.left)}. " if taken.left else words


def question_words(start: Start, specs: Mapping[str, CalculatorSpec]) -> str:
    """What a question sets by itself where the calculator would take something else: it is worked with."""
    said = [
        f"{spec.by_name[name].label} {value}"
        for _, calculator, givens in start.tabs
        if (spec := specs.get(calculator)) is not None
        for name, value in givens.items()
        if isinstance(value, str) and name in spec.by_name and spec.by_name[name].kind != "fabric"
    ]
    return f"The question sets: {'; '.join(said)}. " if said else ""


def carried(value: object, names: dict[str, str]) -> object:
    """A given of a start, with the tab that a link names under its new name."""
    if isinstance(value, list):
        return [carried(row, names) for row in value]
    if isinstance(value, dict) and "from" in value:
        return {**value, "from": names.get(str(value["from"]), value["from"])}
    if isinstance(value, dict):  # a row, of which each cell may be a link
        return {column: carried(cell, names) for column, cell in value.items()}
    return value
