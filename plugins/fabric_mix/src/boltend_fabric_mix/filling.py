"""Filling blocks with fabrics, whoever may meet whom: by greed, and then by exchanges where greed got stuck.

It finds a mix or does not; that a number of blocks or uses is the best possible is proved elsewhere.
"""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from boltend_fabric_mix.effort import Effort, Spent, Stopped
from boltend_fabric_mix.meets import Block, Meets, some_block

MOST_TURNS = 300_000
"""Steps that filling blocks one by one may take; beyond them several alike are filled at a time."""

MOST_TRIES = 50
"""Blocks that greed left unfilled for which another choice is sought."""

MOST_LOOKS = 300_000
"""Blocks that all exchanges together may look at: about 0.3 s."""


@dataclass(frozen=True)
class Filled:
    """Full blocks, and how many were wanted."""

    blocks: dict[Block, int]
    wanted: int

    @property
    def whole(self) -> bool:
        """Whether all that were wanted are full."""
        return sum(self.blocks.values()) == self.wanted


def filled(
    meets: Meets,
    cuts: Sequence[int],
    groups: Sequence[Sequence[int]],
    size: int,
    wanted: int,
    effort: Effort,
) -> Filled:
    """As many full blocks as this finds, up to those wanted, with no fabric used beyond its cuts.

    No two fabrics of a group may meet. Where they may meet all others, and the cuts are those of `even_uses`,
    it finds them all: a group with as many cuts left as there are blocks left is put into the next one.
    """
    filling = _Filling(meets, cuts, groups, size, effort)
    at_once = 1 + wanted * size * len(cuts) // MOST_TURNS
    while filling.blocks < wanted:
        filling.begin(wanted - filling.blocks, at_once)
    filling.repair()
    filling.redo()
    effort.left -= min(filling.looks, effort.left)  # what is found is used, even where it took the last unit
    return Filled({b: n for b, n in filling.made.items() if len(b) == size}, wanted)


class _Filling:
    """Blocks under way, full or not, and the cuts that are left of each fabric and group."""

    def __init__(
        self,
        meets: Meets,
        cuts: Sequence[int],
        groups: Sequence[Sequence[int]],
        size: int,
        effort: Effort,
    ) -> None:
        self.meets, self.size, self.effort = meets, size, effort
        self.tries = MOST_TRIES
        self.left = list(cuts)
        self.group = {i: g for g, members in enumerate(groups) for i in members}
        self.held = [sum(cuts[i] for i in members) for members in groups]
        self.met = [[0] * len(cuts) for _ in cuts]
        self.made: dict[Block, int] = {}
        self.blocks = 0
        self.looks = 0

    def begin(self, to_come: int, at_once: int) -> None:
        """Begin the next of the blocks to come, or a few alike."""
        block = self._greedy(to_come)
        if len(block) < self.size:
            block = self._sought() or self._again() or block
        taken = {self.group[i] for i in block}
        others = max((held for g, held in enumerate(self.held) if g not in taken), default=0)
        room = (
            to_come if others > to_come else max(1, to_come - others)
        )  # more than enough is held, or just enough
        most = min([at_once, room, *(max(1, self.left[i] // 2) for i in block)])
        self._lay(block, most)
        self.blocks += most
        for i in block:
            for j in block:
                self.met[i][j] += most

    def _greedy(self, to_come: int) -> Block:
        """The fullest group's fullest fabric first, of equals the one that met the others least so far."""
        taken: list[int] = []
        seen = [0] * len(self.left)
        among = [i for i, left in enumerate(self.left) if left]
        full = {i: -min(self.held[self.group[i]], to_come) for i in among}
        while among and len(taken) < self.size:
            i = min(among, key=lambda j: (full[j], -self.left[j], seen[j], j))
            taken.append(i)
            near = self.meets.near[i]
            among = [j for j in among if near >> j & 1]
            seen = [a + b for a, b in zip(seen, self.met[i], strict=True)]
        return tuple(sorted(taken))

    def _sought(self) -> Block | None:
        """A full block from a short search, a few times."""
        if not self.tries:
            return None
        self.tries -= 1
        among = [i for i, left in enumerate(self.left) if left]
        try:
            return some_block(self.meets, self.size, self.left, among, self.effort)
        except (Spent, Stopped):
            self.tries = 0  # greed goes on alone: some mix is better than none
            return None

    def _again(self) -> Block | None:
        """The full block of which most could be made once more."""
        again = [(min(self.left[i] for i in block), block) for block in self.made if len(block) == self.size]
        most, block = max(again, key=lambda each: (each[0], tuple(-i for i in each[1])), default=(0, ()))
        return block if most else None

    def repair(self) -> None:
        """Fill what is not full by exchanges, as long as one is found."""
        while self.looks < MOST_LOOKS and any(len(block) < self.size for block in self.made):
            if not self._exchange():
                return

    def redo(self) -> None:
        """Make what could not be filled anew, as one more of a block that is full."""
        for block in [block for block in self.made if len(block) < self.size]:
            while block in self.made:
                self._lay(block, -1)
                again = self._again()
                if again is None:
                    break
                self._lay(again, 1)

    def _lay(self, block: Block, count: int) -> None:
        """So many more of a block, and so many fewer cuts left."""
        self._change(block, count)
        for i in block:
            self.left[i] -= count
            self.held[self.group[i]] -= count

    def _exchange(self) -> bool:
        """Put one more fabric into a block that is not full, others making room for it in a chain."""
        came: dict[int, tuple[int, Block] | None] = {i: None for i, left in enumerate(self.left) if left}
        waiting = deque(sorted(came, key=lambda i: (-self.left[i], i)))
        masks = [(block, sum(1 << i for i in block)) for block in self.made]
        while waiting:
            i = waiting.popleft()
            used = self._blocks_to(i, came)
            bit, near = 1 << i, self.meets.near[i]
            self.looks += len(masks)
            for block, mask in masks:
                if mask & bit or (block in used and self.made[block] <= used.count(block)):
                    continue
                against = mask & ~near
                if not against and len(block) < self.size:
                    self._carry(i, block, came)
                    return True
                if against and against & (against - 1):
                    continue  # two or more would have to make room
                for j in block if not against else (against.bit_length() - 1,):
                    if j not in came:
                        came[j] = i, block
                        waiting.append(j)
        return False

    def _blocks_to(self, i: int, came: dict[int, tuple[int, Block] | None]) -> list[Block]:
        """The blocks that a chain has changed up to a fabric."""
        blocks = []
        while (step := came[i]) is not None:
            blocks.append(step[1])
            i = step[0]
        return blocks

    def _carry(self, i: int, block: Block, came: dict[int, tuple[int, Block] | None]) -> None:
        """Carry a chain out, from its end: the last fabric goes into the block that had room."""
        self._change(block, -1)
        self._change(tuple(sorted((*block, i))), 1)
        while (step := came[i]) is not None:
            before, changed = step
            self._change(changed, -1)
            self._change(tuple(sorted((*(j for j in changed if j != i), before))), 1)
            i = before
        self.left[i] -= 1

    def _change(self, block: Block, count: int) -> None:
        self.made[block] = self.made.get(block, 0) + count
        if not self.made[block]:
            del self.made[block]
