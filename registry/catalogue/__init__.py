"""Catalogue: what the shop keeps, in one folder."""
