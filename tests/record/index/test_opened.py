"""With the index, without it, and with a damaged one, a record says the same."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from record.entry import Entry
from record.fold import AsBuilt, fold
from record.index import NAME, as_built, opened
from record.index.rows import Index, NoIndex, extended
from record.log import Log
from tests.bench.made import Site
from tests.record.records import Tablet, measured

KINDS = ("run", "valve", "left-as", "photographed", "reading-taken")
TAGS = ("R-1", "R-2", "V-1", "V-2", "V-10")


@pytest.fixture(autouse=True)
def own_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("empty") / "record"
    Log.make(place).close()
    return place


@pytest.fixture
def log(empty: Path, tmp_path: Path) -> Iterator[Log]:
    shutil.copytree(empty, tmp_path / "record")
    with Log.open(tmp_path / "record") as opened_log:
        yield opened_log


def add(log: Log, entries: list[Entry]) -> None:
    with log.writing() as writing:
        writing.append(entries, received="2031-06-01T12:00:00Z")


def same(log: Log) -> None:
    """Compare everything a record is asked, with the index and without it."""
    one, other = as_built(log), fold(log.entries())
    assert one == other
    assert list(one.things) == list(other.things)
    one = as_built(log)  # once more, where nothing was read yet
    least(one, other)
    one = as_built(log)
    for tag in (*TAGS, "fern-bank", *other.things):
        assert list(one.about(tag)) == list(other.about(tag))
        assert list(one.about(tag, "left as")) == list(other.about(tag, "left as"))
        assert one.thing(tag) == other.thing(tag)
    for asked in ASKED:
        assert list(as_built(log).happened_to(*asked)) == list(other.happened_to(*asked))
    for kind in ("left as", "photographed", "valve"):
        assert list(one.happened(kind)) == list(other.happened(kind))
        assert list(one.of_kind(kind)) == list(other.of_kind(kind))


#: Tags and kinds, asked for together; a tag may be named before a mend and not after it.
ASKED = (
    ((frozenset(TAGS), ("left as", "photographed")),),
    ((frozenset(TAGS[:1]), ("photographed",)), (None, ("left as",))),
    ((frozenset(), ("left as",)),),
)


def least(one: AsBuilt, other: AsBuilt) -> None:
    """Compare single answers, each of a record opened anew: nothing else was asked of it."""
    for tag in list(other.things)[:3]:
        assert one.thing(tag) == other.thing(tag)
        assert list(one.about(tag)) == list(other.about(tag))


class Crew:
    """Two tablets whose days are random: statements, mends, withdrawals, meetings."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.tablets = (Tablet("ld"), Tablet("ck"))
        self.rare: tuple[str, ...] = ()

    def work(self, steps: int) -> None:
        for _ in range(steps):
            tablet = self.chance.choice(self.tablets)
            other = next(t for t in self.tablets if t is not tablet)
            known = [*tablet.chain, *self._known(tablet, other)]
            draw = self.chance.random()
            if draw < 0.2:
                tablet.meets(other)
            elif draw < 0.35 and known:
                target = self.chance.choice(known)
                fields = list(target.content.body)[: self.chance.randint(0, 2)]
                body = {name: self._value() for name in fields}
                if target.content.kind != "withdrawn":
                    kind, about = target.content.kind, target.content.about
                    more = [e for e in known if e.content.kind == kind and e.content.about == about]
                    tablet.says(kind, about, body, mends=[target, *more[:1]], on=self._day())
            elif draw < 0.45 and known:
                tablet.withdraws(self.chance.choice(known))
            elif draw < 0.47 and "swap" in self.rare:
                body = {"with": "V-2", "from": self._day(), "found_by": "x", "why": "y"}
                tablet.says("tags-swapped", "V-1", body, on=self._day())
            else:
                tablet.says(*self._said(), on=self._day(), at=self.chance.choice((None, "09:00")))

    def _known(self, tablet: Tablet, other: Tablet) -> list[Entry]:
        head = tablet.heads.get(other.writer)
        hashes = [entry.hash for entry in other.chain]
        return other.chain[: hashes.index(head) + 1] if head in hashes else []

    def _said(self) -> tuple[str, str, dict[str, object]]:
        kind = self.chance.choice(KINDS)
        tags = (
            TAGS if "clash" in self.rare else [t for t in TAGS if (t[0] == "R") == (kind == "run")]
        )
        tag = self.chance.choice(tags)
        if kind == "run" and self.chance.random() < 0.4:
            return "station", f"{tag}/{self.chance.randint(1, 12)}", {"x": self._value()}
        if kind == "photographed":
            return kind, "fern-bank", {"shows": self.chance.sample(TAGS, 2), "caption": "c"}
        if kind in ("left-as", "reading-taken"):
            return kind, tag, {"state": str(self.chance.randint(0, 99)), "what": "w"}
        names = self.chance.sample(("size", "material", "serial"), 2)
        return kind, tag, {name: self._value() for name in names}

    def _value(self) -> object:
        return self.chance.choice((measured(str(self.chance.randint(1, 9))), "clay", "steel"))

    def _day(self) -> str:
        return f"2031-05-{self.chance.randint(10, 20)}"

    def written(self, log: Log) -> list[Entry]:
        there = {entry.hash for entry in log.entries()}
        return [e for t in self.tablets for e in t.chain if e.hash not in there]


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    chance=st.randoms(use_true_random=False), rare=st.sampled_from([(), (), ("swap",), ("clash",)])
)
def test_whatever_was_written_the_index_changes_nothing(
    chance: random.Random, rare: tuple[str, ...], empty: Path, tmp_path: Path
):
    place = tmp_path / "random"
    shutil.rmtree(place, ignore_errors=True)
    shutil.copytree(empty, place)
    crew = Crew(chance)
    crew.rare = rare
    with Log.open(place) as log:
        for _ in range(4):
            crew.work(chance.randint(1, 14))
            new = crew.written(log)
            if chance.random() < 0.3:  # only one tablet came home
                new = [e for e in new if e.link.writer == "ld"]
            add(log, new)
            same(log)
        if chance.random() < 0.3:  # a tablet restored from a copy goes on: a fork
            fork = Tablet("ld", chain=list(crew.tablets[0].chain[:-1]))
            fork.says("run", "R-1", {"material": "fork"})
            add(log, [e for e in fork.chain if e.hash not in {o.hash for o in log.entries()}])
            same(log)


def plain(log: Log, days: int = 3) -> Site:
    site = Site("fern-bank", 1)
    grow(log, site, 120 * days)
    return site


def grow(log: Log, site: Site, count: int) -> None:
    from record.entry import read

    add(log, [read(link, content) for _, link, content in site.entries(count)])


def test_a_long_record_has_an_index_and_one_more_entry_carries_it_on(
    log: Log, monkeypatch: pytest.MonkeyPatch
):
    site = plain(log)
    as_built(log)
    grow(log, site, 1)
    same(log)
    with monkeypatch.context() as patched:
        patched.setattr(Log, "lines", _never)  # reading all of it is what it spares
        built = as_built(log)
        assert built.thing("V-1").tag == "V-1"
        assert [h.about for h in built.about("V-1", "left as")]


def _never(self: Log) -> Iterator[object]:
    raise AssertionError("the whole log was read")


def test_after_two_tablets_came_together_the_index_is_made_anew(log: Log):
    """ck's entries stand between ld's: the index cannot be carried on, and is made once more."""
    ld, ck = Tablet("ld"), Tablet("ck")
    for n in range(5):
        ld.says("run", "R-1", {"material": f"m{n}"})
        ck.says("run", "R-2", {"material": f"m{n}"})
    add(log, ld.chain)
    as_built(log)
    add(log, ck.chain)
    same(log)
    index = opened.load(log.place / NAME, opened.made_by())
    assert index is not None and index.count == 10


def test_a_photo_that_was_mended_to_show_another_valve_is_found_under_it(log: Log):
    ld = Tablet("ld")
    for tag in ("V-1", "V-2"):
        ld.says("valve", tag, {"type": "ball"})
    photo = ld.says("photographed", "fern-bank", {"shows": ["V-1"], "caption": "c"})
    ld.says("photographed", "fern-bank", {"shows": ["V-2"]}, mends=[photo])
    add(log, ld.chain)
    assert [one.entry for one in as_built(log).about("V-2")] == [photo]
    assert not list(as_built(log).about("V-1"))
    same(log)


def test_whoever_asks_about_much_gets_all_of_it_folded_at_once_and_the_same(log: Log):
    plain(log, days=8)
    same(log)
    one, other = as_built(log), fold(log.entries())
    assert list(one.of_kind("valve")) == list(other.of_kind("valve"))
    assert list(one.happened()) == list(other.happened())
    assert list(one.about("V-1")) == list(other.about("V-1"))
    assert one.things == other.things


def test_one_question_reads_a_few_entries_and_not_the_others(
    log: Log, monkeypatch: pytest.MonkeyPatch
):
    plain(log, days=10)
    as_built(log)
    read: list[str] = []
    some = Log.some
    monkeypatch.setattr(Log, "some", lambda self, hashes: read.extend(hashes) or some(self, hashes))
    assert as_built(log).thing("V-1").words("serial").startswith("S-")
    assert 0 < len(read) < 60


@pytest.mark.parametrize(
    "damage",
    [
        lambda path: path.unlink(),
        lambda path: path.write_bytes(b""),
        lambda path: path.write_bytes(path.read_bytes()[:-1]),
        lambda path: path.write_bytes(b"\0" * 32 + path.read_bytes()[32:]),
        lambda path: path.write_bytes(path.read_bytes() + b"\0"),
    ],
)
def test_a_lost_or_damaged_index_changes_nothing(log: Log, damage: Callable[[Path], object]):
    plain(log)
    as_built(log)
    damage(log.place / NAME)
    same(log)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.randoms(use_true_random=False))
def test_any_byte_changed_in_the_index_is_felt(log: Log, chance: random.Random):
    path = log.place / NAME
    if not path.exists():
        plain(log)
        as_built(log)
    data = bytearray(path.read_bytes())
    place = chance.randrange(len(data))
    data[place] ^= 1 << chance.randrange(8)
    path.write_bytes(data)
    assert opened.load(path, opened.made_by()) is None
    path.unlink()
    as_built(log)


def test_an_index_made_by_someone_else_is_only_so_many_bytes(
    log: Log, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """A folder handed on with an index that leaves a valve out: the lines are asked instead."""
    plain(log)
    wrong = extended(Index(opened.made_by()), log.entries())
    del wrong.own["V-1"]
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "other"))
    opened.save(log.place / NAME, wrong)
    assert "V-1" not in as_built(log).things  # whoever made it would be misled
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    same(log)


def test_an_index_of_another_program_or_of_another_past_is_not_taken(
    log: Log, empty: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    plain(log)
    as_built(log)
    monkeypatch.setattr(opened, "made_by", lambda: "another")
    same(log)
    monkeypatch.undo()
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    as_built(log)
    shutil.copytree(empty, tmp_path / "twin")
    with Log.open(tmp_path / "twin") as twin:
        grow(twin, Site("fern-bank", 2), 120)
        other = Tablet("ld")
        other.says("run", "R-9", {"material": "clay"})
        shutil.copy(log.place / NAME, tmp_path / "twin" / NAME)
        same(twin)


def test_only_its_owner_can_read_the_index(log: Log):
    plain(log)
    as_built(log)
    assert (log.place / NAME).stat().st_mode & 0o777 == 0o600


def test_an_index_that_others_may_read_or_that_is_no_plain_file_is_not_taken(
    log: Log, tmp_path: Path
):
    """A pipe left under the name must not make the question wait for ever."""
    path = log.place / NAME
    plain(log)
    as_built(log)
    assert opened.load(path, opened.made_by()) is not None
    path.chmod(0o640)
    assert opened.load(path, opened.made_by()) is None
    path.chmod(0o600)
    path.rename(tmp_path / "elsewhere")
    path.symlink_to(tmp_path / "elsewhere")
    assert opened.load(path, opened.made_by()) is None
    path.unlink()
    os.mkfifo(path)
    assert opened.load(path, opened.made_by()) is None
    same(log)


def test_where_the_folder_or_the_home_cannot_be_written_there_is_no_index_and_no_fault(
    log: Log, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    plain(log)
    (tmp_path / "state").write_text("a file where a folder should be")
    same(log)
    assert not (log.place / NAME).exists()
    (tmp_path / "state").unlink()
    (log.place / NAME).mkdir()  # as good as a disk that refuses, for whoever may do all
    same(log)
    assert not list(log.place.glob(".index*"))


def test_intricate_histories_have_no_index_and_say_why(log: Log):
    ld = Tablet("ld")
    ld.says("tags-swapped", "V-1", {"with": "V-2", "from": "2031-05-01"})
    with pytest.raises(NoIndex, match="swapped"):
        extended(Index("x"), ld.chain)
    with pytest.raises(NoIndex, match="not here"):
        extended(Index("x"), Tablet("ck", heads={"ld": "0" * 64}).chain or [_blind()])


def _blind() -> Entry:
    ck = Tablet("ck", heads={"ld": "0" * 64})
    return ck.says("run", "R-1", {"material": "clay"})


def test_a_place_is_found_by_its_whole_hash_only():
    """Two hashes side by side hold a third across their border; that one is not there."""
    index = Index("x", hashes=bytearray(b"\1" * 16 + b"\2" * 16 + b"\3" * 16 + b"\4" * 16))
    assert index.place((b"\2" * 16 + b"\3" * 16).hex()) is None
    assert index.place((b"\1" * 16 + b"\2" * 16).hex()) == 0
    assert index.place((b"\3" * 16 + b"\4" * 16).hex()) == 1
