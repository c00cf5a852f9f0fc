"""Slabs on pages, any of them: in their order, none lost, together what belongs together."""

from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.paper.pdf_pages import on_pages
from boltend.core.paper.pdf_slabs import Slab

ROOM = 100.0


def _draw(pen: object, x: float, y: float) -> None:
    """Nothing is drawn here."""


HEAD = Slab(10, _draw, "head")
slabs = st.lists(
    st.builds(
        Slab,
        st.floats(0.5, 90),
        st.just(_draw),
        st.just("slab"),
        space=st.floats(0, 20),
        keep=st.booleans(),
        head=st.sampled_from([None, HEAD]),
    ),
    max_size=30,
)


@settings(max_examples=300, deadline=None)
@given(slabs)
def test_pages(given_slabs: list[Slab]) -> None:
    pages = on_pages(given_slabs, ROOM)
    placed = [each.slab for page in pages for each in page if each.slab is not HEAD]
    assert [id(slab) for slab in placed] == [id(slab) for slab in given_slabs]
    for number, page in enumerate(pages):
        assert page or (number == 0 and not given_slabs)
        at = 0.0
        for slab, y in page:
            assert y >= at - 1e-6, "none lies on another"
            assert y + slab.height <= ROOM + 1e-6, "none reaches beyond the page"
            at = y + slab.height
        if page:
            assert page[0].y == 0
            first = next((each.slab for each in page if each.slab is not HEAD), None)
            assert (page[0].slab is HEAD) == (first is not None and first.head is HEAD)
    _together(given_slabs, pages)


def _together(given_slabs, pages) -> None:  # type: ignore[no-untyped-def]
    where = {id(each.slab): n for n, page in enumerate(pages) for each in page}
    group: list[Slab] = []
    for slab in given_slabs:
        group.append(slab)
        if slab.keep and slab is not given_slabs[-1]:
            continue
        head = group[0].head.height if group[0].head else 0
        if sum(each.height + each.space for each in group) - group[0].space + head <= ROOM:
            assert len({where[id(each)] for each in group}) == 1
        group = []
