"""Everything that works without a screen."""
