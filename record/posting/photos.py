"""Pictures named in a sheet: found, hashed, and what the camera claims of them."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from record.facts.values import Value
from record.sheets import Draft, Sheet, SheetFault

LARGEST = 60_000_000  # bytes
EXIF_TIME, EXIF_OFFSET, EXIF_DIRECTION, EXIF_SUB, EXIF_GPS = 36867, 36881, 17, 34665, 34853


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture file: its bytes as they came, and where it is to be kept."""

    data: bytes
    suffix: str


def take_pictures(
    sheet: Sheet, folder: Path | None
) -> tuple[tuple[Draft, ...], tuple[Picture, ...], list[SheetFault]]:
    """
    Return the sheet's drafts with each picture's hash in them, the pictures, and faults.

    Time, direction and place that the camera wrote are kept as its claims, apart from what
    the crew said. A missing or unreadable file is a fault of the sheet.
    """
    drafts: list[Draft] = []
    pictures: list[Picture] = []
    faults: list[SheetFault] = []
    for draft in sheet.drafts:
        file = draft.body.get("file")
        if draft.kind.word != "photographed" or not isinstance(file, str) or draft.mends:
            drafts.append(draft)
            continue
        picture = _read(sheet, draft, folder, file)
        if isinstance(picture, SheetFault):
            faults.append(picture)
            continue
        pictures.append(picture)
        body: dict[str, Value] = {
            **draft.body,
            "sha256": hashlib.sha256(picture.data).hexdigest(),
            **claims(picture.data),
        }
        drafts.append(replace(draft, body=body))
    return tuple(drafts), tuple(pictures), faults


def _read(sheet: Sheet, draft: Draft, folder: Path | None, file: str) -> Picture | SheetFault:
    at = draft.spot("file")
    path = (folder or Path()) / file
    try:
        if folder is None:
            raise FileNotFoundError
        if path.stat().st_size > LARGEST:
            return sheet.text.fault(at, f"{file} is larger than a picture", "Is it the right file?")
        data = path.read_bytes()
    except (OSError, ValueError):
        return sheet.text.fault(
            at,
            f"there is no file {file} beside the sheet",
            "Put the picture where the sheet names it, or set the name right.",
        )
    if not _is_picture(data):
        return sheet.text.fault(
            at, f"{file} is not a picture this version can open", "Use a JPEG or PNG file."
        )
    return Picture(data, path.suffix.lower())


def _is_picture(data: bytes) -> bool:
    import io

    from PIL import Image

    try:
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG")) as image:
            image.verify()
    except Exception:  # Pillow raises many kinds of error on a damaged file
        return False
    return True


def claims(data: bytes) -> Mapping[str, Value]:
    """Return what the camera wrote of time, direction and place; nothing where it wrote none."""
    import io

    from PIL import Image

    try:
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG")) as image:
            exif = image.getexif()
            own = exif.get_ifd(EXIF_SUB)
            gps = exif.get_ifd(EXIF_GPS)
    except Exception:  # a damaged EXIF block claims nothing
        return {}
    found: dict[str, Value] = {}
    if time := str(own.get(EXIF_TIME, "")).strip("\0 "):
        found["camera_time"] = f"{time} {own.get(EXIF_OFFSET, '')}".strip("\0 ")
    if EXIF_DIRECTION in gps:
        found["camera_direction"] = f"{float(gps[EXIF_DIRECTION]):.0f}°"
    if 2 in gps and 4 in gps:
        found["camera_place"] = " ".join(
            f"{gps.get(ref, '')} " + " ".join(f"{float(p):g}" for p in gps[at])
            for ref, at in ((1, 2), (3, 4))
        )
    return found
