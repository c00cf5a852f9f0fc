"""What is short, and what cannot be done at all, in words."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Cannot, Line, line
from boltend_fabric_mix.asked import Asked
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.names import contrast, counted, named, pairs_said
from boltend_fabric_mix.short import Short, proved_by
from boltend_fabric_mix.way_out import contrast_for_one, most_together


def short_lines(asked: Asked, mix: Mix, short: Short | None) -> list[Line]:
    """Why there are no more blocks."""
    wanted = asked.task.wanted
    if mix.proved:
        lines = [line("Only {} of {}: no more can be made.", mix.made, counted(wanted, "block"))]
    else:
        lines = [line("{} of {} were found; more than {} cannot be made, and whether so many can is not "
                      "proved.", mix.made, counted(wanted, "block"), mix.at_most)]  # fmt: skip
    if short is None or short.blocks >= wanted:
        return lines
    lines += _reason(asked, short)
    if mix.proved and not proved_by(short, mix):
        said = "That alone would allow {}; an integer program shows that whole blocks give no more than {}."
        lines.append(line(said, short.blocks, mix.made))
    return lines


def _reason(asked: Asked, short: Short) -> list[Line]:
    names, apart, wanted = asked.cloths.names, asked.cloths.apart, asked.task.wanted
    more = short.need * wanted - short.held
    which = [names[i] for i in short.points]
    if short.plain:
        of = named(which) if len(which) == 1 else f"at least {short.need} of {named(which)}"
        said = "Every block takes {}, and there are {} in all: enough for {}."
        lines = [line(said, of, counted(short.held, "such cut"), counted(short.blocks, "block"))]
    else:
        points = ", ".join(f"{names[i]} {n}" for i, n in short.points.items())
        said = "Cuts count points: {}. Every block takes at least {} points, and there are {}: enough for {}."
        lines = [line(said, points, short.need, short.held, counted(short.blocks, "block"))]
    lines += _because(asked, short, apart)
    things = "of these cuts" if short.plain else "points"
    said = "For {} there would have to be at least {} more {}."
    return [*lines, line(said, counted(wanted, "block"), more, things)]


def _because(asked: Asked, short: Short, apart: Sequence[Sequence[Fraction]] | None) -> list[Line]:
    names, size = asked.cloths.names, asked.task.size
    others = [name for i, name in enumerate(names) if i not in short.points]
    if short.pairs and apart is not None:
        return [line("That is so because these may not meet: {}.", pairs_said(short.pairs, names, apart))]
    if short.pairs is None:
        return [line("That is so because {} pairs of fabrics may not meet.", len(asked.task.meets.apart()))]
    if not others:
        return []
    are = "is" if len(others) == 1 else "are"
    said = "That is so because a block has {} different fabrics, and beside these there {} only {}."
    return [line(said, size, are, named(others))]


def too_few(count: int, size: int) -> Cannot:
    """There are not as many different fabrics as a block has."""
    have = "1 fabric has cuts" if count == 1 else f"{count} different fabrics have cuts"
    return Cannot(
        "fabrics",
        f"{have}, and a block takes {size}.",
        f"Add {counted(size - count, 'fabric')}, or take fewer in a block.",
    )


def none_go_together(asked: Asked, mix: Mix) -> Cannot:
    """No block at all: how many fabrics do go together, and at which contrast so many would."""
    size, apart, names = asked.task.size, asked.cloths.apart, asked.cloths.names
    if mix.at_most:
        why = f"no {size} fabrics that differ by {contrast(asked.least)} were found; there may be some."
        return Cannot("contrast_least", why, "Lower the least contrast, or take fewer fabrics in a block.")
    why = f"no {size} of these fabrics differ by {contrast(asked.least)} from one another."
    together = most_together(asked.task.meets, size)
    if together is not None and len(together) > 1:
        why += f" At most {len(together)} do, as {named([names[i] for i in together])}."
    instead = contrast_for_one(apart, size) if apart is not None else None
    way_out = "Lower the least contrast, or take fewer fabrics in a block."
    if instead is not None:
        way_out = f"With a least contrast of {contrast(instead)} there are {size}; or take fewer in a block."
    return Cannot("contrast_least", why, way_out)
