"""The voltage of a holiday test over the tar of every build-up."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.figures.feeding import field
from record.figures.worked import Worked, work
from record.readers import View
from record.words import tell

TAR = re.compile(r"\b(?:tar|bitumen)\b")


def of_tar(view: View) -> Iterator[Worked]:
    for built in view.built.of_kind("build-up"):
        for layer in built.parts:
            said = f"{layer.text('layer') or ''} {layer.text('material') or ''}".casefold()
            if TAR.search(said):
                film = field(layer, "thickness", "film", how=tell("figures.asked_for"))
                yield work("pinhole-voltage", built.tag, (film,), what=layer.words("material"))
