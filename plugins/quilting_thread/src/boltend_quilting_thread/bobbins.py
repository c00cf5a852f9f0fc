"""The table of bobbins: what one of each class holds, and of which thread.

Where a range is printed, the row has its careful end, the lower one. Print does not say which thread its
figure rests on; a bobbin thread of 70 wt (km to the kg) is assumed. That fits the room there is: 130 yd of
it weigh 1.7 g, in a winding of 1.9 cm³. A bobbin that is wound on the machine holds less than a prewound
one; a person's own row may say how much, and of which thread.
"""

from boltend.plugin import Table

_PRINTED = "prewound, 130 to 154 yd: Decorated apparel survival guide, p. 188 (HIC, undated, c. 2014)"
_THREAD = "of 70 wt, assumed: a bobbin thread in Sewing ABCs (Original Sewing & Quilt Expo, undated)"
_SIZE = "sizes: Understanding bobbins (Sewing Parts Online, 2023)"
_SCALED = (
    "derived from class L by the room for thread: core 7 mm, flanges 0.7 mm, wound to 95 % of the diameter"
)

BOBBINS = Table(
    name="bobbins",
    columns={"holds": "length", "number": "thread_number", "diameter": "length", "width": "length"},
    rows={
        "class 15": {
            "holds": "179 yd",
            "number": "70 wt Nm",
            "diameter": "20.3 mm",
            "width": "11.7 mm",
            "source": f"{_SCALED}; {_PRINTED}; {_THREAD}; {_SIZE}",
        },
        "L": {
            "holds": "130 yd",
            "number": "70 wt Nm",
            "diameter": "20.3 mm",
            "width": "8.9 mm",
            "source": f"{_PRINTED}; {_THREAD}; {_SIZE}",
        },
        "M": {
            "holds": "255 yd",
            "number": "70 wt Nm",
            "diameter": "24.9 mm",
            "width": "10.7 mm",
            "source": f"{_SCALED}; {_PRINTED}; {_THREAD}; {_SIZE}",
        },
    },
)
