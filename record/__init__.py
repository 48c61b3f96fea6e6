"""What was built, and what follows from it."""

VERSION = "0.1.0"  # as in pyproject.toml; editions print it, so they can be made again
