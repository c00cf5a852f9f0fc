"""Cautions that belong to a whole print, not to one tab."""

# Common practice, no source.
CUTTING_CAUTION = (
    "Rotary cutters and irons hurt: close the blade whenever you lay it down, cut away from yourself, keep "
    "fingers behind the ruler's edge and both out of children's reach. Follow the makers' and local advice."
)

# The same advice as in the crib sizes of `bed_size` and `batting`: common practice, no source.
INFANT_CAUTION = (
    "A quilt is no bedding for a sleeping infant under twelve months: follow your local safe-sleep guidance."
)
