"""What is heard when the PDF is read aloud: two programs that check PDF/UA, and the tree itself."""

from __future__ import annotations

import io

import outloud
import pdfua
import pikepdf
import pytest

from tests.manual.printed import edition

#: Headings of a table are repeated on each page it goes on to, where it is a table of its own.
KNOWN = {"PAG-001"}


@pytest.fixture(scope="module", params=["pdf", "cards"])
def file(request, tmp_path_factory):
    path = tmp_path_factory.mktemp("printed") / f"{request.param}.pdf"
    path.write_bytes(edition().files()[request.param])
    return path


@pytest.fixture(scope="module")
def manual():
    with pikepdf.open(io.BytesIO(edition().pdf)) as pdf:
        yield pdf


def found_by_outloud(path):
    result = outloud.check(str(path), layers=["conformance"])
    assert result.error is None
    assert sum(run.status == "ran" for run in result.runs) > 20  # it did look
    return {str(each.rule): each.message for each in result.findings}


def test_a_checker_of_pdf_ua_finds_nothing(file):
    assert set(found_by_outloud(file)) <= KNOWN


def test_another_checker_of_pdf_ua_finds_nothing(file):
    assert [each.message for each in pdfua.validate(str(file)).findings] == []


@pytest.mark.parametrize("what", ["as an alternative text", "as a language", "as a tag"])
def test_the_checkers_do_find_a_fault(what, tmp_path):
    out = tmp_path / "wrong.pdf"
    with pikepdf.open(io.BytesIO(edition().pdf)) as pdf:
        if "text" in what:
            for each in elements(pdf):
                if each.S == "/Figure":
                    del each["/Alt"]
        elif "language" in what:
            del pdf.Root["/Lang"]
        else:
            del pdf.Root["/StructTreeRoot"]
        pdf.save(out)
    assert set(found_by_outloud(out)) - KNOWN


def elements(pdf):
    """Yield every element of the structure."""
    waiting = list(pdf.Root.StructTreeRoot.K)
    while waiting:
        each = waiting.pop()
        if isinstance(each, pikepdf.Dictionary) and "/S" in each:
            yield each
            waiting.extend(kids_of(each))


def kids_of(element):
    kids = element.get("/K", [])
    return list(kids) if isinstance(kids, pikepdf.Array) else [kids]


def test_running_heads_and_feet_are_set_apart_and_all_else_is_heard(manual):
    numbers = list(manual.Root.StructTreeRoot.ParentTree.Nums)
    owners = dict(zip(map(int, numbers[::2]), numbers[1::2], strict=True))
    for page in manual.pages:
        heard, apart = 0, 0
        open_tags = []
        for each in pikepdf.parse_content_stream(page):
            if str(each.operator) in ("BDC", "BMC"):
                open_tags.append(str(each.operands[0]))
                if str(each.operator) == "BDC" and "/MCID" in each.operands[1]:
                    assert owners[int(page.StructParents)][int(each.operands[1].MCID)] is not None
            elif str(each.operator) == "EMC":
                open_tags.pop()
            elif str(each.operator) in ("TJ", "Tj"):
                assert open_tags, "letters that are neither heard nor set apart"
                apart += "/Artifact" in open_tags
                heard += "/Artifact" not in open_tags
        assert heard and apart


def test_each_piece_of_a_page_belongs_to_one_element_that_is_in_the_tree(manual):
    reached = {each.objgen for each in elements(manual)}
    numbers = manual.Root.StructTreeRoot.ParentTree.Nums
    pieces = 0
    for index in range(0, len(numbers), 2):
        owners = numbers[index + 1]
        for owner in owners if isinstance(owners, pikepdf.Array) else [owners]:
            if owner is not None:
                pieces += 1
                assert owner.objgen in reached
    assert pieces > 100


def test_a_figures_box_lies_on_its_page_where_it_is_drawn(manual):
    figures = [each for each in elements(manual) if each.S == "/Figure"]
    assert figures
    for figure in figures:
        left, bottom, right, top = (float(side) for side in figure.A.BBox)
        _, _, width, height = (float(side) for side in figure.Pg.MediaBox)
        assert 0 <= left < right <= width and 0 <= bottom < top <= height
        assert figure.Alt


def test_every_heading_cell_says_which_way_it_points(manual):
    cells = [each for each in elements(manual) if each.S == "/TH"]
    assert {str(cell.A.Scope) for cell in cells} == {"/Column", "/Row"}


def test_every_item_of_a_list_has_a_body(manual):
    items = [each for each in elements(manual) if each.S == "/LI"]
    assert items
    for item in items:
        assert {str(kid.S) for kid in kids_of(item)} <= {"/Lbl", "/LBody", "/L", "/LI"}
