"""A price said where To buy lacks it: one step, and undo takes all of it back."""

from typing import TYPE_CHECKING

from boltend.shell.actions import key_of
from boltend.shell.dialogs import AskText
from boltend.shell.doing_lists import ListView
from boltend.shell.result_lines import PRICE_ASKED
from boltend.shell.results import Results
from boltend.shell.texts import shown

if TYPE_CHECKING:  # no part of the first paint
    from boltend.core.report.list_words import BuyRow


class PriceView(ListView):
    """A view in which a line of To buy gets its price."""

    def on_results_tab_asked(self, event: Results.TabAsked) -> None:
        """Enter or a click on the line of the price."""
        if self._why is not None and event.key == PRICE_ASKED:
            event.prevent_default()  # it leads to no tab
            self._ask_price(self._why)

    def _ask_price(self, row: "BuyRow") -> None:
        from boltend.core.report.price_places import open_places, with_price, wrong_price

        place, book = row.priced, self.desk.book
        if place is None or book is None:
            return
        body = ""
        if place.open and (tab := book.project.find_tab(place.tabs[0])) is not None:
            labels = dict.fromkeys(f"“{each.label}”" for each in open_places(tab, book))
            body = f"A fabric of that name is made, and chosen in the tab as {' and '.join(labels)}."
        what = shown(place.fabric or row.what)

        def priced(text: str | None) -> None:
            if text is None:
                return
            self.leave_why()
            if self.edit(lambda _: with_price(place, text.strip(), book), f"the price of {what}"):
                self.tell(f"{what}: priced; {key_of('undo')} takes it back")

        ask = AskText(
            f"Price of {what}, {place.per}", row.price, lambda text: wrong_price(place, text, book), body=body
        )
        self.app.push_screen(ask, priced)
