"""Pictures named in a sheet: found, hashed, and what the camera claims of them."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Any

from record.facts.values import Value
from record.sheets import Draft, Sheet, SheetFault

if TYPE_CHECKING:
    from PIL import Image

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
    if folder is None or (path := _found(folder, file)) is None:
        return sheet.text.fault(
            at,
            f"there is no file {file} beside the sheet",
            f"{_like(folder, file)}Put the picture where the sheet names it, or set the name "
            "right; if there is none, take the line out, and post it on a later sheet when it "
            "turns up.",
        )
    if not path.is_relative_to(folder.resolve()):
        return sheet.text.fault(
            at,
            f"{file} lies outside the folder of the sheet",
            "Copy the picture beside the sheet; what lies elsewhere is not taken in unasked.",
        )
    try:
        if path.stat().st_size > LARGEST:
            return sheet.text.fault(at, f"{file} is larger than a picture", "Is it the right file?")
        data = path.read_bytes()
    except OSError as fault:
        says = f"{file} cannot be read ({fault.strerror})"
        return sheet.text.fault(at, says, "See that the file may be read, then post it again.")
    picture = _opened(data)
    if isinstance(picture, Picture):
        return picture
    problem, remedy = picture
    return sheet.text.fault(at, f"{file} {problem}", remedy)


def _found(folder: Path, file: str) -> Path | None:
    """Return the plain file a sheet names, links followed; None where there is none.

    A pipe or a device is none: reading it might never end.
    """
    try:
        path = (folder / file).resolve()
        return path if path.is_file() else None
    except (OSError, ValueError, RuntimeError):  # too long, a NUL, links in a circle
        return None


def _like(folder: Path | None, file: str) -> str:
    """Return a picture's name beside the sheet that is like the one it names, as a question."""
    if folder is None:
        return ""
    try:
        named = (folder / file).parent
        there = {each.name.casefold(): each.name for each in named.iterdir() if each.is_file()}
    except (OSError, ValueError, RuntimeError):
        return ""
    near = get_close_matches(Path(file).name.casefold(), there, 1, 0.85)
    return f"Did you mean {(Path(file).parent / there[near[0]]).as_posix()}? " if near else ""


def _opened(data: bytes) -> Picture | tuple[str, str]:
    """Return the picture that bytes are, whole; else what is wrong and what to do."""
    if not data:
        return "is empty", "Copy it from the camera again."
    if data[4:8] == b"ftyp":
        return (
            "is not a JPEG or PNG picture, but a HEIC or AVIF one or a film",
            "Export it as JPEG, and keep the original too.",
        )
    suffix = _suffix(data)
    if suffix is None:
        return "is not a picture this version can open", "Use a JPEG or PNG file."
    if not _whole(data):
        return "is cut short or damaged", "Copy it from the camera again."
    return Picture(data, suffix)


def _suffix(data: bytes) -> str | None:
    """Return what a kept picture's name ends in, by what it is; None if it is no picture."""
    try:
        with _image(data) as image:
            return SUFFIXES[image.format or ""]
    except Exception:  # Pillow raises many kinds of error on a damaged file
        return None


def _whole(data: bytes) -> bool:
    """Return whether a picture can be read to its end."""
    from PIL import ImageFile

    # A library that lays out pages lets half pictures pass, for the whole process.
    lenient, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        with _image(data) as image:
            image.draft("L", (1, 1))  # a JPEG is then read whole, but not worked out in full
            image.load()
            return True
    except Exception:
        return False
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient


def _image(data: bytes) -> Image.Image:
    import io
    import warnings

    from PIL import Image

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of very many pixels; past a limit that is an error
        return Image.open(io.BytesIO(data), formats=tuple(SUFFIXES))


def claims(data: bytes) -> Mapping[str, Value]:
    """Return what the camera wrote of time, direction and place; nothing where it wrote none."""
    try:
        with _image(data) as image:
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
