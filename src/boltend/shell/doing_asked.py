"""What a typed question says of the tabs that it makes: their givens, and the price of what they buy."""

from collections.abc import Collection
from typing import TYPE_CHECKING

from boltend.core.values import Notation
from boltend.shell.view import View

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.shell.start_numbers import Tabs, Taken


class AskedView(View):
    """A view in which a typed question is put into tabs."""

    def taken(self, typed: str, tabs: "Tabs") -> "Taken":
        """What a typed question says of the givens of tabs that are to be made."""
        from boltend.shell.start_numbers import taken

        bench, book = self.desk.bench, self.desk.book
        if bench is None or book is None:
            return taken("", tabs, {}, lambda name: None, Notation())
        return taken(typed, tabs, bench.specs, bench.table, book.basis.how)

    def priced(self, taken: "Taken", names: Collection[str], label: str, one_edit: object) -> "Taken":
        """The price that was typed goes to all that the tabs buy by the yard; what was made of it is told."""
        from boltend.core.report.price_places import with_prices, wrong_price
        from boltend.shell.start_prices import unpriced

        price, book = taken.price, self.desk.book
        if price is None or book is None:
            return taken
        tabs = [tab for tab in self.desk.project.tabs if tab.name in names]
        places = [each for each in unpriced(tabs, book) if not wrong_price(each, price.text, book)]
        if not places:
            return taken._replace(left=(*taken.left, price.words))
        self.edit(lambda _: with_prices(places, price.text, book), label, one_edit)
        what = ", ".join(place.fabric for place in places)
        return taken._replace(said=(*taken.said, (f"price {price.words}:", f"for {what}")))
