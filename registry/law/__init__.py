"""Law: what a chain of acts says of a set of facts on a day; no clock, no file, no database."""
