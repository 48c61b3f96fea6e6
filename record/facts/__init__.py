"""What can be said: the kinds of fact, by trade subject, and the registry of them.

A new kind is declared in the file of its subject and listed in that file's ``KINDS``.
"""

from __future__ import annotations

from record.facts import (
    covering,
    forms,
    ground,
    handing,
    happenings,
    hull,
    inside,
    lots,
    material,
    on_runs,
    passes,
    pipes,
    recalls,
    seams,
    shape,
    states,
    swaps,
    through,
    trust,
)
from record.facts.kind import READERS, Kind, Sort

KINDS: dict[str, Kind] = {
    kind.word: kind
    for subject in (
        ground,
        hull,
        pipes,
        seams,
        inside,
        covering,
        happenings,
        states,
        material,
        shape,
        swaps,
        through,
        on_runs,
        lots,
        forms,
        handing,
        trust,
        recalls,
        passes,
    )
    for kind in subject.KINDS
}
STORED: dict[str, Kind] = {kind.stored: kind for kind in KINDS.values()}

__all__ = ["KINDS", "READERS", "STORED", "Kind", "Sort"]
