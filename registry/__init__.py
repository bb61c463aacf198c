"""A registry of the rights in artworks: may this be sold there, on that day, and why."""
