"""A worked project on paper: one model of blocks, and back ends that set it as HTML, SVG and PDF."""
