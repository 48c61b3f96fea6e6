"""The console script: the record's commands, and the manual's beside them."""

from __future__ import annotations

from record.cli import app, run


def main() -> None:
    """Run ``asburied``."""
    run(app)


if __name__ == "__main__":
    main()
