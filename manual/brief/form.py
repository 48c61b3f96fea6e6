"""A brief → plain values with stable keys, for programs."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

from manual.brief.press import Pressed
from manual.brief.told import Brief
from record.answers.json_form import json_form


def brief_form(whole: Brief, pressed: Pressed, *, page: Path, sheet: Path) -> dict[str, Any]:
    """Return the JSON form of a brief, all of its past with it, and where both files were put."""
    return {
        "tag": whole.tag,
        "title": whole.title,
        "place": whole.place,
        "reader": whole.reader,
        "further_entries": whole.further,
        "hazards": [json_form(one) for one in whole.hazards],
        "recorded": list(whole.recorded),
        "not_recorded": list(whole.not_recorded),
        "isolations": list(whole.isolations),
        "drawn": whole.drawing.alt if whole.drawing else None,
        "measured": whole.edges,
        "pieces": [asdict(row) for row in whole.rows],
        "layers": list(whole.layers),
        "comes_off": list(whole.comes_off),
        "call": list(whole.call),
        "past": sorted(whole.past),
        "past_left_out": pressed.earlier,
        "asks": [
            {
                "kind": one.kind.word if one.kind else None,
                "tag": one.tag,
                "keys": [ask.key for ask in one.asks],
            }
            for one in whole.blocks
        ],
        "pages": pressed.pages,
        "pdf": str(page),
        "sheet": str(sheet),
    }
