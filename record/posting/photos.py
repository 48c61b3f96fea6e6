"""Pictures named in a sheet: found, hashed, and what the camera claims of them."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from record.facts.values import Value
from record.sheets import Draft, Sheet, SheetFault

LARGEST = 60_000_000  # bytes
SUFFIXES = {"JPEG": ".jpg", "PNG": ".png"}
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
    suffix = _suffix(data)
    if suffix is None:
        return sheet.text.fault(
            at, f"{file} is not a picture this version can open", "Use a JPEG or PNG file."
        )
    return Picture(data, suffix)


def _suffix(data: bytes) -> str | None:
    """Return what a kept picture's name ends in, by what it is; None if it is no picture."""
    import io

    from PIL import Image

    try:
        with Image.open(io.BytesIO(data), formats=tuple(SUFFIXES)) as image:
            image.verify()
            return SUFFIXES[image.format or ""]
    except Exception:  # Pillow raises many kinds of error on a damaged file
        return None


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
    time = " ".join(_shown(own.get(tag, "")) for tag in (EXIF_TIME, EXIF_OFFSET)).strip()
    found = {
        "camera_time": time,
        "camera_direction": _direction(gps),
        "camera_place": _place(gps),
    }
    return {name: said for name, said in found.items() if said}


def _shown(said: object) -> str:
    return "".join(letter for letter in str(said) if letter.isprintable()).strip()


def _direction(gps: Mapping[int, Any]) -> str:
    try:
        direction = float(gps[EXIF_DIRECTION])
        return f"{direction:.0f}°" if math.isfinite(direction) else ""
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        return ""


def _place(gps: Mapping[int, Any]) -> str:
    """Return latitude and longitude, each as letter, degrees, minutes, seconds."""
    said = []
    try:
        for letter, at in ((1, 2), (3, 4)):
            parts = [float(part) for part in gps[at]]
            if not parts or not all(math.isfinite(part) for part in parts):
                return ""
            said.append(f"{_shown(gps.get(letter, ''))} {' '.join(f'{part:g}' for part in parts)}")
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        return ""
    return " ".join(said).strip()
