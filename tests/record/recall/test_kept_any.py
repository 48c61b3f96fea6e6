"""Fleets of any kind: what is kept gives the answer that reading everything gives."""

from __future__ import annotations

import tempfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from record.recall import NotNarrowed, Site, recall
from record.recall.keeping import keep
from record.recall.kept import kept
from record.recall.values import Came, Copy, Done, LotOf, Notice, Piece, Told, Was

LOTS = ("v-1", "v-2", "v-3\0ÿ")
PARTS = ("op 160", "op 200")
TAGS = ("OV-1", "OV-2")
ABSENT = ("", "not recorded", "none", "not settled", "n/a, ground")
some = st.lists(st.sampled_from(LOTS), max_size=2, unique=True).map(tuple)
some_parts = st.lists(st.sampled_from(PARTS), max_size=2, unique=True).map(tuple)
was = st.builds(
    Was, said=st.just("V"), names=st.one_of(some, some_parts), on=st.just("2031-05-14"),
    entry=st.just("ld-1"), since=st.just("2031-06-01"), by=st.just("te-1"), mended=st.booleans(),
)  # fmt: skip
piece = st.builds(
    Piece, tag=st.sampled_from(TAGS), kind=st.sampled_from(("valve", "coat applied")),
    type=st.sampled_from(("", "ball", "gate")), slot=st.sampled_from(("lot", "seal lot")),
    words=st.just("a piece"), where=st.just("A"), lot=st.just("V"), names=some,
    lot_absent=st.sampled_from(ABSENT), part=st.just("OP"), parts=some_parts,
    part_absent=st.sampled_from(ABSENT), entries=st.just(("ld-1",)),
    before=st.lists(was, max_size=1).map(tuple), gone=st.sampled_from(("", "taken out")),
    doing=st.booleans(), moved=st.sampled_from(("", "taken out 2032-01-01")),
)  # fmt: skip
came = st.builds(
    Came, what=st.just("valves, 2"), names=some, back=st.booleans(), on=st.just("2031-05-14"),
    entry=st.just("ld-2"),
)  # fmt: skip
lot = st.builds(LotOf, names=some, parts=some_parts, entry=st.just("ld-3"))
notice = st.builds(
    Notice, notice=st.just("RN-7"), words=st.just("recalled"), lots=some, parts=some_parts,
    on=st.just("2032-01-01"), entry=st.just("ld-4"),
)  # fmt: skip
done = st.builds(
    Done, notice=st.just("RN-7"), tag=st.sampled_from(TAGS),
    done=st.sampled_from(("replaced", "looked at, not of it", "left in")), found=st.just(""),
    on=st.just("2032-02-01"), entry=st.just("te-5"),
)  # fmt: skip
told = st.builds(
    Told, notice=st.just("RN-7"), who=st.just("the holder"), on=st.just("2032-01-02"),
    entry=st.just("te-4"),
)  # fmt: skip
copy = st.builds(
    Copy, edition=st.just("1"), reader=st.just("owner"), holder=st.just("the holder"),
    knows=st.sampled_from(((), ("ld-4",))), entries=st.just(("ld-9",)),
)  # fmt: skip


def few(of: st.SearchStrategy[Any], most: int = 1) -> st.SearchStrategy[tuple[Any, ...]]:
    return st.lists(of, max_size=most).map(tuple)


site = st.builds(
    Site, site=st.just("fern-bank"), name=st.just("a house"), pieces=few(piece, 4), came=few(came),
    lots=few(lot), notices=few(notice), told=few(told), done=few(done), copies=few(copy),
    unread=st.sampled_from(((), ("X-1",))), missing=st.sampled_from((0, 0, 2)),
)  # fmt: skip


def said(sites: Any, **asked: Any) -> Any:
    try:
        return recall(sites, **asked)
    except NotNarrowed as refused:
        return str(refused)


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    fleet=st.lists(site, min_size=1, max_size=4),
    what=st.sampled_from(("V-1", "V-3", "V-9", "OP 160", "RN-7")),
    part=st.sampled_from((None, None, "OP 160", "OP 300")),
    kind=st.sampled_from((None, None, "valve")),
)
def test_what_is_kept_says_what_the_whole_records_say(
    fleet: list[Site], what: str, part: str | None, kind: str | None
):
    """The oracle never sees a row or a count: it holds every piece against the question."""
    whole = [replace(one, site=f"site-{n}") for n, one in enumerate(fleet)]
    asked = {"what": what, "part": part, "kind": kind}
    with pytest.MonkeyPatch.context() as patch, tempfile.TemporaryDirectory() as folder:
        patch.setenv("XDG_STATE_HOME", folder)
        at = Path(folder) / "kept"
        for one in whole:
            keep(at, one.site, "as it was", "this version", one)

        def again() -> list[Any]:
            return [kept(at, one.site, "as it was", "this version") for one in whole]

        assert None not in again()
        full = said(whole, **asked)
        assert said(again(), **asked) == full
        short = said(again(), **asked, every=False)
    assert short == (full if isinstance(full, str) else replace(full, ruled_out=()))


def test_a_row_of_another_state_place_or_version_is_not_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    keep(tmp_path, "fern-bank", "m", "v", Site(site="s", name="n", pieces=(), came=(), lots=()))
    assert kept(tmp_path, "fern-bank", "m", "v") is not None
    for asked in (("gorse-hill", "m", "v"), ("fern-bank", "n", "v"), ("fern-bank", "m", "w"),
                  ("fern-bank", "", "v")):  # fmt: skip
        assert kept(tmp_path, *asked) is None
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "another person's"))
    keep(tmp_path, "gorse-hill", "m", "v", Site(site="s", name="n", pieces=(), came=(), lots=()))
    assert kept(tmp_path, "fern-bank", "m", "v") is None


def test_one_sites_row_is_not_taken_for_anothers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    at = tmp_path / "kept"
    for place in ("fern-bank", "gorse-hill"):
        keep(at, place, "m", "v", Site(site=place, name="n", pieces=(), came=(), lots=()))
    one, other = sorted(at.glob("*.names"))
    one.write_bytes(other.read_bytes())
    found = [kept(at, place, "m", "v") for place in ("fern-bank", "gorse-hill")]
    assert found.count(None) == 1


@pytest.mark.parametrize("make", [{"type": "gate"}, {"parts": ("op 200",), "part_absent": ""}])
def test_another_type_or_part_is_ruled_out_by_the_row_alone(
    make: dict[str, Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Its lot is not recorded: but for its make it could not be ruled out."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    at = tmp_path / "kept"
    has = Piece(
        tag="OV-1", kind="valve", type="ball", slot="lot", words="", where="", lot="V-1",
        names=("v-1",), lot_absent="", part="OP 160", parts=("op 160",), part_absent="", entries=(),
    )  # fmt: skip
    bare = replace(has, names=(), lot_absent="not recorded", parts=(), part_absent="not recorded")
    for place, one in (("has", has), ("other", replace(bare, **make)), ("may", bare)):
        keep(at, place, "m", "v", Site(site=place, name="n", pieces=(one,), came=(), lots=()))
    sites = [found for each in ("has", "other", "may") if (found := kept(at, each, "m", "v"))]
    sites[1]._path.unlink()
    answer = recall(sites, "V-1", every=False)
    assert answer.ruled_out_at == {"other": 1}
    assert [each.site for each in answer.not_recorded] == ["may"]
