"""Pictures in the cells of a terminal: quilts and units from shapes, cloth from cutting plans."""

from boltend.core.drawing.cells import draw, patterns
from boltend.core.drawing.cut_pictures import CutPicture, cut_pictures, draw_cut
from boltend.core.drawing.framing import Mark
from boltend.core.drawing.hatches import legend, legend_entries
from boltend.core.drawing.picture import Kind, Picture, Run, Show, Sign
from boltend.core.drawing.widths import cells_of

__all__ = [
    "CutPicture",
    "Kind",
    "Mark",
    "Picture",
    "Run",
    "Show",
    "Sign",
    "cells_of",
    "cut_pictures",
    "draw",
    "draw_cut",
    "legend",
    "legend_entries",
    "patterns",
]
