"""The demo's whole manual, of many pages, in a browser: nothing found on a phone or on a desk."""

import pytest

from manual.build import bind, draw, lay_out, write
from record.log import Log
from tests.manual.judges import faults_of_html, looked_at


@pytest.fixture(scope="module")
def file(built, tmp_path_factory):
    with Log.open(built / "larch-end") as log, pytest.MonkeyPatch.context() as patch:
        patch.setattr("manual.printing.press.lay_out", lambda html, **_: b"")
        book = bind(log.entries(), "owner")
        html, _ = lay_out(book, draw(book, write(book)))
    path = tmp_path_factory.mktemp("page") / "manual.html"
    path.write_bytes(html)
    return path


def test_axe_core_finds_nothing_and_no_page_scrolls_sideways(file):
    seen = looked_at(file, "cv-1")
    for width in (420, 1100):
        assert seen[str(width)]["violations"] == []
        assert seen[str(width)]["page_width"] == width
        assert seen[str(width)]["asked"] == []
    assert "CV-1" in seen["search"]["link"]
    assert seen["walk"]["unseen"] == []


def test_a_validator_of_html_finds_nothing(file):
    assert faults_of_html(file) == []
