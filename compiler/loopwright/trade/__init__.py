"""The trade's tables, as data: stitches and their names in UK and US terms, yarns, hooks."""
