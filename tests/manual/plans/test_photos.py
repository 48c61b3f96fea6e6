"""Photos in the manual: a bare small copy of what the reader may see, each shown once."""

import base64
import io
import re
from html import unescape

import pytest
from PIL import Image

from manual.build import bind, draw, lay_out, write
from manual.issue import kept_photos
from manual.plans.photos import MOST_PX, scaled
from record.log import Log
from tests.manual.books import Page, entries
from tests.manual.judges.pdf_a import faults_of_pdf_a
from tests.record.building import day

CANARY = "quetzalcoatlus"
SHOT = """
## photographed

- file: {name}.jpg
- caption: {caption}
- shows: {shows}
- view: close
- looking: north
- scale: rule
"""


def jpeg(colour, *, size=(60, 40), exif=None):
    """Return a picture of one colour as a camera writes it: 0x13B is the artist, 0x112 the turn
    (CIPA DC-008, Exif 2.32, tables 4 and 5)."""
    out = io.BytesIO()
    held = Image.Exif()
    for number, value in (exif or {}).items():
        held[number] = value
    Image.new("RGB", size, colour).save(out, "JPEG", exif=held, comment=CANARY.encode())
    return out.getvalue()


RED, BLUE = jpeg("red", exif={0x13B: CANARY}), jpeg("blue")
FILES = {"red.jpg": RED, "blue.jpg": BLUE}


def shot(name, shows, *, caption="hung on the left wall"):
    return SHOT.format(name=name, caption=caption, shows=shows)


def body(*sheets, reader="owner", files=FILES):
    found = entries(sheets=sheets)
    taken = bind(found, "owner").view.built.happened("photographed")
    held = {one.text("sha256"): files.get(one.text("file")) for one in taken}
    book = bind(found, reader, held.get)
    return draw(book, write(book))


def printed(*sheets):
    """Return the page of valves as a PDF."""
    found = entries(sheets=sheets)
    (taken,) = bind(found, "owner").view.built.happened("photographed")
    book = bind(found, "owner", {taken.text("sha256"): RED}.get)
    shown = re.search(r'<figure class="photo".*?</figure>', draw(book, write(book)), re.DOTALL)[0]
    return lay_out(book, f"<h1>Valves</h1>{shown}")[1]


def pictures(html):
    coded = re.findall(r'src="data:image/jpeg;base64,([^"]*)"', html)
    return [Image.open(io.BytesIO(base64.b64decode(each))) for each in coded]


def colours(html):
    return [max(zip(each.resize((1, 1)).getpixel((0, 0)), "rgb", strict=True))[1]
            for each in pictures(html)]  # fmt: skip


def test_a_small_copy_holds_nothing_that_the_camera_wrote():
    small = scaled(RED)
    assert CANARY.encode() in RED
    assert CANARY.encode() not in small and b"Exif" not in small
    assert not Image.open(io.BytesIO(small)).getexif()


def test_a_photo_taken_with_the_camera_on_its_side_stands_upright():
    # Orientation 6: the row first stored is the right side of what was seen.
    image = Image.new("RGB", (60, 40), "white")
    image.paste("black", (0, 0, 60, 10))
    out, held = io.BytesIO(), Image.Exif()
    held[0x112] = 6
    image.save(out, "JPEG", exif=held)
    upright = Image.open(io.BytesIO(scaled(out.getvalue())))
    assert upright.size == (40, 60)
    assert upright.getpixel((37, 30))[0] < 60 and upright.getpixel((5, 30))[0] > 200


@pytest.mark.parametrize(
    ("size", "small"), [((2000, 1000), (MOST_PX, MOST_PX // 2)), ((60, 40), (60, 40))]
)
def test_a_large_photo_is_made_smaller_and_a_small_one_is_left(size, small):
    assert Image.open(io.BytesIO(scaled(jpeg("red", size=size)))).size == small


def test_what_is_no_picture_gives_none_and_the_page_says_that_it_is_not_here():
    assert scaled(RED[:40]) is None and scaled(b"<svg/>") is None
    html = body(day("2031-05-17", "ld", shot("red", "CV-1")), files={})
    assert pictures(html) == [] and "its file is not kept here" in html


def test_a_photo_is_shown_where_its_thing_is_told_of_and_only_named_afterwards():
    html = body(day("2031-05-17", "ld", shot("red", "CV-1, AIR-IN")))
    assert colours(html) == ["r"]
    (at,) = re.findall(r'<figure class="photo" id="([^"]*)"', html)
    assert html.index(f'id="{at}"') < html.rindex("The build, day by day")
    assert f'href="#{at}"' in html[html.rindex("The build, day by day") :]


def test_a_photo_of_nothing_with_a_page_of_its_own_stands_in_the_day_it_was_taken():
    html = body(day("2031-05-17", "ld", shot("blue", "A")))
    assert html.rindex("The build, day by day") < html.index("data:image/jpeg")


def test_its_words_say_what_the_record_says_to_whoever_does_not_see_it():
    html = body(day("2031-05-17", "ld", shot("red", "CV-1", caption='a "red" <b>lever</b>')))
    (alt,) = [a["alt"] for tag, a in Page(html).tags if tag == "img"]
    for words in ('close: a "red" <b>lever</b>', "CV-1", "Looking north", "rule", "2031-05-17"):
        assert words in alt
    assert "<b>lever" not in html


def test_a_printed_photo_may_be_kept_for_good_and_is_not_smoothed():
    """ISO 19005-3, 6.2.8: no picture of an archived file has Interpolate."""
    pdf = printed(day("2031-05-17", "ld", shot("red", "CV-1")))
    assert pdf.count(b"/DCTDecode") == 1
    assert faults_of_pdf_a(pdf) == []


def test_a_photo_that_a_reader_may_not_see_is_in_no_byte_of_their_copy():
    sheets = (
        day("2031-05-17", "ow", shot("blue", "S-1", caption=CANARY) + "- readers: owner\n"),
        day("2031-05-17", "ld", shot("red", "CV-1"), part="2"),
    )
    assert sorted(colours(body(*sheets))) == ["b", "r"]
    theirs = body(*sheets, reader="technician")
    assert colours(theirs) == ["r"] and CANARY not in unescape(theirs)


def test_a_kept_file_that_is_not_what_it_was_is_not_shown(tmp_path):
    with Log.make(tmp_path / "r") as log:
        name = log.files.keep("photos", RED, ".jpg")
        assert kept_photos(log)(name) == RED
        (tmp_path / "r" / "photos" / f"{name}.jpg").write_bytes(BLUE)
        assert kept_photos(log)(name) is None
        assert kept_photos(log)("0" * 64) is None
