"""What a record says of what, found without reading all of it: derived, deletable, the owner's own.

The index stands beside the record in a file of its own and is never trusted over the lines: it is
taken only if its seal is right, this program made it, and every chain begins as it says. Without
it everything is the same and takes longer. Verifying and merging never look at it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from record.index.opened import NAME, as_built

__all__ = ["NAME", "as_built"]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from record.index import opened  # what it rests on is long to start

    return getattr(opened, name)
