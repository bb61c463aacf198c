"""Pages: a Datasette plugin that shows one catalogue."""
