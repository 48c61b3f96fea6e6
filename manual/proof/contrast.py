"""Words too faint to read: WCAG 2.2, 1.4.3, 4.5 to 1, or 3 to 1 for large letters (W3C)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from manual.proof.finding import Finding
from manual.proof.pages import SVG, Pages, is_text

Colour = tuple[float, float, float]
WHITE: Colour = (1.0, 1.0, 1.0)
_LARGE_PX, _LARGE_BOLD_PX = 24.0, 18.66  # 18 pt, and 14 pt bold


def faint(pages: Pages) -> Iterator[Finding]:
    seen: set[object] = set()
    for page, box, around in pages.boxes():
        if not is_text(box) or not box.text.strip() or box.element in seen:
            continue
        paper = next((c for c in map(_painted, reversed(around)) if c is not None), WHITE)
        ratio = contrast(_rgb(box.style["color"]), paper)
        if ratio < _least(box.style):
            seen.add(box.element)
            yield _finding(page, box.text, ratio, _least(box.style))
    for element in pages.elements(f"{SVG}text"):
        fill = next((e.get("fill") for e in pages.above(element) if e.get("fill")), "#000000")
        ratio = contrast(_hex(fill), WHITE)
        if ratio < 4.5:
            yield _finding(pages.page_of(element), element.text or "", ratio, 4.5)


def contrast(one: Colour, other: Colour) -> float:
    """
    Return the contrast ratio of two colours of sRGB, 1 to 21 (WCAG 2.2, "contrast ratio").

    >>> round(contrast((0, 0, 0), (1, 1, 1)), 1)
    21.0
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: Colour) -> float:
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _painted(box: Any) -> Colour | None:
    """Return the colour of a box's ground, where it has one."""
    ground = box.style["background_color"]
    return _rgb(ground) if ground.alpha > 0 else None


def _rgb(colour: Any) -> Colour:
    red, green, blue = colour.to("srgb").coordinates
    return float(red), float(green), float(blue)


def _hex(colour: str) -> Colour:
    from tinycss2.color5 import parse_color  # type: ignore[import-untyped]

    parsed = parse_color(colour)
    return _rgb(parsed) if parsed is not None else (0.0, 0.0, 0.0)


def _least(style: Any) -> float:
    large = _LARGE_BOLD_PX if style["font_weight"] >= 700 else _LARGE_PX
    return 3.0 if style["font_size"] >= large else 4.5


def _finding(page: int | None, words: str, ratio: float, least: float) -> Finding:
    return Finding(
        rule="contrast",
        page=page,
        wrong=f"words too faint to read, {ratio:.1f} to 1 where {least:g} to 1 is least",
        line=words.strip()[:60],
        instead="print them in black, or on a lighter ground",
    )
