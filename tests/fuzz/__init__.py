"""Patterns damaged at random: whatever a file says, the answer is a message."""
