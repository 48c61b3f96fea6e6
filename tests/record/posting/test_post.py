"""Posting: a sheet becomes entries once, whole or not at all, and its bytes are kept."""

from __future__ import annotations

import hashlib
import io
import json
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PIL import Image

from record.entry import Entry
from record.fold import fold
from record.log import Log, verify
from record.log.kept import missing_files
from record.posting import post, random_salt, stopped_clock
from record.sheets import SheetRejected
from tests.record.records import NOW, post_text, sheet

RUN = """## run AIR-IN

- material: clay
- pipe length: 12.60 m

| station | x [m] | crown [m] | how |
|---|---|---|---|
| 1 foot | 27.00 | 48.006 | staff |
| 2 bend | 24.00 | 47.906 | staff |

Rock at the bend.
"""


def faults(log: Log, text: str, folder: Path | None = None) -> list[str]:
    with pytest.raises(SheetRejected) as caught:
        post_text(log, text, folder=folder)
    return [fault.problem for fault in caught.value.faults]


def body(entry: Entry) -> dict[str, object]:
    assert entry.content is not None
    return dict(entry.content.body)


def test_a_block_is_one_entry_and_each_row_and_remark_one_more(log: Log):
    posted = post_text(log, sheet(RUN))
    assert [(e.number, e.content.kind, e.content.about) for e in posted.recorded if e.content] == [
        ("ld-3", "run", "AIR-IN"),
        ("ld-4", "station", "AIR-IN/1"),
        ("ld-5", "station", "AIR-IN/2"),
        ("ld-6", "remark", "AIR-IN"),
        ("ld-7", "sheet-posted", "fern-bank"),
    ]


def test_a_sheet_posted_again_adds_nothing(log: Log):
    first = post_text(log, sheet(RUN))
    lines = list(log.lines())
    again = post_text(log, sheet(RUN), now=datetime(2031, 7, 1, tzinfo=UTC))
    assert again.recorded == () and again.vanished == ()
    assert again.already == first.recorded[:-1]
    assert list(log.lines()) == lines


def test_posted_again_with_more_in_it_a_sheet_adds_just_that(log: Log):
    post_text(log, sheet(RUN))
    more = RUN.replace("| 2 bend", "| 3 hull | 16.40 | 47.754 | staff |\n| 2 bend")
    again = post_text(log, sheet(more + "\nAnd sand beyond it.\n"))
    assert [e.content.about for e in again.recorded if e.content] == [
        "AIR-IN/3",
        "AIR-IN",
        "fern-bank",
    ]
    assert len(again.already) == 4


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ("clay", "steel", "material"),
        ("47.906", "47.750", "level"),
        ("- material: clay", "- material: clay\n- did: ph", "did"),
        ("- material: clay", "- material: clay\n- at: 14:10", "at"),
        ("- material: clay", "- material: clay\n- readers: owner", "readers"),
    ],
)
def test_what_was_recorded_cannot_be_changed_by_changing_the_sheet(
    log: Log, old: str, new: str, what: str
):
    post_text(log, sheet(RUN))
    before = list(log.lines())
    found = faults(log, sheet(RUN.replace(old, new)))
    assert found and all(f"another {what}" in fault for fault in found)
    assert list(log.lines()) == before


def test_what_is_gone_from_a_sheet_is_told_and_stays_recorded(log: Log):
    post_text(log, sheet(RUN))
    again = post_text(log, sheet(RUN.replace("\nRock at the bend.\n", "")))
    assert [e.content.body for e in again.vanished if e.content] == [{"text": "Rock at the bend."}]
    assert again.recorded == ()
    assert len(list(fold(log.entries()).happened("remark"))) == 1


def test_two_parts_of_one_day_do_not_stand_in_each_others_way(log: Log):
    post_text(log, sheet("## remark\n\nMorning."))
    evening = post_text(log, sheet("## remark\n\nEvening.", part="evening"))
    assert evening.vanished == () and len(evening.recorded) == 2


def test_the_bytes_of_a_sheet_are_kept_and_named(log: Log, folder: Path):
    data = sheet(RUN).encode()
    posted = post_text(log, data)
    told = body(posted.recorded[-1])
    assert told["sha256"] == hashlib.sha256(data).hexdigest()
    assert (folder / "sheets" / f"{told['sha256']}.md").read_bytes() == data
    assert missing_files(log.files, log.entries()) == ()


def test_each_entry_names_the_hash_of_its_own_lines_and_of_no_others(log: Log):
    """A hash over the neighbours too would let a withheld line be guessed at. The lines of a
    run's block are its heading and its fields; each row stands alone."""
    posted = post_text(log, sheet(RUN))
    lines = sheet(RUN).split("\n")
    sources = [dict(e.content.source or {}) for e in posted.recorded if e.content]

    def hashed(*own: str) -> str:
        return hashlib.sha256("".join(f"{line}\n" for line in own).encode()).hexdigest()

    assert sources[0]["sha256"] == hashed(
        "## run AIR-IN", "- material: clay", "- pipe length: 12.60 m"
    )
    assert sources[1]["sha256"] == hashed("| 1 foot | 27.00 | 48.006 | staff |")
    assert sources[3]["sha256"] == hashed("Rock at the bend.")
    for source in sources[:4]:
        assert isinstance(source["line"], int)
    assert lines[sources[2]["line"] - 1] == "| 2 bend | 24.00 | 47.906 | staff |"


def test_numbers_and_heads_run_on_from_sheet_to_sheet(log: Log):
    one = post_text(log, sheet("## remark\n\nOne.")).recorded
    two = post_text(log, sheet("## remark\n\nTwo.", writer="ck")).recorded
    three = post_text(log, sheet("## remark\n\nThree.", part="b")).recorded
    assert [e.number for e in (*one, *two, *three)] == [
        "ld-3", "ld-4", "ck-1", "ck-2", "ld-5", "ld-6",
    ]  # fmt: skip
    assert two[0].link.prev is None
    assert three[0].link.prev == one[-1].hash and three[1].link.prev == three[0].hash
    assert two[0].content and two[0].content.seen == {"ld": one[-1].hash}
    assert three[0].content and three[0].content.seen == {"ck": two[-1].hash}
    assert verify(log.lines()).sound


def test_salts_of_the_system_differ_from_entry_to_entry(log: Log):
    words = "\n\n".join(f"Stone {n}." for n in range(50))
    posted = post(
        log, "x", sheet(f"## remark\n\n{words}").encode(),
        folder=None, clock=stopped_clock(NOW), salt=random_salt,
    )  # fmt: skip
    salts = [json.loads(e.content_line or b"")["salt"] for e in posted.recorded]
    assert len(set(salts)) == len(salts) and all(len(salt) == 32 for salt in salts)


def test_a_refused_sheet_leaves_no_entry_and_no_file(log: Log, folder: Path):
    before = sorted(folder.rglob("*.md")), list(log.lines())
    assert faults(log, sheet(RUN + "\n## valve V-1\n\n- type: check\n- on run: NOWHERE\n"))
    assert (sorted(folder.rglob("*.md")), list(log.lines())) == before


def test_a_mend_replaces_just_the_fields_it_states(log: Log):
    post_text(log, sheet(RUN))
    mend = "## run AIR-IN\n\n- mends: ld-3\n- because: read off the wrong tag\n- material: steel\n"
    (entry, _) = post_text(log, sheet(mend, part="evening")).recorded
    assert entry.content is not None
    (replaced,) = entry.content.replaces
    assert (replaced.number, replaced.fields) == ("ld-3", ("material",))
    assert entry.content.because == "read off the wrong tag"
    run = fold(log.entries()).things["AIR-IN"]
    assert (run.words("material"), run.words("pipe_length")) == ("steel", "12.60 m")


def test_a_withdrawal_takes_an_entry_back(log: Log):
    post_text(log, sheet(RUN))
    post_text(log, sheet("## withdrawn\n\n- mends: ld-5\n- because: no bend there", part="b"))
    assert [p.key for p in fold(log.entries()).things["AIR-IN"].parts] == ["1"]


def test_a_mend_taken_out_or_put_in_later_is_a_change_too(log: Log):
    post_text(log, sheet("## reading taken fern-bank\n\n- what: rain\n- reading: 2 mm"))
    text = "## reading taken fern-bank\n\n- what: rain\n- reading: 3 mm"
    mend = text + "\n- mends: ld-3\n- because: misread"
    post_text(log, sheet(mend, part="b"))
    assert faults(log, sheet(text + "\n- because: misread", part="b"))


# Pictures


def picture(
    folder: Path, name: str, *, exif: Image.Exif | None = None, kind: str = "JPEG"
) -> bytes:
    buffer = io.BytesIO()
    Image.new("RGB", (8, 6), "brown").save(buffer, kind, **({} if exif is None else {"exif": exif}))
    (folder / name).write_bytes(buffer.getvalue())
    return buffer.getvalue()


def photographed(log: Log, folder: Path, name: str) -> dict[str, object]:
    text = sheet(f"## remark\n\n![wide, looking east, staff in view, shows fern-bank]({name})")
    posted = post_text(log, text, folder=folder)
    return body(posted.recorded[0])


def test_a_pictures_bytes_are_kept_under_their_hash(log: Log, folder: Path, tmp_path: Path):
    data = picture(tmp_path, "IMG_1.jpg")
    said = photographed(log, tmp_path, "IMG_1.jpg")
    assert said["sha256"] == hashlib.sha256(data).hexdigest()
    (kept,) = (folder / "photos").iterdir()
    assert kept.read_bytes() == data and kept.stem == said["sha256"]
    assert (said["view"], said["looking"], said["scale"]) == ("wide", "east", "staff in view")
    assert said["shows"] == ["fern-bank"] and "camera_time" not in said
    assert missing_files(log.files, log.entries()) == ()


@pytest.mark.parametrize("name", ["IMG_1", "IMG_1.JPEG", "IMG_1.jpg.part", "IMG_1.dat"])
def test_a_picture_of_any_name_is_found_again_by_verify(
    log: Log, folder: Path, tmp_path: Path, name: str
):
    picture(tmp_path, name)
    photographed(log, tmp_path, name)
    assert missing_files(log.files, log.entries()) == ()
    next((folder / "photos").iterdir()).unlink()
    assert [what for _, what in missing_files(log.files, log.entries())] != []


def test_what_the_camera_wrote_is_kept_as_its_claim(log: Log, tmp_path: Path):
    """EXIF 2.3: 0x9003 DateTimeOriginal, 0x9011 OffsetTimeOriginal, GPS 17 GPSImgDirection,
    1-4 latitude and longitude."""
    exif = Image.Exif()
    exif.get_ifd(0x8769).update({0x9003: "2031:05-14 14:09:58", 0x9011: "-06:00"})
    exif.get_ifd(0x8825).update(
        {1: "N", 2: (40.0, 1.0, 2.5), 3: "W", 4: (105.0, 3.0, 4.0), 17: 91.6}
    )
    picture(tmp_path, "a.jpg", exif=exif)
    said = photographed(log, tmp_path, "a.jpg")
    assert said["camera_time"] == "2031:05-14 14:09:58 -06:00"
    assert said["camera_direction"] == "92°"
    assert said["camera_place"] == "N 40 1 2.5 W 105 3 4"


@pytest.mark.parametrize(
    "gps",
    [
        {2: 5.0, 4: 6.0},
        {2: (), 4: ()},
        {17: "east"},
        {17: float("nan")},
        {2: "here", 4: "there"},
        {17: (1.0, 0.0)},
    ],
)
def test_a_camera_that_writes_nonsense_claims_nothing(
    log: Log, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, gps: dict[int, object]
):
    class Odd(dict[int, object]):
        def get_ifd(self, tag: int) -> dict[int, object]:
            return gps if tag == 34853 else {36867: "\0\x1b[31m"}

    monkeypatch.setattr(Image.Image, "getexif", lambda self: Odd())
    picture(tmp_path, "a.jpg")
    said = photographed(log, tmp_path, "a.jpg")
    assert not {"camera_direction", "camera_place"} & said.keys()
    assert all(letter.isprintable() for letter in str(said.get("camera_time", "")))


def test_a_file_that_is_no_picture_is_refused(log: Log, tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(b"\xff\xd8\xff not a picture")
    text = sheet("## remark\n\n![wide](a.jpg)")
    assert faults(log, text, tmp_path) == ["a.jpg is not a picture this version can open"]
    assert faults(log, text.replace("a.jpg", "."), tmp_path) == [
        "there is no file . beside the sheet"
    ]
