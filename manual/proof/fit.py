"""Words and pictures that run out of their page, their cell or their frame."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from manual.drawings.lettering import width_em
from manual.proof.contrast import _painted
from manual.proof.finding import Finding
from manual.proof.pages import SVG, Pages, is_margin, is_text, text_of

_SLACK_PX = 1.5
#: A line of letters is a little higher than the line it stands in.
_SLACK_EM = 0.3
Rectangle = tuple[float, float, float, float]


def running_over(pages: Pages) -> Iterator[Finding]:
    seen: set[object] = set()
    for page, box, around in pages.boxes():
        if box.element in seen or (is_text(box) and not box.text.strip()):
            continue
        for frame in around:
            if over := _over(box, frame):
                seen.add(box.element)
                yield _finding(page, _words(box), f"{_name(frame)} by {over / 96 * 25.4:.1f} mm")
                break
    yield from _out_of_drawings(pages)


def _over(box: Any, frame: Any) -> float:
    """Return by how much a box sticks out of a frame, in CSS pixels; 0 where it is none."""
    if not _is_frame(frame):
        return 0.0
    slack = _SLACK_PX
    up = slack + (_SLACK_EM * box.style["font_size"] if is_text(box) else 0.0)
    left, top, right, bottom = _edges(frame)
    x, y = box.position_x, box.position_y
    sideways = (
        max(x + box.margin_width() - right, left - x)
        if not is_text(box)
        else (max(x + box.width - right, left - x))
    )
    upright = max(y + box.height - bottom, top - y)
    return float(max(sideways if sideways > slack else 0.0, upright if upright > up else 0.0))


def _is_frame(box: Any) -> bool:
    """Return whether a reader sees the edges of a box, or it is a page, a cell or of fixed size."""
    name = type(box).__name__
    if name in ("PageBox", "TableCellBox"):
        return True
    if name in ("LineBox", "TextBox", "TableRowBox", "TableRowGroupBox", "InlineBox"):
        return False
    sides = ("left", "right", "top", "bottom")
    return (
        is_margin(box)
        or _painted(box) is not None
        or all(getattr(box, f"border_{side}_width", 0) for side in sides)
        or box.style["height"] != "auto"
    ) and box.element_tag not in ("html", "body")


def _edges(frame: Any) -> Rectangle:
    """Return left, top, right and bottom of a frame; of a page, of all its paper."""
    x, y = frame.border_box_x(), frame.border_box_y()
    if type(frame).__name__ == "PageBox":
        return 0.0, 0.0, frame.margin_width(), frame.margin_height()
    return x, y, x + frame.border_width(), y + frame.border_height()


def _name(frame: Any) -> str:
    name = type(frame).__name__
    return {"PageBox": "the page", "TableCellBox": "its cell"}.get(name, "its frame")


def _words(box: Any) -> str:
    return (box.text if is_text(box) else text_of(box.element)).strip()[:60] or "a picture"


def _finding(page: int | None, words: str, over: str) -> Finding:
    return Finding(
        rule="fit",
        page=page,
        wrong=f"runs out of {over}",
        line=words,
        instead="say it in fewer or shorter words, or give it more room",
    )


def _out_of_drawings(pages: Pages) -> Iterator[Finding]:
    """Yield words of drawings that end beyond the drawing's edge."""
    for drawing in pages.elements(f"{SVG}svg"):
        box = [float(side) for side in (drawing.get("viewBox") or "").split()]
        if len(box) != 4:
            continue
        for words in drawing.iter(f"{SVG}text"):
            if not any(e.get("transform") for e in pages.above(words)):
                over = _beyond(words, box[0], box[0] + box[2])
                if over > 0.5:
                    yield _finding(pages.page_of(drawing), text_of(words), "its drawing")


def _beyond(words: Any, left: float, right: float) -> float:
    size, at = float(words.get("font-size", 3)), float(words.get("x", 0))
    bold = words.get("font-weight") == "bold"
    width = width_em(text_of(words), bold=bold) * size
    start = at - width * {"middle": 0.5, "end": 1.0}.get(words.get("text-anchor", ""), 0.0)
    return max(left - start, start + width - right)
