"""What goes to To cut for framed squares: the centres, and the strips of each round."""

from fractions import Fraction

from boltend.plugin import Line, Piece, Run, Settings, cut, line
from boltend_block_units.framed_rounds import Frame


def parts(
    frame: Frame,
    squares: int,
    spare: Fraction | None,
    centre_fabric: str | None,
    setting: Settings,
    trim: Fraction,
) -> tuple[list[Piece], list[Run]]:
    """Pieces and runs for so many squares.

    Without `spare` every strip is cut to size; with it each is so much longer, off strips from selvage to
    selvage and in one piece, to be trimmed once it is sewn. `trim`: the raw side of the whole once trimmed.
    """
    later: Line | str = ""
    if frame.sewn != trim:
        later = line("trim each framed square to {} × {}", cut(trim), cut(trim))
    pieces = [Piece("centre square", frame.centre.cut, frame.centre.cut, squares, centre_fabric, later=later)]
    runs: list[Run] = []
    for each in frame.rounds:
        if spare is None:
            for name, long in (("side", each.side.cut), ("end", each.end.cut)):
                pieces.append(
                    Piece(f"{each.name}, {name}", long, each.strip.cut, 2 * squares, each.fabric, later=later)
                )
        else:
            wants = tuple(setting.cut_up(size.exact + spare) for size in (each.side, each.end))
            runs.append(
                Run(
                    each.name,
                    each.strip.cut,
                    wants * (2 * squares),
                    join="none",
                    fabric=each.fabric,
                    later=later,
                )
            )
    return pieces, runs
