"""A generated site: entry lines of a plausible mix, sealed as the record seals them, and quickly.

Of each hundred entries about 30 are stations of runs, 18 coats, 14 photographs, 10 readings,
8 statements of valves and panels, 6 left as, 6 tests, 3 remarks, 3 changes of a field, 2 mends;
one in two hundred withdraws. Three writers take turns, day by day, and know of each other's days.
"""

from __future__ import annotations

import hashlib
import json
import random
from collections.abc import Iterator
from pathlib import Path

from record.log import Log

Pair = tuple[str, bytes, bytes]  # link hash, link line, content line
WRITERS = ("ld", "ck", "te")
A_DAY = 120
ZEROS = "0" * 64
READERS = '["owner","technician","trade","responder"]'


class Site:
    """One site's chains, growing entry by entry."""

    def __init__(self, site: str, seed: int = 0) -> None:
        self.site, self.chance = site, random.Random(seed)
        self.heads: dict[str, tuple[int, str]] = {}
        self.known: dict[str, dict[str, str]] = {writer: {} for writer in WRITERS}
        self.mendable: list[tuple[str, str, str, str, dict[str, object]]] = []
        self.count = 0
        self.body: dict[str, object] = {}

    def entries(self, count: int) -> Iterator[Pair]:
        for _ in range(count):
            writer = WRITERS[self.count // A_DAY % 3]
            if self.count % A_DAY == 0:  # in the morning everyone's day is known
                self.known[writer] = {w: h for w, (_, h) in self.heads.items() if w != writer}
            yield self._sealed(writer, *self._said())
            self.count += 1

    def _said(self) -> tuple[str, str, dict[str, object], list[dict[str, object]]]:
        n, draw = self.count, self.count * 37 % 200
        run, valve = f"R-{n // 100}", f"V-{n // 100}"
        if n == 0:
            return "site", self.site, {"name": self.site, "datum": "bolt, 50.000 m"}, []
        if n == 1:
            return "hull", "A", _HULL, []
        if n == 2:
            return "panel", "P-1", PLATE, []
        if draw < 60:
            x, level = f"{n % 977 / 8:.3f}", f"{47 + n % 89 / 50:.3f}"
            return (
                "station",
                f"{run}/{n % 100}",
                {
                    "station": f"{n % 100} bend",
                    "x": length(x),
                    "y": length(level),
                    "level": {"part": "invert", **length(level, "0.003")},
                    "how": "staff",
                },
                [],
            )
        if draw < 96:
            body = {
                "layer": "tar",
                "coat": n % 3 + 1,
                "lot": f"T-{n % 19}",
                "film": length("0.0025"),
                "surface": {"text": "14.5 °C", "si": "287.65", "unit": "°C"},
            }
            return "coat-applied", run, body, []
        if draw < 124:
            digest = hashlib.sha256(str(n).encode()).hexdigest()
            return (
                "photographed",
                self.site,
                {
                    "file": f"IMG_{n}.jpg",
                    "caption": f"wide, looking east, shows {run}, {valve}",
                    "shows": [run, valve],
                    "sha256": digest,
                },
                [],
            )
        if draw < 144:
            return "reading-taken", run, {"what": "flow", "reading": f"{n % 97} L/min"}, []
        if draw < 160:
            return "valve", valve, {"type": "ball", "on_run": run, "size": length("0.0508")}, []
        if draw < 172:
            return "left-as", valve, {"state": "open" if n % 2 else "shut"}, []
        if draw < 184:
            body = {"test": "pour", "result": "passed", "reading": "dry", "limit": "dry"}
            return "tested", valve, {**body, "instrument": "eye"}, []
        if draw < 189:
            return "remark", run, {"text": "Dry all day, a light wind from the west."}, []
        if draw < 195 or not self.mendable:
            return "valve", valve, {"serial": f"S-{n}"}, []
        hash_, number, kind, about, body = self.mendable[-1]
        if draw == 199:
            return "withdrawn", self.site, {}, [{"entry": hash_, "number": number, "fields": []}]
        fields = list(body)[-2:]
        mend = {"entry": hash_, "number": number, "fields": fields}
        return kind, about, {name: body[name] for name in fields}, [mend]

    def _sealed(
        self,
        writer: str,
        kind: str,
        about: str,
        body: dict[str, object],
        replaces: list[dict[str, object]],
    ) -> Pair:
        seq, prev = self.heads.get(writer, (0, None))
        day = self.count // A_DAY
        on = f"{2031 + day // 336}-{day // 28 % 12 + 1:02d}-{day % 28 + 1:02d}"
        minute = self.count % A_DAY * 4
        because = '"it was misread"' if replaces else "null"
        came = f'"sheet":"{on} {writer}","line":{minute + 9},"key":"","sha256":"{ZEROS}"'
        before = "null" if prev is None else f'"{prev}"'
        content = (
            f'{{"salt":"{seq:032x}","kind":"{kind}","v":1,"about":"{about}","on":"{on}",'
            f'"at":"{8 + minute // 60:02d}:{minute % 60:02d}","zone":"America/Denver","did":"ph",'
            f'"saw":"ck","by":null,"readers":{READERS},"seen":{_json(self.known[writer])},'
            f'"body":{_json(body)},"replaces":{_json(replaces)},'
            f'"because":{because},'
            f'"from":{{{came}}}}}\n'
        ).encode()
        link = (
            f'{{"site":"{self.site}","writer":"{writer}","seq":{seq + 1},'
            f'"recorded":"{on}T20:00:00Z","content":"{hashlib.sha256(content).hexdigest()}",'
            f'"prev":{before}}}\n'
        ).encode()
        hash_ = hashlib.sha256(link).hexdigest()
        self.heads[writer] = (seq + 1, hash_)
        if kind in ("station", "valve", "coat-applied") and not replaces:
            self.mendable = [(hash_, f"{writer}-{seq + 1}", kind, about, body)]
        return hash_, link, content


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def length(si: str, tol: str | None = None) -> dict[str, object]:
    form: dict[str, object] = {"text": f"{si} m", "si": si, "unit": "m"}
    return {**form, "tol": tol} if tol else form


_HULL = {
    "inside_length": length("9.00"),
    "inside_width": length("2.70"),
    "inside_height": length("2.50"),
    "steel_thickness": length("0.006"),
    "x": length("20.00"),
    "y": length("10.00"),
    "floor_level": length("46.20"),
    "bearing": {"text": "270°", "si": "270", "unit": "°"},
    "how": "staff",
}
PLATE = {
    "hull": "A",
    "face": "left",
    "from_near": length("2.40"),
    "bottom": length("46.55"),
    "width": length("1.20"),
    "height": length("2.15"),
}


def fleet(sites: int, each: int) -> Iterator[list[Pair]]:
    """Yield the lines of one site after the other."""
    for number in range(sites):
        yield list(Site(f"site-{number}", number).entries(each))


def record_of(place: Path, site: Site, count: int) -> Path:
    """Write a record of ``count`` entries, past posting: the lines are what matters here."""
    from record.entry import read

    with Log.make(place) as log, log.writing() as writing:
        writing.append(
            [read(link, content) for _, link, content in site.entries(count)],
            received="2031-06-01T12:00:00Z",
        )
    return place
