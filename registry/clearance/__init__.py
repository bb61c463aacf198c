"""Clearance: may this product be sold in that market; no clock, no file, no database."""
