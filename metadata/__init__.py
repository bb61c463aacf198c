"""Data of the registry: rules of law, the vocabulary of facts, markets and cautions; no code."""
