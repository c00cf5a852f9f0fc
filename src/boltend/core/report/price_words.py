"""What would give a price to what To buy has none for: which tab takes it, and where a fabric is chosen."""

from collections.abc import Iterator

from boltend.core.pool import FabricPlan, GoodsLine

MOST = 3
"""Names in one sentence."""


def no_price_of_goods(line: GoodsLine) -> Iterator[str]:
    """Who takes the price of goods that have none."""
    if line.goods.price_each is None and line.goods.price_given:
        tabs = [f"“{tab}”" for tab in line.tabs]
        tab_takes = "the tab {} takes" if len(tabs) == 1 else "the tabs {} take"
        yield f"no price yet: {tab_takes.format(_some(tabs, 'and'))} its price"


def no_fabric(fabric: FabricPlan) -> Iterator[str]:
    """Where the fabric of a heap without one is chosen: only a fabric has a price."""
    if fabric.named or not fabric.chosen_as:
        return
    givens = [f"“{label}”" for label in fabric.chosen_as]
    yield f"no price, for no fabric is chosen: choose it in the tab, as its {_some(givens, 'or')}"


def _some(names: list[str], last: str) -> str:
    """`“A”, “B” or “C”`, the first few."""
    if len(names) > MOST:
        return f"{', '.join(names[:MOST])}, …"
    return f" {last} ".join([*([", ".join(names[:-1])] if names[1:] else []), names[-1]])
