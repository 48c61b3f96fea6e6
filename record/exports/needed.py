"""Libraries that only an export needs, and what to install where one is missing."""

from __future__ import annotations

from importlib import import_module
from typing import Any


class NotInstalled(Exception):
    """An export needs a library that is not installed; the text says what to install."""


def needed(module: str, format_: str) -> Any:
    """Import a library of the extra ``exports``. Raises NotInstalled."""
    try:
        return import_module(module)
    except ImportError:
        library = module.partition(".")[0]
        raise NotInstalled(
            f"a {format_} export needs {library}, which is not installed; nothing was written. "
            "Install it with: pip install 'asburied[exports]'"
        ) from None
