"""The table of threads: their number with its convention, and what is on a spool.

A row has a number only where its source says how it is counted: "40 wt" and "50/2" alone do not. Rows
without a price take one in a row of the person's own.
"""

from boltend.plugin import Table

_LABEL = "Aurifil Q & A: spool label decoding (Aurifil Thread Australia, undated); the number counts each ply"
_CONES = "Thread tales: cone lengths in use (Cheryl, 2013); how the number is counted is not said"
_SPOOL = "How much thread? (Batts in the Attic, 2009); how the number is counted is not said"
_PACKAGES = "Thread packages (tohproblemkyahai.com, undated)"
_BOOK = "Textiles for commercial, industrial and domestic arts schools (W. H. Dooley, c. 1912)"

THREADS = Table(
    name="threads",
    columns={"number": "thread_number", "length": "length", "price": "price"},
    rows={
        "cotton 50/2, 1300 m": {"number": "50 Ne 2 ply", "length": "1300 m", "source": _LABEL},
        "cotton 40/2, 1000 m": {"number": "40 Ne 2 ply", "length": "1000 m", "source": _LABEL},
        "cotton 28/2, 750 m": {"number": "28 Ne 2 ply", "length": "750 m", "source": _LABEL},
        "cotton 12/2, 325 m": {"number": "12 Ne 2 ply", "length": "325 m", "source": _LABEL},
        "cotton 50/2 on a cone, 2500 yd": {"length": "2500 yd", "source": _CONES},
        "polyester 50/3 on a cone, 3280 yd": {"length": "3280 yd", "source": _CONES},
        "polyester on a cone, 6000 yd": {"length": "6000 yd", "source": _CONES},
        "rayon 40 wt, 850 yd": {"length": "850 yd", "source": _SPOOL},
        "small spool, 100 m": {"length": "100 m", "source": _PACKAGES},
        "small spool, 200 yd": {"length": "200 yd", "source": _BOOK},
        "cop, 1000 m": {"length": "1000 m", "source": f"the least of 1000 to 2500 m: {_PACKAGES}"},
        "cop, 2500 m": {"length": "2500 m", "source": f"the most of 1000 to 2500 m: {_PACKAGES}"},
        "large cone, 5000 m": {"length": "5000 m", "source": f"from 5000 m: {_PACKAGES}"},
    },
)
