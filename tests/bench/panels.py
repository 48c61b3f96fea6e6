"""What is behind a panel of a site with many pipes, asked again and again in one process.

The floor is the same question without boxes: every shape cut exactly, in turn. Both give the same.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

from record.answers import behind
from record.fold import fold
from record.place import FaceFrame, Outline, face_frame, openings, outline
from record.readers import View, look_at
from tests.bench.made import PLATE, Pair, Site, length

REACH_M = 1.0
WIDE_M = 250.0  # of the ground the pipes lie in, both ways
STATIONS = 100  # of one run
HULLS = 25


class Piped(Site):
    """A site with hulls, a panel on each, and then nothing but stations of winding runs."""

    def _said(self) -> tuple[str, str, dict[str, object], list[dict[str, object]]]:
        n = self.count
        if n == 0:
            return "site", self.site, {"name": self.site, "datum": "bolt, 50.000 m"}, []
        if n <= HULLS:
            return "hull", f"H-{n}", self._hull(n), []
        if n <= 2 * HULLS:
            return "panel", f"P-{n - HULLS}", {**PLATE, "hull": f"H-{n - HULLS}"}, []
        run, place = divmod(n - 2 * HULLS - 1, STATIONS)
        if place == 0:
            self.at = (self.chance.uniform(0, WIDE_M), self.chance.uniform(0, WIDE_M))
            return "run", f"R-{run}", _PIPE, []
        self.at = (self.at[0] + self.chance.uniform(-2, 2), self.at[1] + self.chance.uniform(-2, 2))
        level = self.chance.uniform(46.0, 49.0)
        return "station", f"R-{run}/{place}", _station(place, *self.at, level), []

    def _hull(self, n: int) -> dict[str, object]:
        x, y = (self.chance.uniform(20, WIDE_M - 20) for _ in range(2))
        bearing = {"text": f"{n * 37 % 360}°", "si": str(n * 37 % 360), "unit": "°"}
        return {
            **{name: length(said) for name, said in _BOX.items()},
            "x": length(f"{x:.2f}"),
            "y": length(f"{y:.2f}"),
            "bearing": bearing,
            "how": "staff",
        }


_BOX = {
    "inside_length": "9.00",
    "inside_width": "2.70",
    "inside_height": "2.50",
    "steel_thickness": "0.006",
    "floor_level": "46.20",
}
_PIPE: dict[str, object] = {
    "carries": "drinking water",
    "outside_diameter": length("0.060"),
    "inside_diameter": length("0.052"),
}


def _station(place: int, x: float, y: float, level: float) -> dict[str, object]:
    return {
        "station": f"{place} bend",
        "x": length(f"{x:.3f}"),
        "y": length(f"{y:.3f}"),
        "level": {"part": "invert", **length(f"{level:.3f}", "0.003")},
        "how": "staff",
    }


def frames(view: View) -> Iterator[FaceFrame]:
    for panel in view.built.of_kind("panel"):
        frame = face_frame(panel, view.hulls[panel.text("hull") or ""])
        if frame is not None:
            yield frame


def by_boxes(view: View, frame: FaceFrame) -> list[Outline]:
    near = view.nearby.behind(frame, REACH_M)
    return [seen for each in near if (seen := outline(each, frame, REACH_M, view.hulls))]


def in_turn(view: View, frame: FaceFrame) -> list[Outline]:
    every = (*view.shapes, *openings(view.built, view.hulls))
    return [seen for each in every if (seen := outline(each, frame, REACH_M, view.hulls))]


def view_of(pairs: list[Pair]) -> View:
    from record.entry import read

    return look_at(fold([read(link, content) for _, link, content in pairs]))


def panels(segments: int = 100_000, times: int = 20) -> Iterator[str]:
    """Yield a row for the shapes behind a panel, and one for the whole answer; milliseconds."""
    view = view_of(list(Piped("fern-bank").entries(segments + segments // STATIONS * 2)))
    asked = list(frames(view))
    start = time.process_time()
    by_boxes(view, asked[0])
    made = time.process_time() - start
    floor = sorted(_ms(lambda frame=frame: in_turn(view, frame)) for frame in asked[:5])[2]  # type: ignore[misc]
    name = f"{len(view.shapes)} shapes"
    spent = [_ms(lambda f=f: by_boxes(view, f)) for f in asked * times]  # type: ignore[misc]
    yield f"{f'what lies behind a panel, {name}':46} {_told(spent)}   every shape {floor:.0f} ms"
    tags = [panel.tag for panel in view.built.of_kind("panel")]
    behind(view, tags[0])  # what has no place is worked out once, too
    whole = [_ms(lambda tag=tag: behind(view, tag)) for tag in tags * 2]  # type: ignore[misc]
    yield f"{f'the whole answer, {name}':46} {_told(whole)}   shapes made once in {made:.1f} s"


def _ms(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return 1000 * (time.process_time() - start)


def _told(spent: list[float]) -> str:
    spent = sorted(spent)
    return f"p50 {spent[len(spent) // 2]:.2f} ms   p99 {spent[len(spent) * 99 // 100]:.2f} ms"
