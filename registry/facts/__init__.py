"""Facts: what is known of a work, its makers and its publications; no clock, no file, no law."""
