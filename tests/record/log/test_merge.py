"""Two copies become one: the union, byte for byte, in any order; a damaged line is refused."""

from __future__ import annotations

import os
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterable, Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.entry import Entry, checkpoint, numbered, tips
from record.fold import fold
from record.log import Log, NotARecord, NotMerged, RecordTooNew, handed_over, merge, verify
from record.log.merging import union
from tests.record.log.test_store import FIXED, PROGRAM, ROOT, asburied, raw, remarks
from tests.record.log.test_verify import loosened
from tests.record.records import SITE, Tablet, measured, post_text, sheet

NOW = "2031-06-01T12:00:00Z"
Lines = set[tuple[str, bytes, bytes | None]]


def lines(folder: Path) -> Lines:
    with Log.open(folder) as log:
        return {(stored, link, content) for stored, _, link, content in log.lines()}


def take(folder: Path, *others: Path) -> None:
    handed = [handed_over(other) for other in others]
    with Log.open(folder) as log:
        merge(log, handed, received=NOW)


def copy(folder: Path, name: str) -> Path:
    to = folder.with_name(name)
    shutil.copytree(folder, to)
    return to


def says(folder: Path, words: str, *, writer: str = "ck", seed: str = "fern-bank") -> None:
    with Log.open(folder) as log:
        post_text(
            log,
            sheet(f"## remark\n\n{words}", writer=writer, part=f"p{words.split()[0]}"),
            seed=seed,
        )


@pytest.fixture
def two(log: Log, folder: Path) -> tuple[Path, Path]:
    """One record, and a copy of it that goes its own way without signal."""
    log.close()
    return folder, copy(folder, "other")


def test_what_each_wrote_alone_stands_in_both_byte_for_byte(two: tuple[Path, Path]):
    a, b = two
    says(a, "ours", writer="ld")
    says(b, "theirs")
    was_a, was_b = lines(a), lines(b)
    take(a, b)
    take(b, a)
    assert lines(a) == lines(b) == was_a | was_b
    assert {path.name for path in (a / "sheets").iterdir()} == {
        path.name for path in (b / "sheets").iterdir()
    }
    with Log.open(a) as log:
        assert verify(log.lines()).sound


def test_what_came_was_received_now(two: tuple[Path, Path]):
    a, b = two
    says(b, "theirs")
    handed = handed_over(b)
    with Log.open(a) as log:
        merge(log, [handed], received="2040-01-01T00:00:00Z")
        came = {link for _, received, link, _ in log.lines() if received.startswith("2040")}
    assert came == {e.link_line for e in handed.entries if e.link.writer == "ck"}


def test_a_restored_backup_that_posts_forks_at_once_and_both_branches_count(
    two: tuple[Path, Path],
):
    a, b = two
    says(a, "ours", writer="ld", seed="one")
    says(b, "theirs", writer="ld", seed="other")
    take(a, b)
    with Log.open(a) as log:
        entries = log.entries()
        verdict = verify(log.lines())
    twins = [e.number for e in entries if e.place == "ld-3"]
    assert len(twins) == 2 and all(number.startswith("ld-3/") for number in twins)
    assert verdict.sound and {n for pair in verdict.forks for n in pair} >= set(twins)
    said = {h.text("text") for h in fold(entries).happened("remark")}
    assert said == {"ours", "theirs"}


def test_a_post_after_the_merge_extends_the_longest_branch_and_has_seen_the_other(
    two: tuple[Path, Path],
):
    """Worked by hand: a has ld-3 and ld-4 of its own, b has ld-3 to ld-6, so b's is longer."""
    a, b = two
    says(a, "ours", writer="ld", seed="one")
    says(b, "theirs", writer="ld", seed="other")
    says(b, "more of them", writer="ld", seed="other")
    take(a, b)
    with Log.open(a) as log:
        short, long = sorted(tips(log.entries())["ld"], key=lambda e: e.link.seq)
        assert (short.place, long.place) == ("ld-4", "ld-6")
        posted = post_text(log, sheet("## remark\n\nAfter.", writer="ld", part="p"))
    first = posted.recorded[0]
    assert (first.place, first.link.prev) == ("ld-7", long.hash)
    assert first.content and short.hash in (first.content.seen or {}).values()


def test_of_two_branches_as_long_every_copy_extends_the_one_of_the_smaller_hash():
    one, two = Tablet("ld"), Tablet("ld")
    a = one.says("remark", "fern-bank", {"text": "one"})
    b = two.says("remark", "fern-bank", {"text": "two"})
    assert tips([a, b])["ld"][0].hash == min(a.hash, b.hash) == tips([b, a])["ld"][0].hash


def test_an_entry_that_names_both_branches_settles_what_they_say():
    """Neither branch had seen the other; whoever saw both may mend both."""
    one = Tablet("ld")
    said = one.says("run", "AIR-IN", {"length": measured("5")})
    two = Tablet("ld", chain=[said])
    a = one.says("run", "AIR-IN", {"length": measured("6")}, mends=[said])
    b = two.says("run", "AIR-IN", {"length": measured("7")}, mends=[said])
    assert fold([said, a, b]).things["AIR-IN"].unsettled() == ("length",)
    ck = Tablet("ck", heads={"ld": a.hash, f"ld/{b.hash[:8]}": b.hash})
    c = ck.says("run", "AIR-IN", {"length": measured("8")}, mends=[a, b])
    built = fold([said, a, b, c])
    assert str(built.things["AIR-IN"].si("length")) == "8" and not built.unread


def test_a_checkpoint_tells_every_branch():
    one, two = Tablet("ld"), Tablet("ld")
    entries = [t.says("remark", "fern-bank", {"text": t.writer + str(n)}) for n, t in
               enumerate((one, two))]  # fmt: skip
    assert checkpoint("fern-bank", entries).text.count("\nld 1 ") == 2
    assert checkpoint("fern-bank", entries).hash != checkpoint("fern-bank", entries[:1]).hash


def test_another_sites_record_is_refused(two: tuple[Path, Path], tmp_path: Path):
    a, _ = two
    with Log.make(tmp_path / "far") as log:
        post_text(log, SITE.replace("fern-bank", "far-field"))
    was = lines(a)
    with pytest.raises(NotMerged, match="far-field"):
        take(a, tmp_path / "far")
    assert lines(a) == was


def test_a_record_of_a_newer_version_and_a_folder_without_one_are_refused(
    two: tuple[Path, Path], tmp_path: Path
):
    a, b = two
    with raw(b) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    with pytest.raises(RecordTooNew):
        take(a, b)
    (tmp_path / "nothing").mkdir()
    with pytest.raises(NotARecord):
        take(a, tmp_path / "nothing")


@pytest.mark.parametrize("which", ["links.jsonl", "contents.jsonl"])
def test_any_flipped_byte_of_a_line_is_refused_with_its_number(
    two: tuple[Path, Path], tmp_path: Path, which: str
):
    """Every byte of the second line, by its lowest bit."""
    a, b = two
    says(b, "theirs")
    hand = as_lines(handed_over(b).entries, tmp_path / "hand")
    was = lines(a)
    whole = (hand / which).read_bytes()
    start = whole.index(b"\n") + 1
    end = whole.index(b"\n", start)
    for at in range(start, end):
        (hand / which).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        with pytest.raises(NotMerged, match=r"line [23]\b"):
            handed_over(hand)
    assert lines(a) == was


def as_lines(entries: Iterable[Entry], hand: Path) -> Path:
    """Write entries as a folder of lines."""
    hand.mkdir()
    every = list(entries)
    (hand / "links.jsonl").write_bytes(b"".join(e.link_line for e in every))
    (hand / "contents.jsonl").write_bytes(b"".join(e.content_line or b"" for e in every))
    (hand / "checkpoint.txt").write_text(checkpoint("fern-bank", every).text, encoding="utf-8")
    return hand


@pytest.mark.parametrize("table", ["links", "contents"])
def test_a_line_changed_in_the_other_database_is_refused_whole_with_its_number(
    two: tuple[Path, Path], table: str
):
    a, b = two
    says(b, "theirs")
    connection = loosened(b)
    line, key = connection.execute(
        f"SELECT line, hash FROM {table} WHERE instr(line, ?) LIMIT 1",
        (b'"writer":"ck"' if table == "links" else b"theirs",),
    ).fetchone()
    changed = line.replace(b"T12:", b"T13:") if table == "links" else line.replace(b"the", b"thx")
    assert changed != line
    connection.execute(f"UPDATE {table} SET line = ? WHERE hash = ?", (changed, key))
    connection.close()
    was = lines(a)
    with pytest.raises(NotMerged, match="ck-1"):
        take(a, b)
    assert lines(a) == was


def test_folders_of_lines_are_taken_in_like_records(two: tuple[Path, Path], tmp_path: Path):
    a, b = two
    says(b, "theirs")
    take(a, as_lines(handed_over(b).entries, tmp_path / "hand"))
    assert lines(a) == lines(b)


def test_a_copy_with_fewer_contents_takes_nothing_away_and_gets_what_it_lacks(
    two: tuple[Path, Path], tmp_path: Path
):
    a, b = two
    says(b, "theirs")
    entries = handed_over(b).entries
    hand = as_lines(entries, tmp_path / "hand")
    mine = b"".join(e.content_line or b"" for e in entries if e.link.writer != "ck")
    (hand / "contents.jsonl").write_bytes(mine)
    take(b, hand)
    assert lines(b) == {(e.hash, e.link_line, e.content_line) for e in entries}
    take(a, hand)
    assert {content for _, link, content in lines(a) if b'"ck"' in link} == {None}
    take(a, b)
    assert lines(a) == lines(b)


def test_a_changed_file_is_refused_and_a_missing_one_is_told(two: tuple[Path, Path]):
    a, b = two
    says(b, "theirs")
    new = {p.name for p in (b / "sheets").iterdir()} - {p.name for p in (a / "sheets").iterdir()}
    (name,) = new
    kept = b / "sheets" / name
    data = kept.read_bytes()
    kept.write_bytes(data + b" ")
    was = lines(a)
    with pytest.raises(NotMerged, match="changed"):
        take(a, b)
    assert lines(a) == was
    kept.unlink()
    with Log.open(a) as log:
        told = merge(log, [handed_over(b)], received=NOW)
    assert told.absent == (f"sheets/{name[:64]}",)
    kept.write_bytes(data)  # found again: a later merge brings the file alone
    take(a, b)
    assert (a / "sheets" / name).read_bytes() == data


def test_a_dry_run_takes_nothing(two: tuple[Path, Path]):
    a, b = two
    says(b, "theirs")
    was = lines(a), sorted((a / "sheets").iterdir())
    done = asburied(a, "merge", str(b), "--dry-run")
    assert done.returncode == 0 and "2 entries would come: ck-1 to ck-2; 1 files" in done.stdout
    assert (lines(a), sorted((a / "sheets").iterdir())) == was
    assert "2 entries came" in asburied(a, "merge", str(b)).stdout
    assert "Nothing new" in asburied(a, "merge", str(b)).stdout


def test_an_entry_whose_ground_is_not_here_is_told(two: tuple[Path, Path], tmp_path: Path):
    a, b = two
    says(b, "theirs")
    hand = as_lines([e for e in handed_over(b).entries if e.place != "ck-1"], tmp_path / "hand")
    (hand / "contents.jsonl").unlink()
    told = asburied(a, "merge", str(hand)).stdout
    assert "ck-2 rests on an entry that is not here." in told
    assert asburied(a, "verify").returncode == 1


def test_two_who_merge_and_one_who_posts_at_once_all_succeed(
    two: tuple[Path, Path], tmp_path: Path
):
    a, b = two
    for n in range(5):
        says(b, f"{n} theirs")
    path = remarks(tmp_path, 30, writer="ld", part="now")
    work = [
        subprocess.Popen(
            [*PROGRAM, "--record", str(a), *words],
            env={**os.environ, **FIXED},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
        )
        for words in (["merge", str(b)], ["post", str(path)], ["merge", str(b)])
    ]
    assert [(p.communicate()[1], p.returncode) for p in work] == [(b"", 0)] * 3
    with Log.open(a) as log:
        verdict = verify(log.lines())
    assert verdict.sound and not verdict.forks
    assert dict(verdict.counts) == {"ck": 10, "ld": 2 + 31}


def test_a_process_killed_while_it_merges_leaves_a_whole_record(
    two: tuple[Path, Path], tmp_path: Path
):
    """Kills without warning: all of the other copy is there, or nothing of it."""
    a, b = two
    with Log.open(b) as log:
        for n in range(6):
            words = "\n\n".join(f"stone {n} {m}" for m in range(40))
            post_text(log, sheet(f"## remark\n\n{words}", writer="ck", part=f"p{n}"))
    whole = lines(a) | lines(b)
    steady = (
        "import sys\nfrom pathlib import Path\n"
        "from record.log import Log, handed_over, merge\n"
        "other = handed_over(Path(sys.argv[2]))\n"
        "with Log.open(Path(sys.argv[1])) as log:\n"
        "    print('ready', flush=True)\n"
        f"    merge(log, [other], received='{NOW}')\n"
        "    print('told', flush=True)\n"
    )
    chance, outcomes = random.Random(11), set()
    for turn in range(12):
        to = copy(a, f"turn{turn}")
        before = lines(to)
        process = subprocess.Popen(
            [sys.executable, "-c", steady, str(to), str(b)],
            env={**os.environ, **FIXED},
            cwd=ROOT,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(chance.uniform(0.0, 0.06))
        process.send_signal(signal.SIGKILL)
        told = process.stdout.read()
        process.wait()
        process.stdout.close()
        after = lines(to)
        assert after in (before, whole)
        assert after == whole or not told
        with Log.open(to) as log:
            assert verify(log.lines()).sound
        outcomes.add(after == whole)
    assert outcomes  # which of the two is chance


def crew(steps: Sequence[tuple[int, bool]]) -> tuple[Entry, ...]:
    """Two writers on three devices; the third is a restored copy of the first, so that it forks."""
    first = Tablet("ld")
    first.says("run", "AIR-IN", {"length": measured("5")})
    devices = [first, Tablet("ck"), Tablet("ld", chain=list(first.chain), minutes_off=90)]
    entries = {e.hash: e for e in first.chain}
    for n, (which, meets) in enumerate(steps):
        device = devices[which]
        if meets:
            device.meets(devices[(which + 1) % 2])
        said = device.says("run", "AIR-IN", {"length": measured(str(6 + n))}, minute=20 + n)
        entries[said.hash] = said
    return tuple(entries.values())


STEPS = st.lists(st.tuples(st.integers(0, 2), st.booleans()), max_size=8)


def joined(*parts: Sequence[Entry]) -> tuple[Entry, ...]:
    """Return the sum of parts as the log would: links here, then what comes."""
    here: dict[str, Entry] = {}
    for part in parts:
        found = union(tuple(here.values()), [part])
        here.update({e.hash: e for e in (*found.links, *found.contents)})
    return tuple(here.values())


@given(STEPS, st.lists(st.tuples(st.integers(0, 2), st.booleans()), max_size=24), st.randoms())
def test_in_any_parts_any_order_and_again_the_sum_and_the_fold_are_the_same(
    steps: list[tuple[int, bool]], where: list[tuple[int, bool]], chance: random.Random
):
    """Every entry goes to one copy or more, some as a link alone; a later copy has the content."""
    entries = crew(steps)
    parts: list[list[Entry]] = [[], [], []]
    for n, entry in enumerate(entries):
        to, twice = where[n % len(where)] if where else (0, False)
        parts[to].append(entry)
        if twice:
            bare = Entry(entry.link, entry.link_line, entry.hash, None, None)
            parts[(to + 1) % 3].append(bare)
    a, b, c = parts
    sums = [joined(a, b, c), joined(c, a, b), joined(joined(a, b), c), joined(a, joined(b, c))]
    sums.append(joined(*sums, a, b))
    wanted = {(e.hash, e.link_line, e.content_line) for e in entries}
    for each in sums:
        assert {(e.hash, e.link_line, e.content_line) for e in each} == wanted
    shuffled = list(sums[1])
    chance.shuffle(shuffled)
    states = {
        repr(sorted(fold(numbered(each)).things.items())) for each in (sums[0], shuffled, entries)
    }
    assert len(states) == 1


@given(STEPS)
def test_two_branches_of_a_fork_are_both_folded(steps: list[tuple[int, bool]]):
    """No entry is dropped for its number: each is in what the fold was made of."""
    entries = crew(steps)
    assert {e.hash for e in fold(numbered(entries)).entries} == {e.hash for e in entries}
    marked = [e.number for e in numbered(entries)]
    assert len(set(marked)) == len(marked)


def test_the_other_copy_is_left_as_it_was(two: tuple[Path, Path]):
    a, b = two
    says(b, "theirs")
    with sqlite3.connect(b / "record.sqlite") as connection:
        before = connection.execute("SELECT count(*) FROM links").fetchone()
    connection.close()
    take(a, b)
    assert {path.name for path in b.iterdir()} == {"record.sqlite", "sheets"}
    with sqlite3.connect(b / "record.sqlite") as connection:
        assert connection.execute("SELECT count(*) FROM links").fetchone() == before
    connection.close()
