"""Pictures of the demo catalogue, cut from shapes: no photograph, no font, nothing from elsewhere."""
