"""Every drawing that the manual can make of a record, by what a chapter writes to ask for it."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from unittest.mock import patch

from manual.drawings.floor_map import floor_map
from manual.drawings.ink import Drawing
from manual.plans import pictures
from manual.plans.floor import floor_plan
from manual.plans.pictures import DRAWINGS
from manual.plans.reuse import Drawn
from record.log import Log
from record.readers import View, look

#: What each is drawn of: a kind of thing, or "" for the site as a whole.
OF = {
    "long section": "run",
    "site plan": "",
    "panel": "panel",
    "walls": "hull",
    "cross-section": "hull",
    "layers": "hull",
    "way out": "way out",
    "way plan": "way out",
    "left face": "hull",
    "right face": "hull",
    "near face": "hull",
    "far face": "hull",
    "floor face": "hull",
    "ceiling face": "hull",
    "air flow": "",
    "water flow": "",
}


def every_drawing(view: View) -> Iterator[tuple[str, Drawing]]:
    """Yield each with the words that ask for it; what nobody could draw is left out."""
    made: list[Drawing] = []

    def kept(draw: Callable[..., Drawing], *values: object, **how: object) -> Drawn:
        made.append(draw(*values, **how))
        return Drawn(made[-1].svg, made[-1].alt)

    for name, draw in DRAWINGS.items():
        tags = [t.tag for t in view.built.of_kind(OF[name])] if OF[name] else [""]
        for tag in tags:
            with patch.object(pictures, "drawn_by", kept):
                drawing, _ = draw(view, tag)
            if drawing is not None:
                assert made[-1].svg == drawing.svg, "it came by another way"
                yield f"{name} {tag}".strip(), made[-1]
    plan = floor_plan(view, [])
    if plan is not None:
        yield "floor map", floor_map(plan)


def sums(view: View) -> dict[str, str]:
    """Return the hash of each drawing and its words."""
    return {
        asked: hashlib.sha256(f"{drawing.svg}{drawing.alt}".encode()).hexdigest()
        for asked, drawing in every_drawing(view)
    }


def told_by(record: Path, readers: Sequence[str], seed: str) -> str:
    """Return what a process of its own tells of each drawing, under a seed of hashing."""
    return subprocess.run(
        [sys.executable, "-m", "tests.manual.every_drawing", str(record), *readers],
        env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
        capture_output=True,
        text=True,
        check=True,
    ).stdout


if __name__ == "__main__":
    for reader in sys.argv[2:]:
        with Log.open(Path(sys.argv[1])) as log:
            for asked, digest in sums(look(log.entries(), reader)).items():
                print(reader, asked, digest, sep="\t")
