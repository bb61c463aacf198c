"""Exchange: tables, bags and other forms in which the catalogue goes in and out."""
