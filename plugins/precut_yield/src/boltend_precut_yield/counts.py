"""From what a precut gives to what so many give, and how many are needed."""

from dataclasses import dataclass

from boltend.plugin import Line, ceil_div, line, stacks_of


@dataclass(frozen=True, slots=True)
class Counts:
    """How many are made, needed and left; `needed` and `spare` are None where nothing is wanted.

    `cuts` are the precuts that are cut.
    """

    made: int
    needed: int | None
    spare: int | None
    cuts: int
    stacks: int
    working: tuple[Line, ...]
    cautions: tuple[Line, ...]


def counts(
    each: int, wanted: int | None, in_hand: int | None, layers: int, what: str, together: int = 1
) -> Counts:
    """Count with `each` (above zero) out of `together` precuts; `what` names what is made.

    All precuts in hand count as made; cut are those needed, or those in hand where nothing is wanted; of
    those in hand only as many as make whole sets. Precuts cut alike are stacked: sixteen in layers of eight
    are two stacks (common practice, no source).
    """
    needed = None if wanted is None else ceil_div(wanted, each) * together
    cuts = together if needed is None else needed
    if in_hand is not None:
        whole = in_hand // together * together
        cuts = whole if needed is None else min(needed, whole)
    made = each * ((cuts if in_hand is None else in_hand) // together)
    stacks = together * stacks_of(cuts // together, layers)
    out_of = "precut" if together == 1 else f"{together} precuts"
    working = [line("{} from each {}: {} {} in all.", each, out_of, made, what)]
    cautions = []
    if wanted is None:
        cautions.append(line("How many precuts are needed is told once the {} wanted are given.", what))
    else:
        working.append(line("{} {} wanted: {} precuts.", wanted, what, needed))
        if made < wanted:
            said = "The precuts in hand make {} {}, {} short of the {} wanted."
            cautions.append(line(said, made, what, wanted - made, wanted))
    working.append(line("{} precuts in layers of at most {}: {} stacks.", cuts, layers, stacks))
    spare = None if wanted is None else max(made - wanted, 0)
    return Counts(made, needed, spare, cuts, stacks, tuple(working), tuple(cautions))
