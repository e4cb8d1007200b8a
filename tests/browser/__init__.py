"""The page in a real browser; run after the others, by `.ci/run`."""
