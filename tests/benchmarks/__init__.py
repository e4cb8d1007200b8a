"""What a check costs: see ``__main__`` for what is measured and how to run it."""
