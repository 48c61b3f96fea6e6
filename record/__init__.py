"""What was built, and what follows from it."""
