"""Which built-in plugin brings which calculator: so a start of the shell opens those that its project uses.

A name that is missing here costs that start the opening of all plugins, and nothing else. A test holds the
names against what the plugins bring.
"""

BROUGHT = {
    "backing_batting": ("backing", "batting"),
    "block_units": (
        "half_square_triangles", "quarter_square_triangles", "flying_geese", "square_in_square",
        "framed_square", "strip_pieced_grid",
    ),
    "borders_binding": (
        "measured_blocks", "measured_top", "borders", "border_to_size", "border_repeat", "binding",
    ),
    "fabric_mix": ("fabric_mix",),
    "precut_yield": ("precut_yield", "precut_plan", "pieces_in_hand", "fabric_in_hand"),
    "quilt_setting": ("straight_set", "on_point", "grid_for_size", "bed_size"),
    "quilting_thread": ("quilting_thread", "piecing_thread"),
}  # fmt: skip

PLUGIN_OF = {calculator: plugin for plugin, names in BROUGHT.items() for calculator in names}
"""Each calculator with the built-in plugin that brings it."""
