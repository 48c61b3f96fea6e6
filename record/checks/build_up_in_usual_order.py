"""The layers an outside seam must get are named in the order that is usual, or somebody asks."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from record.checks.coats import build_up, layer_name
from record.checks.finding import CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing

#: Common practice, no source: from the steel outward.
USUAL = ("clean", "tar", "foam", "sealer", "foam", "wrap", "earth")
MEANT = {
    "clean": r"clean|prepare|preparation|blast|grind",
    "tar": r"tar|bitumen",
    "foam": r"foam",
    "sealer": r"sealer|seal",
    "wrap": r"wrap",
    "earth": r"earth|soil|backfill|fill",
}


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find outside build-ups whose layers do not stand in the usual order; others are let be."""
    met: set[str] = set()
    for seam in hidden.seams:
        found = build_up(hidden.built, seam)
        if found is None or found.tag in met or found.text("side") == "inside":
            continue
        met.add(found.tag)
        if not in_usual_order(words := [layer_name(part) for part in found.parts]):
            yield _finding(seam, found, words)


def in_usual_order(layers: Sequence[str]) -> bool:
    """
    Return whether the layers that have a usual place stand in it; one left out is no matter.

    >>> in_usual_order(["prepare", "primer", "tar", "foam", "sealer", "foam", "wrap"])
    True
    >>> in_usual_order(["wrap", "tar"]), in_usual_order(["tar", "sealer", "foam", "sealer"])
    (False, False)
    """
    place = 0
    for name in filter(None, map(meant, layers)):
        if name not in USUAL[place:]:
            return False
        place += USUAL[place:].index(name) + 1
    return True


def meant(layer: str) -> str | None:
    """Return which of the usual layers a name means; "foam sealer" is a sealer."""
    words = layer.casefold()
    names = [name for name, meaning in MEANT.items() if re.search(rf"\b({meaning})\b", words)]
    return names[-1] if names else None


def _finding(seam: Thing, found: Thing, layers: Sequence[str]) -> Finding:
    return RULE.finding(
        seam.tag,
        f"build-up {found.tag} goes {' → '.join(layers)}, where the usual order is "
        f"{' → '.join(USUAL)}; it is from: {found.words('from')}",
        clears=(
            "ask whoever specified it; if it is meant so, let it stand, else write the layers",
            f"anew under ## build-up and a new tag, and - build-up: under ## seam {seam.tag}",
        ),
        entries=(*seam.entries(), *found.all_entries()),
        sure=CERTAIN,
        stops=False,
    )


RULE = Rule(
    word="build-up in the usual order",
    why=(
        "Clean steel, tar, foam, sealer, foam, wrap and then earth: each keeps from the next what "
        "that one cannot bear. A slip in the list that everybody works from is built on every seam "
        "in the same way. (Common practice, no source; what the engineer specifies counts.)"
    ),
    find=find,
)
