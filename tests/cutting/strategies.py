"""Demands and stock of all sorts, small enough to look at every rectangle."""

from fractions import Fraction

from hypothesis import strategies as st

from boltend.core.cutting import Bolt, Part, Sheet, Stock

steps = st.sampled_from([Fraction(1, 2), Fraction(1, 4), Fraction(1, 8), Fraction(1, 10)])


@st.composite
def demands(draw: st.DrawFn, most: int = 5, copies: int = 12, widest: int = 20) -> list[Part]:
    step = draw(steps)
    sizes = st.integers(1, int(widest / step))
    found = []
    for number in range(draw(st.integers(1, most))):
        across, along = draw(sizes) * step, draw(sizes) * step
        found.append(Part(f"part {number}", across, along, draw(st.integers(1, copies)), draw(st.booleans())))
    return found


widths = st.integers(2 * 20, 2 * 44).map(lambda halves: Fraction(halves, 2))
bolts = widths.map(lambda width: Stock(bolt=Bolt(width)))
counts = st.one_of(st.none(), st.integers(0, 4))


@st.composite
def sheets(draw: st.DrawFn) -> Stock:
    side = st.integers(4, 44).map(lambda halves: Fraction(halves, 2))
    found: list[Sheet | Bolt] = []
    for number in range(draw(st.integers(1, 2))):
        found.append(Sheet(f"sheet {number}", draw(side), draw(side), draw(counts)))
    if draw(st.booleans()):
        found.append(Bolt(draw(widths), draw(side), "piece"))
    return Stock(tuple(found))


@st.composite
def mixed(draw: st.DrawFn) -> Stock:
    return Stock(draw(sheets()).sheets, Bolt(draw(widths), None, "bolt"))


stocks = st.one_of(bolts, sheets(), mixed())
