"""The press: HTML in, the same PDF out each time, and no letter printed other than as ours."""

import base64
import hashlib
import io
import os
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader
from pypdf.generic import NullObject

from manual import theme
from manual.printing import press
from manual.theme.held import held

STAMP = datetime(2031, 5, 16, 7, 30, tzinfo=UTC)
BODY = f"""
<div class="manual" data-unit="North bank" data-edition="3" data-copy="owner’s copy"
 data-recorded-to="2031-05-14">
<section class="sheet emergency" id="water"><h1>Water coming in</h1>
<section class="act"><h2>Act now</h2><ol><li>Close <span class="tag">V-3</span>: → 11 turns.</li>
</ol></section></section>
<section class="chapter" id="drains"><h1>Drains</h1>
<div class="safety danger"><p class="signal">DANGER</p><p class="hazard">Sand.</p></div>
<p class="changed">Invert 0.85 m ± 25 mm, see <a class="xref" href="#water">Water</a>.</p>
<p>Serial: <span class="gap">not recorded</span></p>
<figure><svg viewBox="0 0 60 20" width="60mm" height="20mm"><title>A pipe to the outfall</title>
<text x="2" y="9" font-size="5" font-family="{theme.FAMILIES}">▲ fall</text>
</svg></figure></section></div>
"""


def document(body: str = BODY) -> str:
    return theme.page(body, title="Owner’s manual", lang="en")


def pressed(body: str = BODY) -> bytes:
    return press.lay_out(document(body), stamp=STAMP, identifier=b"0123456789abcdef")


def refused(body: str) -> tuple[press.Blot, ...]:
    with pytest.raises(press.PressFault) as fault:
        pressed(body)
    return fault.value.blots


def fonts_of(pdf: bytes) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for page in PdfReader(io.BytesIO(pdf)).pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            leaf = font.get_object()["/DescendantFonts"][0].get_object()
            found[leaf["/BaseFont"].split("+")[1]] = leaf["/FontDescriptor"].get_object()
    return found


def structure(node: Any) -> Iterator[Any]:
    node = node.get_object()
    if isinstance(node, list):
        for child in node:
            yield from structure(child)
    elif isinstance(node, dict):
        yield node
        yield from structure(node.get("/K", NullObject()))


def test_one_page_pressed_twice_is_the_same_bytes() -> None:
    assert pressed() == pressed()


def test_another_process_on_another_day_presses_the_same_bytes() -> None:
    work = (
        "import hashlib; from tests.manual.printing.test_press import pressed;"
        "print(hashlib.sha256(pressed()).hexdigest())"
    )
    run = subprocess.run(
        [sys.executable, "-c", work],
        cwd=Path(__file__).parents[3],
        env=os.environ | {"SOURCE_DATE_EPOCH": "1", "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() == hashlib.sha256(pressed()).hexdigest()


def test_another_identifier_or_stamp_is_seen_in_the_bytes() -> None:
    other_name = press.lay_out(document(), stamp=STAMP, identifier=b"fedcba9876543210")
    other_day = press.lay_out(
        document(), stamp=STAMP.replace(year=2032), identifier=b"0123456789abcdef"
    )
    assert len({pressed(), other_name, other_day}) == 3


@pytest.mark.parametrize("before", [None, "42"])
def test_the_source_date_of_the_machine_is_put_back(
    monkeypatch: pytest.MonkeyPatch, before: str | None
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    if before:
        monkeypatch.setenv("SOURCE_DATE_EPOCH", before)
    refused("<p>漢</p>")
    pressed("<p>plain</p>")
    assert os.environ.get("SOURCE_DATE_EPOCH") == before


def test_a_stamp_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="time zone"):
        press.lay_out(document(), stamp=datetime(2031, 5, 16), identifier=b"x")


def test_every_font_in_the_pdf_is_one_of_ours_and_inside_it() -> None:
    fonts = fonts_of(pressed())
    ours = ("Asburied-Text", "Asburied-Text-Bold", "Asburied-Marks", "Asburied-Marks-Bold")
    assert {"Asburied-Text", "Asburied-Text-Bold", "Asburied-Marks"} <= fonts.keys() <= set(ours)
    assert all("/FontFile2" in descriptor for descriptor in fonts.values())


def test_the_pdf_says_what_pdf_ua_asks_of_it() -> None:
    """ISO 14289-1 (PDF/UA-1): 7.1 tagged and a title shown, 7.2 a language, clause 5 the claim;
    7.3 alternate text for a figure. Clause numbers from memory."""
    pdf = pressed()
    reader = PdfReader(io.BytesIO(pdf))
    catalog: Any = reader.trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]
    assert catalog["/ViewerPreferences"]["/DisplayDocTitle"]
    assert catalog["/Lang"] == "en"
    assert b"pdfuaid" in catalog["/Metadata"].get_object().get_data()
    figures = [
        node for node in structure(catalog["/StructTreeRoot"]) if node.get("/S") == "/Figure"
    ]
    assert [figure["/Alt"] for figure in figures] == ["A pipe to the outfall"]


def test_the_only_date_in_the_pdf_is_the_stamp() -> None:
    information = PdfReader(io.BytesIO(pressed())).metadata
    assert information is not None
    assert information.creation_date == STAMP
    assert information.modification_date == STAMP


def test_the_foot_of_every_page_says_whose_it_is_and_how_many_there_are() -> None:
    pages = PdfReader(io.BytesIO(pressed())).pages
    assert len(pages) == 2
    for number, page in enumerate(pages, start=1):
        foot = (
            f"North bank · edition 3 · owner’s copy · page {number} of 2"
            " · valid as recorded to 2031-05-14"
        )
        assert foot in " ".join(page.extract_text().split())


def test_a_cross_reference_gives_the_page_on_paper() -> None:
    text = PdfReader(io.BytesIO(pressed())).pages[1].extract_text()
    assert "Water (page 1)" in " ".join(text.split())


def test_chapters_and_emergency_pages_are_in_the_outline() -> None:
    outline = PdfReader(io.BytesIO(pressed())).outline
    assert [entry.title for entry in outline if not isinstance(entry, list)] == [
        "Water coming in", "Drains",
    ]  # fmt: skip


def test_the_emergency_page_prints_small_letters_two_and_a_half_millimetres_high() -> None:
    """Common practice for emergency text, from memory: an x-height of at least 2.5 mm.

    A point is 1/72 in = 0.35278 mm; the x-height of the face is read from its own OS/2 table
    (OpenType 1.9, OS/2, sxHeight).
    """
    from fontTools.ttLib import TTFont

    face = TTFont(io.BytesIO(theme.font_bytes(theme.FACES[0])))
    x_height_em = face["OS/2"].sxHeight / face["head"].unitsPerEm
    sizes_pt = []

    def note(text: str, cm: Any, tm: Any, font: Any, size: float) -> None:
        if "turns" in text:
            sizes_pt.append(size * abs(tm[3]) * abs(cm[3]))

    PdfReader(io.BytesIO(pressed())).pages[0].extract_text(visitor_text=note)
    assert sizes_pt
    assert min(sizes_pt) * 25.4 / 72 * x_height_em >= 2.5


def test_a_letter_we_have_no_glyph_for_is_named_with_the_words_around_it() -> None:
    (blot,) = refused("<p>the tank lid is marked 漢 in red</p>")
    assert "漢" in blot.place
    assert "U+6F22" in blot.place
    assert blot.line == "the tank lid is marked 漢 in red"


def test_all_strange_letters_are_named_at_once() -> None:
    assert [blot.place[1] for blot in refused("<p>漢</p><p>字 and あ</p>")] == ["あ", "字", "漢"]


def test_a_strange_letter_inside_a_drawing_is_named_too() -> None:
    svg = BODY.replace("▲ fall", "漢 fall")
    assert any("漢" in blot.place for blot in refused(svg))


def test_text_set_in_a_font_that_is_not_ours_is_refused() -> None:
    """A stranger is made from bytes we ship, so that any machine has it."""
    data = base64.b64encode(theme.font_bytes(theme.FACES[0])).decode()
    rule = f"@font-face{{font-family:Stranger;src:url(data:font/ttf;base64,{data})}}"
    blots = refused(f"<style>{rule}</style><p style='font-family:Stranger'>ink in</p>")
    assert [blot.place[1] for blot in blots] == ["i", "k", "n"]
    assert all("Stranger" in blot.wrong for blot in blots)


def test_code_in_the_words_keeps_to_our_fonts() -> None:
    assert fonts_of(pressed("<p><code>V-3</code> <kbd>x</kbd></p><pre>a</pre>")).keys() == {
        "Asburied-Text"
    }


@pytest.mark.parametrize(
    ("body", "named"),
    [
        ("<p style='colour: red'>x</p>", "colour"),
        ("<p>x</p><img src='plan.png' alt='plan'>", "plan.png"),
        ("<p>x</p><img src='file:///plan.png' alt='plan'>", "plan.png"),
        ("<p>see <a href='#nowhere'>there</a></p>", "nowhere"),
        ("<p><img src='data:image/png;base64,AAAA' alt='plan'></p>", "image"),
    ],
)
def test_what_the_layout_could_not_follow_stops_the_press(body: str, named: str) -> None:
    assert any(named in blot.line for blot in refused(body))


def test_a_picture_of_the_machine_is_not_fetched_even_where_it_could_be(tmp_path: Path) -> None:
    from PIL import Image

    there = tmp_path / "plan.png"
    Image.new("L", (2, 2)).save(there)
    assert any("plan.png" in blot.line for blot in refused(f"<img src='{there.as_uri()}' alt=x>"))


def test_a_complaint_is_heard_when_logging_is_turned_down() -> None:
    import logging

    logger = logging.getLogger("weasyprint")
    logger.setLevel(logging.CRITICAL)
    try:
        assert refused("<p style='colour: red'>x</p>")
        assert logger.level == logging.CRITICAL
    finally:
        logger.setLevel(logging.NOTSET)


def test_one_html_file_holds_its_fonts_and_asks_for_nothing() -> None:
    html = press.self_contained(BODY, title="A & B", lang="en", css=theme.stylesheet())
    assert html.count("src:url(data:font/ttf;base64,") == len(theme.FACES)
    assert "<title>A &amp; B</title>" in html
    assert '<html lang="en">' in html
    opened = BODY.strip().partition("<figure")[0]
    assert held(opened) in html and html.count("<main>") == 1
    assert theme.stylesheet() in html
    for outside in ("http://", "https://", "file://", " src=", "<link", "<script ", "@import"):
        assert outside not in html
    assert html.count("<script>") == 1  # it searches, and fetches nothing


def test_the_one_html_file_goes_through_the_press_as_it_is() -> None:
    html = press.self_contained(BODY, title="Owner’s manual", lang="en", css=theme.stylesheet())
    pdf = press.lay_out(html, stamp=STAMP, identifier=b"0123456789abcdef")
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 2


def test_all_that_leads_outside_the_file_is_told_at_once() -> None:
    body = "<p>x</p>\n<img src='a.png' alt=''>\n<a href='https://b.example/'>b</a>"
    with pytest.raises(press.PressFault) as fault:
        press.self_contained(body, title="t", lang="en", css="p{background:url(c.png)}")
    assert [(blot.place, blot.line) for blot in fault.value.blots] == [
        ("line 2, <img src>", "a.png"),
        ("line 3, <a href>", "https://b.example/"),
        ("line 1, style sheet", "c.png"),
    ]
