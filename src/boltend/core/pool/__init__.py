"""One pool of fabric: what to cut, what to buy, from what is in hand."""

from boltend.core.pool.buying import GoodsLine
from boltend.core.pool.pool import FabricPlan, Lists, Pool
from boltend.core.pool.snapshot import Snapshot, snapshot_of

__all__ = ["FabricPlan", "GoodsLine", "Lists", "Pool", "Snapshot", "snapshot_of"]
