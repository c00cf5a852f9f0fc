"""From a bed to all that its quilt takes."""

from boltend.plugin import Start


def _linked(tab: str, **takes: str) -> dict[str, object]:
    return {given: {"from": tab, "take": take} for given, take in takes.items()}


def _for_a_bed(question: str, top: str, grid: dict[str, object], block: dict[str, object]) -> Start:
    size = _linked("Borders", width="width", height="height")
    border: dict[str, object] = {
        "name": "border", "fabric": "Border",
        **_linked("Blocks", width="border_sides", width_ends="border_ends")
    }  # fmt: skip
    # A border of nothing would leave the tab of borders without an answer, so the narrowest is 1 in here.
    wanted = {**_linked("Bed", target_width="width", target_height="height"), "border_least": "1 in"}
    return Start(
        question=question,
        tabs=(
            ("Bed", "bed_size", {}),
            ("Blocks", "grid_for_size", {**wanted, **grid}),
            ("Top", top, {**block, **_linked("Blocks", across="across", down="down")}),
            ("Borders", "borders", {
                **_linked("Top", top_width="width", top_height="height"), "borders": [border]
            }),
            ("Binding", "binding", {**size, "fabric": "Binding"}),
            ("Backing", "backing", {**size, "fabric": "Backing"}),
            ("Batting", "batting", dict(size)),
        ),
    )  # fmt: skip


FOR_A_BED = _for_a_bed(
    "How many of my blocks cover this bed, and what for borders, binding and backing?",
    "straight_set",
    {},
    _linked("Blocks", block_width="block_width", block_height="block_height"),
)
"""The person chooses the bed, and types its drop and, in “Blocks”, the block."""

FOR_A_BED_ON_POINT = _for_a_bed(
    "How many of my blocks on point cover this bed, and what for all the rest?",
    "on_point",
    {"blocks_set": "on point"},
    _linked("Blocks", block="block_width"),
)
"""The same with the blocks on point."""
