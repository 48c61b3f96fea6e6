"""The demo's whole manual as a PDF: pictures, long tables, every sort of drawing."""

import io
import subprocess

import outloud
import pikepdf
import pytest

from manual.build import bind, draw, lay_out, write
from manual.issue import kept_photos
from manual.printing.enclosed import enclosed
from record.log import Log
from tests.manual.judges.pdf_a import faults_of_pdf_a
from tests.manual.printing.test_pdf_structure import KNOWN


@pytest.fixture(scope="module")
def file(built, tmp_path_factory):
    with Log.open(built / "larch-end") as log:
        found = log.entries()
        book = bind(found, "owner", kept_photos(log))
        _, pdf = lay_out(book, draw(book, write(book)), attached=enclosed(found, "owner"))
    path = tmp_path_factory.mktemp("printed") / "manual.pdf"
    path.write_bytes(pdf)
    return path


def test_it_is_a_file_to_be_kept_that_can_be_read_aloud(file):
    assert faults_of_pdf_a(file.read_bytes()) == []
    found = outloud.check(str(file), layers=["conformance"])
    assert found.error is None
    assert {str(each.rule) for each in found.findings} <= KNOWN
    subprocess.run(["qpdf", "--check", file], check=True, capture_output=True)


def test_every_picture_and_drawing_says_what_it_shows(file):
    with pikepdf.open(io.BytesIO(file.read_bytes())) as pdf:
        figures = [each for each in pdf.objects if getattr(each, "S", None) == "/Figure"]
        assert len(figures) > 20
        assert all(str(each.Alt).strip() for each in figures)


def test_the_page_for_whoever_doubts_it_is_one_sheet(file):
    told = subprocess.run(["pdftotext", file, "-"], check=True, capture_output=True).stdout.decode()
    sheets = [n for n, page in enumerate(told.split("\f")) if "Who saw it" in page]
    ends = [n for n, page in enumerate(told.split("\f")) if "What it does not prove" in page]
    assert len(sheets) == 1 and sheets == ends
