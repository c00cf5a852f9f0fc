"""One pool of fabric: what to cut, what to buy, from what is in hand."""

from boltend.core.pool.pool import FabricPlan, GoodsLine, Lists, Pool

__all__ = ["FabricPlan", "GoodsLine", "Lists", "Pool"]
