"""Many files: finding patterns, reading them, writing what is made of them."""
