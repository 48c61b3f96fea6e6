"""Pictures as cameras, phones and careless copies leave them: kept as they came, or refused."""

from __future__ import annotations

import io
import os
from pathlib import Path

import pytest
from PIL import Image

from record.log import Log
from record.posting.photos import LARGEST, claims
from record.sheets import SheetRejected
from tests.record.records import post_text, sheet


def picture(kind: str = "JPEG", size: tuple[int, int] = (640, 480), **how: object) -> bytes:
    out = io.BytesIO()
    Image.effect_noise(size, 60).save(out, kind, **how)
    return out.getvalue()


def with_exif(**tags: object) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = tags.pop("orientation", 1)
    exif.get_ifd(0x8769).update({0x9003: "2031:05:14 14:09:58"})
    return picture(exif=exif)


def post_one(log: Log, folder: Path, name: str = "a.jpg") -> dict[str, object]:
    text = sheet(f"## remark\n\n![wide, looking east]({name})")
    content = post_text(log, text, folder=folder).recorded[0].content
    assert content is not None
    return dict(content.body)


def refused(log: Log, folder: Path, name: str = "a.jpg") -> str:
    with pytest.raises(SheetRejected) as caught:
        post_one(log, folder, name)
    [fault] = caught.value.faults
    assert fault.text[fault.column - 1 :].startswith(name) and fault.remedy
    return fault.problem


def test_half_a_picture_is_refused_even_where_pages_were_laid_out_before(
    log: Log, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """WeasyPrint sets Pillow's switch for the whole process; it must not reach what is kept."""
    monkeypatch.setattr("PIL.ImageFile.LOAD_TRUNCATED_IMAGES", True)
    (tmp_path / "a.jpg").write_bytes(picture()[:-400])
    assert "cut short" in refused(log, tmp_path)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_picture_the_phone_marked_as_turned_is_kept_as_it_came(
    log: Log, folder: Path, tmp_path: Path, orientation: int
):
    data = with_exif(orientation=orientation)
    (tmp_path / "a.jpg").write_bytes(data)
    body = post_one(log, tmp_path)
    assert (folder / "photos" / f"{body['sha256']}.jpg").read_bytes() == data
    assert body["camera_time"] == "2031:05:14 14:09:58"


def test_a_picture_without_any_claim_makes_none(log: Log, tmp_path: Path):
    (tmp_path / "a.png").write_bytes(picture("PNG"))
    assert not [key for key in post_one(log, tmp_path, "a.png") if key.startswith("camera")]


def test_a_torn_block_of_claims_takes_the_picture_and_claims_nothing(log: Log, tmp_path: Path):
    data = with_exif()
    at = data.index(b"Exif\0\0") + 6
    (tmp_path / "a.jpg").write_bytes(data[:at] + b"\xff" * 20 + data[at + 20 :])
    assert not [key for key in post_one(log, tmp_path) if key.startswith("camera")]


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "is empty"),
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"\0" * 40, "HEIC"),
        (b"%PDF-1.7", "not a picture"),
        (picture()[:-4000], "cut short"),
        (picture("PNG")[:-4000], "cut short"),
        (picture("BMP", (8, 8)), "not a picture"),
        (b"\xff\xd8\xff\xe0", "not a picture"),
    ],
)
def test_what_cannot_be_looked_at_later_is_refused_today(
    log: Log, folder: Path, tmp_path: Path, data: bytes, says: str
):
    (tmp_path / "a.jpg").write_bytes(data)
    assert says in refused(log, tmp_path)
    assert not (folder / "photos").exists() or not list((folder / "photos").iterdir())


def test_a_file_that_is_far_too_large_is_not_even_read(log: Log, tmp_path: Path):
    with (tmp_path / "a.jpg").open("wb") as file:
        file.truncate(LARGEST + 1)
    assert "larger than a picture" in refused(log, tmp_path)


def test_a_picture_of_too_many_points_is_no_warning_and_no_hang(
    log: Log, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, recwarn: pytest.WarningsRecorder
):
    """Pillow warns past its limit of pixels and refuses past twice that."""
    (tmp_path / "a.png").write_bytes(picture("PNG", (100, 100)))
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 6_000)
    post_one(log, tmp_path, "a.png")
    assert not recwarn.list
    (tmp_path / "b.png").write_bytes(picture("PNG", (200, 200)))
    assert "not a picture" in refused(log, tmp_path, "b.png")


def test_what_lies_outside_the_sheets_folder_is_not_taken_in(log: Log, tmp_path: Path):
    (tmp_path / "private.jpg").write_bytes(picture())
    inside = tmp_path / "sheets"
    inside.mkdir()
    (inside / "link.jpg").symlink_to(tmp_path / "private.jpg")
    for name in ("../private.jpg", str(tmp_path / "private.jpg"), "link.jpg"):
        assert "outside the folder" in refused(log, inside, name)


def test_a_link_to_a_picture_beside_it_is_followed(log: Log, tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(picture())
    (tmp_path / "b.jpg").symlink_to("a.jpg")
    assert post_one(log, tmp_path, "b.jpg")["file"] == "b.jpg"


def test_pipes_folders_circles_and_odd_names_are_no_files(log: Log, tmp_path: Path):
    os.mkfifo(tmp_path / "pipe.jpg")
    (tmp_path / "folder.jpg").mkdir()
    (tmp_path / "circle.jpg").symlink_to("circle.jpg")
    for name in ("pipe.jpg", "folder.jpg", "circle.jpg", "a" * 300 + ".jpg", "none.jpg"):
        assert "there is no file" in refused(log, tmp_path, name)


def test_a_claim_never_takes_the_place_of_what_was_written(log: Log, tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(with_exif())
    text = sheet("## remark\n\n- at: 08:15\n\n![wide, looking east](a.jpg)", day="2031-05-13")
    content = post_text(log, text, folder=tmp_path).recorded[0].content
    assert content is not None and content.body["camera_time"] == "2031:05:14 14:09:58"
    assert (content.on, content.at, content.body["looking"]) == ("2031-05-13", "08:15", "east")


def test_no_bytes_of_claims_bring_the_reader_down():
    data = with_exif()
    start = data.index(b"Exif\0\0") + 6
    for at in range(start, min(start + 120, len(data))):
        torn = bytearray(data)
        torn[at] ^= 0xFF
        assert all(isinstance(said, str) and said for said in claims(bytes(torn)).values())
