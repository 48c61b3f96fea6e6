"""Keep one entry line of every kind and version that is shipped.

``python -m tests.record.keep_lines`` writes a line for each kind that has none yet, and never
touches one that is there: what was shipped once must be read for good.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from record.entry import Content, seal
from record.facts import STORED, Kind
from record.facts.fields import Clock, Count, Day, Field, OneOf, YesNo
from record.facts.named import EntryOf, TagOf, TagsOf
from record.facts.sizes import Measure, Number, PipeLevel
from record.facts.values import to_json
from record.units import Dimension

LINES = Path(__file__).parent / "lines"
MEASURED = {
    Dimension.LENGTH: "12' 4 1/2\" ± 1/2 in",
    Dimension.SLOPE: "1/4 in/ft",
    Dimension.TEMPERATURE: "~14.5 °C",
    Dimension.AREA: "9.03 m²",
    Dimension.VOLUME: "8.5 L",
    Dimension.FLOW: "100 m³/h",
    Dimension.PRESSURE: "60 Pa",
    Dimension.MASS: "6500 kg",
    Dimension.DURATION: "45 min",
    Dimension.ANGLE: "270°",
    Dimension.INTERVAL: "12 months",
    Dimension.PERCENT: "85 %",
    Dimension.ROTATION: "45 rev/min",
    Dimension.HUMIDITY: "60 %",
    Dimension.POWER: "20 W",
    Dimension.VOLTAGE: "12.4 kV",
    Dimension.FORCE: "50 N",
    Dimension.FILM: "250 µm",
    Dimension.DENSITY: "1950 kg/m³",
    Dimension.CONDUCTIVITY: "0.034 W/(m K)",
    Dimension.UNIT_WEIGHT: "18 kN/m³",
    Dimension.DIFFUSIVITY: "0.5 mm²/s",
}


def _sample(field: Field) -> str:
    match field.holds:
        case Measure():
            return MEASURED[field.holds.dimension]
        case PipeLevel():
            return "crown 47.906 m ± 3 mm"
        case YesNo():
            return "yes"
        case Count():
            return "3"
        case Number():
            return "~0.45 ± 0.05"
        case EntryOf():
            return "ld-88, 07:10"
        case OneOf():
            return field.holds.words[0]
        case TagOf():
            return "A"
        case TagsOf():
            return "AIR-IN, D-1"
        case Day():
            return "2031-05-14"
        case Clock():
            return "14:10"
        case _:
            return "as the crew wrote it, 4½″"


def _line(kind: Kind) -> bytes:
    body = {field.name: to_json(field.read(_sample(field))) for field in kind.fields}
    absent = ("not recorded", "none", "n/a, below frost depth")
    for field, words in zip(kind.fields[1:], absent, strict=False):
        body[field.name] = to_json(field.read(words))
    content = Content(
        kind=kind.stored,
        version=kind.version,
        about="AIR-IN/2" if kind.key else "AIR-IN",
        on="2031-05-14",
        at="14:10",
        zone="America/Denver",
        did="ph",
        saw="ck",
        by="ld",
        readers=("owner", "technician"),
        seen={"ck": "0" * 64},
        body=body,
        source={"sheet": "2031-05-14 ld", "line": 14, "key": "", "sha256": "0" * 64},
    )
    entry = seal(
        content,
        site="fern-bank",
        writer="ld",
        seq=1,
        recorded="2031-05-14T21:03:11Z",
        prev=None,
        salt=bytes(range(16)),
    )
    assert entry.content_line is not None
    return entry.content_line


def main() -> None:
    LINES.mkdir(exist_ok=True)
    for kind in STORED.values():
        path = LINES / f"{kind.stored}-v{kind.version}.jsonl"
        if not path.exists():
            path.write_bytes(_line(kind))
            with (LINES / "SHA256SUMS").open("a", encoding="utf-8") as sums:
                sums.write(f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}\n")


if __name__ == "__main__":
    main()
