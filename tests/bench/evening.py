"""A site of many things with coverings ahead, for timing `ready` against the fold alone.

Of each forty things: a covering over four of the next runs, ten runs of three stations, twenty
valves on them, nine fittings. Runs lie side by side, 2 m apart, as many as a big site never has.
"""

from __future__ import annotations

from tests.bench.made import Site, length

EACH = 40
RUNS, VALVES = 10, 20


class Big(Site):
    """One writer's chain after another; entries are things and the stations of runs."""

    def said(self, count: int) -> list[tuple[str, str, dict[str, object]]]:
        """Return what the entries of ``count`` things say: kind, tag, body."""
        found: list[tuple[str, str, dict[str, object]]] = [
            ("site", self.site, {"name": self.site, "datum": "bolt, 50.000 m"})
        ]
        for n in range(count - 1):
            found += _thing(n)
        return found

    def things(self, count: int) -> list[tuple[str, bytes, bytes]]:
        """Return the sealed lines of ``count`` things."""
        pairs = []
        for kind, tag, body in self.said(count):
            writer = ("ld", "ck", "te")[self.count // 120 % 3]
            if self.count % 120 == 0:
                self.known[writer] = {w: h for w, (_, h) in self.heads.items() if w != writer}
            pairs.append(self._sealed(writer, kind, tag, body, []))
            self.count += 1
        return pairs


def _thing(n: int) -> list[tuple[str, str, dict[str, object]]]:
    block, place = divmod(n, EACH)
    run = f"R-{block}-{place % RUNS}"
    if place == 0:
        hides = [f"R-{block}-{k}" for k in range(1, 5)]
        body = {"what": "backfill", "hides": hides, "planned": "2031-05-20"}
        return [("covering", f"FILL-{block}", body)]
    if place <= RUNS:
        return _run(f"R-{block}-{place}", block * RUNS + place)
    if place <= RUNS + VALVES:
        return [("valve", f"V-{n}", {"type": "ball", "on_run": run, "size": length("0.0508")})]
    return [("fitting", f"F-{n}", {"type": "bend", "on_run": run})]


def _run(tag: str, lane: int) -> list[tuple[str, str, dict[str, object]]]:
    said: list[tuple[str, str, dict[str, object]]] = [
        (
            "run",
            tag,
            {
                "carries": "supply air",
                "size": length("0.150"),
                "outside_diameter": length("0.160"),
                "inside_diameter": length("0.152"),
                "falls_to": "3",
            },
        )
    ]
    for key, x, level in (
        ("1 start", "0", "48.40"),
        ("2 bend", "5", "48.30"),
        ("3 end", "12", "48.15"),
    ):
        body = {
            "station": key,
            "x": length(x),
            "y": length(str(2 * lane)),
            "level": {"part": "invert", **length(level, "0.003")},
            "ground": length("49.90"),
            "how": "staff",
        }
        said.append(("station", f"{tag}/{key[0]}", body))
    return said
