"""What was built, and what follows from it."""

VERSION = "0.1.0"  # as in pyproject.toml; printed in editions, so that their bytes can be made again
