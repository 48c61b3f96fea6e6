"""Draw the demo's pictures: small scenes with a slate, and the EXIF a phone would write.

No photograph is shipped. Every picture says on its slate that it was drawn. The same Pillow
gives the same bytes.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from PIL import Image, ImageDraw, ImageFont

SIZE = (720, 540)
SLATE = 66  # pixels at the foot
ZONE = "America/Denver"
EXIF_IFD, GPS_IFD = 0x8769, 0x8825
DATE_ORIGINAL, OFFSET_ORIGINAL, SOFTWARE = 0x9003, 0x9011, 0x0131
GPS_VERSION, DIRECTION_REF, DIRECTION = 0, 16, 17

SKY, EARTH, SAND, STEEL = "#c9d6de", "#8a6a4a", "#d8c48f", "#6f7780"
TAR, FOAM, WRAP, BOARD, WOOD = "#1d1b1a", "#efe3b4", "#4c5560", "#d9d6cd", "#b98d5a"
GREEN, RED, WHITE, ORANGE = "#6f8f4e", "#b3261e", "#fbfbf6", "#e07a1f"

BOARDED = ("boards", "hole", "filled", "rail")  # walls whose boards are on

Pen = ImageDraw.ImageDraw


def staff(pen: Pen, x: int, top: int, foot: int) -> None:
    """A levelling staff, marked every tenth of its length."""
    pen.rectangle((x, top, x + 16, foot), fill=WHITE, outline="black")
    step = max(6, (foot - top) // 20)
    for n, y in enumerate(range(top, foot - step, step)):
        if n % 2:
            pen.rectangle((x + 2, y, x + 10, y + step), fill=RED if n % 4 == 1 else "black")


def rule(pen: Pen, left: int, y: int, length: int = 260) -> None:
    """A folding rule, laid in view."""
    pen.rectangle((left, y, left + length, y + 14), fill="#f2d24b", outline="black")
    for n, x in enumerate(range(left, left + length, 13)):
        pen.line((x, y, x, y + (9 if n % 5 == 0 else 5)), fill="black")


def ground(pen: Pen) -> None:
    pen.rectangle((0, 0, SIZE[0], 170), fill=SKY)
    pen.rectangle((0, 170, *SIZE), fill=EARTH)


def trench(pen: Pen, pipes: str) -> None:
    """An open trench with one or two pipes on sand; "bend" turns the pipe."""
    ground(pen)
    pen.polygon([(120, 474), (300, 170), (420, 170), (620, 474)], fill="#6d5238")
    pen.polygon([(210, 474), (330, 190), (395, 190), (530, 474)], fill=SAND)
    run = [(370, 474), (365, 300), (360, 190)]
    if pipes == "bend":
        run = [(300, 474), (365, 320), (500, 250)]
    for shift in (0, 70) if pipes == "two" else (0,):
        path = [(x + shift - (20 if pipes == "two" else 0), y) for x, y in run]
        pen.line(path, fill="#3c4650", width=34, joint="curve")
        pen.line(path, fill="#9fb0bd", width=24, joint="curve")
    staff(pen, 450, 110, 330)


def outfall(pen: Pen, what: str) -> None:
    """A pipe end in a bank, a terminal, or a low point on gravel."""
    ground(pen)
    colour = {"gravel": "#9a9a92", "terminal": GREEN}.get(what, EARTH)
    pen.polygon([(0, 474), (0, 250), (720, 120), (720, 474)], fill=colour)
    pen.ellipse((290, 230, 410, 350), fill="#3c4650")
    pen.ellipse((306, 246, 394, 334), fill="#101214")
    if what == "flap":
        pen.pieslice((300, 238, 400, 342), 0, 180, fill="#9aa3ab", outline="black")
    rule(pen, 240, 390)


def hull(pen: Pen, what: str) -> None:
    """A steel box in its pit, or two and their link; or only the bed, or only the pit wall."""
    ground(pen)
    pen.polygon([(40, 474), (130, 210), (590, 210), (690, 474)], fill="#7a5c3f")
    pen.polygon([(90, 474), (150, 380), (570, 380), (640, 474)], fill=SAND)
    if what == "link":
        for x in (150, 430):
            pen.rectangle((x, 230, x + 150, 420), fill=STEEL, outline="black", width=3)
        pen.rectangle((300, 270, 430, 410), fill="#868e96", outline="black", width=3)
    if what == "box":
        pen.rectangle((180, 230, 540, 420), fill=STEEL, outline="black", width=3)
        pen.line((180, 268, 540, 268), fill="#8b949c", width=4)
    if what == "mark":
        pen.line((90, 330, 640, 330), fill=ORANGE, width=12)
    staff(pen, 575, 150, 410) if what != "mark" else rule(pen, 220, 360)


def seam(pen: Pen, coat: str) -> None:
    """A corner of two plates and the seam between them, at one stage of its build-up."""
    pen.rectangle((0, 0, *SIZE), fill=STEEL)
    pen.polygon([(0, 0), (330, 0), (430, 474), (0, 474)], fill="#848c94")
    colour = {"bare": "#b9bec2", "tar": TAR, "foam": FOAM, "wrap": WRAP}[coat]
    width = 26 if coat == "bare" else 110
    pen.line((330, 0, 430, 474), fill=colour, width=width)
    for y in range(6, 470, 18):
        x = 330 + y * 100 // 474
        if coat == "bare":
            pen.arc((x - 12, y - 10, x + 12, y + 14), 200, 340, fill="#555", width=3)
        elif coat == "wrap":
            pen.line((x - 52, y + 20, x + 56, y), fill="#737d88", width=4)
    rule(pen, 90, 400)


def window(pen: Pen, _: str) -> None:
    """A hand-dug window in the fill, wrapped seam at its bottom."""
    pen.rectangle((0, 0, *SIZE), fill=EARTH)
    pen.rectangle((210, 110, 510, 400), fill="#5d452e")
    pen.rectangle((250, 140, 470, 370), fill=STEEL)
    pen.line((360, 140, 360, 370), fill=WRAP, width=90)
    for y in range(150, 366, 18):
        pen.line((316, y + 14, 404, y), fill="#737d88", width=4)
    rule(pen, 230, 410)


def wall(pen: Pen, what: str) -> None:
    """A wall: battens with foam, or boards; with a box, a conduit, a hole, or a sleeve."""
    pen.rectangle((0, 0, *SIZE), fill=BOARD if what in BOARDED else FOAM)
    for x in range(30, 720, 165):
        if what in BOARDED:
            pen.line((x, 0, x, 474), fill="#8f8b80", width=3)
        else:
            pen.rectangle((x, 0, x + 30, 474), fill=WOOD, outline="#7d5b34")
    if what == "box":
        pen.rectangle((250, 150, 480, 350), fill=STEEL, outline="black", width=4)
    if what == "conduit":
        pen.line((420, 0, 420, 474), fill="#e8e8e8", width=16)
    if what in ("hole", "filled"):
        pen.ellipse((352, 232, 368, 248), fill="#151515" if what == "hole" else "#f3f1ea")
    if what == "rail":
        pen.rectangle((205, 210, 350, 250), fill=WOOD, outline="#7d5b34", width=3)
        for x in range(223, 350, 36):
            pen.ellipse((x - 5, 225, x + 5, 235), fill="#3c3c3c")
            pen.arc((x - 14, 236, x + 14, 280), 0, 180, fill="#3c3c3c", width=6)
    if what == "sleeve":
        pen.ellipse((330, 200, 400, 270), fill="#30353a", outline=RED, width=8)
    staff(pen, 660, 60, 440) if what == "boards" else rule(pen, 90, 410)


def valves(pen: Pen, _: str) -> None:
    """Two ball valves side by side, one lever across its pipe and one along it."""
    wall(pen, "furring")
    for x, across in ((260, True), (430, False)):
        pen.line((x, 0, x, 474), fill="#9fb0bd", width=30)
        pen.rectangle((x - 34, 210, x + 34, 280), fill="#c2a44c", outline="black")
        ends = (x - 10, 245, x + 110, 245) if across else (x, 245, x, 130)
        pen.line(ends, fill=RED, width=16)
        pen.rectangle((x - 30, 300, x + 30, 330), fill=WHITE, outline="black")


def check(pen: Pen, size: str) -> None:
    """A check valve on its pipe, its body as wide again as the pipe, with the arrow cast on it."""
    wall(pen, "furring")
    half = 70 if size == "large" else 26
    body = "#26292c" if size == "large" else "#8d949a"
    pen.rectangle((0, 230 - half, SIZE[0], 230 + half), fill="#9fb0bd", outline="black")
    middle, wide = 360, half * 2
    cast = (middle - wide, 212 - half, middle + wide, 248 + half)
    pen.rectangle(cast, fill=body, outline="black")
    pen.ellipse((middle - half, 180 - half * 2, middle + half, 216), fill=body, outline="black")
    pen.line((middle - half, 230, middle + half, 230), fill=WHITE, width=8)
    pen.polygon([(middle + half, 212), (middle + half, 248), (middle + half + 26, 230)], fill=WHITE)


def pit(pen: Pen, what: str) -> None:
    """A small hole dug by hand, a pipe across its bottom; or the pipe near by, with a scratch."""
    pen.rectangle((0, 0, *SIZE), fill=GREEN if what == "pipe" else EARTH)
    if what == "pipe":
        pen.ellipse((190, 60, 530, 400), fill=EARTH, outline="#4d3a26", width=8)
        pen.ellipse((250, 120, 470, 340), fill="#5d452e")
    half = 16 if what == "pipe" else 60
    ends = (252, 468) if what == "pipe" else (0, SIZE[0])
    pen.rectangle((ends[0], 230 - half, ends[1], 230 + half), fill="#c8743a", outline="black")
    if what == "scratch":
        pen.line((300, 205, 420, 216), fill="#f0c9a8", width=5)
    rule(pen, 230, 420)


def hatch(pen: Pen, what: str) -> None:
    """The shaft: standing outside at the end wall, or its open hatch from the room."""
    if what == "outside":
        hull(pen, "box")
        pen.rectangle((90, 90, 180, 420), fill="#5f676f", outline="black", width=3)
        return
    wall(pen, "boards")
    pen.rectangle((250, 150, 460, 420), fill="#0c0d0f", outline=STEEL, width=14)
    rule(pen, 226, 436)


def mound(pen: Pen, what: str) -> None:
    """Turf, with a mound; or with bare soil where a hole was filled."""
    ground(pen)
    pen.rectangle((0, 170, *SIZE), fill=GREEN)
    if what == "soil":
        pen.ellipse((230, 270, 490, 400), fill=EARTH)
    else:
        pen.pieslice((60, 150, 660, 520), 180, 360, fill="#7fa05c")
    staff(pen, 350, 80, 300)


SCENES: dict[str, Callable[[Pen, str], None]] = {
    scene.__name__: scene
    for scene in (trench, outfall, hull, seam, window, wall, valves, check, pit, hatch, mound)
}


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture: its name, scene, moment, where the camera looked (degrees), its slate."""

    name: str
    scene: str
    what: str
    taken: datetime
    looking: int
    slate: str


def pictures(listing: Path) -> list[Picture]:
    """Return the pictures of a listing: name, scene, what, time, degrees, slate on each line."""
    found = []
    for line in listing.read_text(encoding="utf-8").splitlines():
        if line.strip() and not line.startswith("#"):
            name, scene, what, taken, looking, slate = line.split(maxsplit=5)
            moment = datetime.fromisoformat(taken)
            found.append(Picture(name, scene, what, moment, int(looking), slate))
    return found


def draw(picture: Picture, folder: Path) -> None:
    """Write one picture into ``folder`` as JPEG."""
    image = Image.new("RGB", SIZE, SKY)
    pen = ImageDraw.Draw(image)
    SCENES[picture.scene](pen, picture.what)
    pen.rectangle((0, SIZE[1] - SLATE, *SIZE), fill="#20262b")
    pen.text((14, SIZE[1] - SLATE + 7), picture.slate, fill=WHITE, font=ImageFont.load_default(22))
    note = f"{picture.taken:%Y-%m-%d %H:%M}   drawn picture, not a photograph"
    pen.text((14, SIZE[1] - SLATE + 38), note, fill="#c9d6de", font=ImageFont.load_default(17))
    image.save(folder / picture.name, "JPEG", quality=78, exif=exif(picture))


def exif(picture: Picture) -> Image.Exif:
    """Return what a phone writes beside a picture: its time, its offset, where it looked."""
    held = Image.Exif()
    held[SOFTWARE] = "drawn picture, not a photograph"
    times = held.get_ifd(EXIF_IFD)
    times[DATE_ORIGINAL] = f"{picture.taken:%Y:%m:%d %H:%M:%S}"
    times[OFFSET_ORIGINAL] = picture.taken.replace(tzinfo=ZoneInfo(ZONE)).isoformat()[-6:]
    place = held.get_ifd(GPS_IFD)
    place[GPS_VERSION] = b"\x02\x03\x00\x00"
    place[DIRECTION_REF] = "T"
    place[DIRECTION] = float(picture.looking)
    return held


def main() -> None:
    """Draw every picture of the listing beside this file into the folder named."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for picture in pictures(Path(__file__).with_name("photos.txt")):
        draw(picture, folder)


if __name__ == "__main__":
    main()
