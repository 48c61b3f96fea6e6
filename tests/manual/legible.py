"""What every drawing must be, whatever it shows."""

import itertools
import re
import xml.etree.ElementTree as ET

import pytest

from manual.drawings.ink import Drawing

SVG = "{http://www.w3.org/2000/svg}"
SLACK_MM = 0.01


def _no_label_covers_another(drawing: Drawing) -> None:
    for one, two in itertools.combinations(drawing.labels, 2):
        across = min(one.right_mm, two.right_mm) - max(one.x_mm, two.x_mm)
        down = min(one.bottom_mm, two.bottom_mm) - max(one.y_mm, two.y_mm)
        assert across <= SLACK_MM or down <= SLACK_MM, (one, two)


def _every_label_is_on_the_paper(drawing: Drawing) -> None:
    for box in drawing.labels:
        assert box.x_mm >= -SLACK_MM and box.right_mm <= drawing.width_mm + SLACK_MM, box
        assert box.y_mm >= -SLACK_MM and box.bottom_mm <= drawing.height_mm + SLACK_MM, box


def _words_are_large_enough(drawing: Drawing) -> None:
    """7.5 points; 72 points are 25.4 mm."""
    assert all(box.size_mm * 72 / 25.4 >= 7.5 for box in drawing.labels)


def _what_is_written_is_what_was_placed(drawing: Drawing, root: ET.Element) -> None:
    texts = root.findall(f"{SVG}text")
    assert len(texts) == len(drawing.labels)
    for text, box in zip(texts, drawing.labels, strict=True):
        x, y, size = (float(text.attrib[k]) for k in ("x", "y", "font-size"))
        assert size == pytest.approx(box.size_mm, abs=0.01)
        assert box.x_mm - SLACK_MM <= x <= box.right_mm + SLACK_MM
        assert box.y_mm <= y - 0.9 * size + SLACK_MM and y + 0.25 * size <= box.bottom_mm + 0.01


def _it_speaks(drawing: Drawing, root: ET.Element) -> None:
    said = {element.get("id"): element.text for element in root}
    title, desc = root.attrib["aria-labelledby"].split()
    assert root.get("role") == ("group" if "data-to=" in drawing.svg else "img")
    assert said[title] and said[desc] == drawing.alt


def _numbers_are_short(drawing: Drawing, root: ET.Element) -> None:
    for element in root.iter():
        for key, value in element.attrib.items():
            if key not in ("id", "aria-labelledby", "font-family"):
                assert not re.search(r"\.\d{3}|\de[+-]?\d|nan|inf", value), (key, value)


def _contrast(colour: str) -> float:
    """Against white. WCAG 2.2, "contrast ratio" and "relative luminance"."""
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 1.05 / (0.2126 * r + 0.7152 * g + 0.0722 * b + 0.05)


def _grey_and_strong(root: ET.Element) -> None:
    """WCAG 2.2, 1.4.11: 3:1 for graphics; and no colour at all, so none can carry meaning."""
    for element in root.iter():
        for key in ("stroke", "fill"):
            colour = element.get(key, "none")
            if colour != "none":
                assert colour[1:3] == colour[3:5] == colour[5:7]
                paper = key == "fill" and colour == "#ffffff"
                assert paper or _contrast(colour) >= 3, element.attrib
        assert float(element.get("stroke-width", "1")) >= 0.1


def check(drawing: Drawing) -> ET.Element:
    """Fail where a drawing cannot be read, and return its SVG parsed."""
    root = ET.fromstring(drawing.svg)
    _no_label_covers_another(drawing)
    _every_label_is_on_the_paper(drawing)
    _words_are_large_enough(drawing)
    _what_is_written_is_what_was_placed(drawing, root)
    _it_speaks(drawing, root)
    _numbers_are_short(drawing, root)
    _grey_and_strong(root)
    return root


#: A tag as crews write them, such as AIR-IN or S-1/2; one letter alone is a word as well.
TAG = re.compile(r"[A-Z][A-Z0-9]*-[A-Z0-9]+")


def says_the_same(drawing: Drawing, tags: frozenset[str]) -> None:
    """Fail where the words name a thing that the picture does not, or the other way round."""
    shown = frozenset(TAG.findall(" ".join(box.text for box in drawing.labels))) & tags
    told = frozenset(TAG.findall(drawing.alt)) & tags
    assert shown == told, (sorted(shown - told), sorted(told - shown))
