"""The structure of a PDF put right before it is written, for whoever hears it read aloud.

WeasyPrint tags running heads and feet without a place in the tree, keeps elements that hold
nothing, gives the box of a figure in the page's own pixels, leaves the paragraphs of a list item
bare, and does not say which way a heading cell points. ISO 14289-1 (PDF/UA-1) has running matter as
artifacts (7.1, 7.8), tables whose headings can be told (7.5) and lists as ISO 32000-1 has them
(7.6), which has a figure's box in the units of the page (14.8.5.4.3). Clauses from memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

_POINTS = 0.75  # a CSS pixel in points
_ARTIFACT = "<</Type/Pagination>>"
_SCOPES = {"/THead": "/Column", "/TBody": "/Row"}
_MAY_GO = ("/Span", "/NonStruct", "/Div")


def mend(pdf: Any) -> None:
    """Mend the structure of a pydyf file that is whole but for being written."""
    root = pdf.objects[_number(pdf.catalog["StructTreeRoot"])]
    told: set[int] = set()
    _visit(pdf, root, told, "")
    _set_running_matter_apart(pdf, root, told)
    for number, each in enumerate(pdf.objects):
        if isinstance(each, dict) and each.get("Type") == "/StructElem" and number not in told:
            each.clear()


def _number(reference: bytes) -> int:
    return int(reference.split()[0])


def _visit(pdf: Any, element: Any, told: set[int], scope: str) -> None:
    """Mend what is below an element, and note in ``told`` every element that stays."""
    kept: list[Any] = []
    for kid, found in list(_kids(pdf, element)):
        if found is not None:
            word = found["S"]
            _visit(pdf, found, told, _SCOPES.get(word, scope))
            if word in _MAY_GO and not found["K"]:
                continue
            told.add(found.number)
            if word == "/Figure":
                _box_in_points(pdf, found)
            elif word in ("/TH", "/TD"):
                _say_which_way(found, scope or "/Column")
            elif word == "/LI":
                told.update(_in_bodies(pdf, found))
        kept.append(kid)
    element["K"][:] = kept


def _kids(pdf: Any, element: Any) -> Iterator[tuple[Any, Any]]:
    """Yield each of an element's kids, with the element that it is, or None."""
    for kid in element["K"]:
        found = pdf.objects[_number(kid)] if isinstance(kid, bytes) else {}
        yield kid, found if found.get("Type") == "/StructElem" else None


def _in_bodies(pdf: Any, item: Any) -> Iterator[int]:
    """Put what stands bare in a list item into a body; yield the number of each body made."""
    import pydyf  # type: ignore[import-untyped]

    kept: list[Any] = []
    for kid, found in list(_kids(pdf, item)):
        if found is not None and found["S"] in ("/Lbl", "/LBody", "/LI", "/L"):
            kept.append(kid)
            continue
        body = pydyf.Dictionary(
            {
                "Type": "/StructElem",
                "S": "/LBody",
                "K": pydyf.Array([kid]),
                "Pg": item["Pg"],
                "P": item.reference,
            }
        )
        pdf.add_object(body)
        if found is not None:
            found["P"] = body.reference
        kept.append(body.reference)
        yield body.number
    item["K"][:] = kept


def _say_which_way(cell: Any, scope: str) -> None:
    """Let a heading say what it is over, in place of every cell naming its headings."""
    cell["A"].pop("Headers", None)
    cell.pop("ID", None)
    if cell["S"] == "/TH":
        cell["A"]["Scope"] = scope


def _box_in_points(pdf: Any, figure: Any) -> None:
    height = pdf.objects[_number(figure["Pg"])]["MediaBox"][3]
    x1, y1, x2, y2 = (side * _POINTS for side in figure["A"]["BBox"])
    figure["A"]["BBox"][:] = [x1, height - y2, x2, height - y1]


def _set_running_matter_apart(pdf: Any, root: Any, told: set[int]) -> None:
    """Make an artifact of each piece of a page that stands nowhere in the tree."""
    numbers = pdf.objects[_number(root["ParentTree"])]["Nums"]
    of_page = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for number in pdf.pages["Kids"][::3]:
        page = pdf.objects[number]
        elements = of_page[page["StructParents"]]
        apart = {i for i, each in enumerate(elements) if _number(each) not in told}
        for i in apart:
            elements[i] = "null"
        _mark(pdf.objects[_number(page["Contents"])].stream, apart)


def _mark(stream: list[Any], apart: set[int]) -> None:
    for at, piece in enumerate(stream):
        if isinstance(piece, Mapping) and piece.get("MCID") in apart:
            stream[at - 1 : at + 1] = ["/Artifact", _ARTIFACT]
