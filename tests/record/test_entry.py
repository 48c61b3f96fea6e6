"""The entry line: exact bytes, hashes anyone can check with a shell, and what is refused."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.entry import (
    LONGEST_LINE,
    BadLine,
    Content,
    checkpoint,
    digest,
    read,
    read_content,
    read_link,
    seal,
)
from record.facts import STORED
from record.facts.values import Unread, from_json, to_json
from record.fold import fold
from tests.record.records import Tablet

LINES = Path(__file__).parent / "lines"
ZEROS = "0" * 64
LINK = {
    "site": "fern-bank",
    "writer": "ld",
    "seq": 1,
    "recorded": "2031-05-14T21:03:11Z",
    "content": ZEROS,
    "prev": None,
}
CONTENT = {
    "salt": "00" * 16,
    "kind": "remark",
    "v": 1,
    "about": "fern-bank",
    "on": "2031-05-14",
    "body": {"text": "rock"},
}


def line(value: object) -> bytes:
    return (json.dumps(value, ensure_ascii=False) + "\n").encode()


def chain() -> Tablet:
    ld = Tablet("ld")
    for n in range(20):
        ld.says("remark", "fern-bank", {"text": f"stone {n}, “curly”, 4½″, naïve"})
    return ld


@pytest.mark.skipif(not shutil.which("sha256sum"), reason="needs coreutils")
def test_sed_and_sha256sum_give_the_hash_of_any_line(tmp_path: Path):
    """Outside check: coreutils, with the command a person would type."""
    entries = chain().chain
    (tmp_path / "links.jsonl").write_bytes(b"".join(entry.link_line for entry in entries))
    (tmp_path / "contents.jsonl").write_bytes(b"".join(entry.content_line for entry in entries))

    def by_hand(file: str, number: int) -> str:
        command = f"sed -n {number}p {file} | sha256sum"
        done = subprocess.run(command, shell=True, cwd=tmp_path, capture_output=True, text=True)
        return done.stdout.split()[0]

    assert by_hand("links.jsonl", 17) == entries[16].hash
    for number, entry in enumerate(entries, start=1):
        assert by_hand("contents.jsonl", number) == json.loads(entry.link_line)["content"]
        if number > 1:
            assert by_hand("links.jsonl", number - 1) == json.loads(entry.link_line)["prev"]
        else:
            assert json.loads(entry.link_line)["prev"] is None


def test_the_bytes_are_kept_as_they_were_sealed_and_read_back():
    entry = chain().chain[3]
    again = read(entry.link_line, entry.content_line)
    assert again == entry
    assert "“curly”, 4½″, naïve" in entry.content_line.decode("utf-8")
    assert entry.link_line.endswith(b"}\n") and entry.link_line.count(b"\n") == 1


def test_bytes_another_program_spaced_differently_are_read_and_hashed_as_they_are():
    spaced = json.dumps(CONTENT, indent=None, separators=(" , ", " : ")).encode() + b"\n"
    entry = read(line({**LINK, "content": digest(spaced)}), spaced)
    assert entry.content_line == spaced and entry.content is not None
    assert entry.content.body == {"text": "rock"}


@pytest.mark.parametrize(
    ("fault", "bad"),
    [
        ("a key twice", b'{"site":"a","site":"b"}\n'),
        ("a key twice, deep", line(CONTENT).replace(b'"text"', b'"a":{"x":1,"x":2},"text"')),
        ("NaN", line(CONTENT).replace(b'"rock"', b"NaN")),
        ("Infinity", line(CONTENT).replace(b'"rock"', b"-Infinity")),
        ("1e400", line(CONTENT).replace(b'"rock"', b"1e400")),
        ("a fraction", line(CONTENT).replace(b'"rock"', b"12.5")),
        ("an endless count", line(CONTENT).replace(b'"rock"', b"9" * 5000)),
        ("deep nesting", line(CONTENT).replace(b'"rock"', b"[" * 100_000 + b"]" * 100_000)),
        ("some nesting", line(CONTENT).replace(b'"rock"', b"[" * 200 + b"]" * 200)),
        ("not UTF-8", line(CONTENT).replace(b"rock", b"\xff")),
        ("half a character", line(CONTENT).replace(b"rock", b"\\ud800")),
        ("half a character in a key", line(CONTENT).replace(b'"text"', b'"\\udfff"')),
        ("no line feed", line(CONTENT)[:-1]),
        ("two lines", line(CONTENT) * 2),
        ("nothing", b""),
        ("an empty line", b"\n"),
        ("a list", b"[]\n"),
        ("a byte order mark", b"\xef\xbb\xbf" + line(CONTENT)),
        ("too long", line({**CONTENT, "because": "x" * LONGEST_LINE})),
        ("no such day", line({**CONTENT, "on": "2031-02-30"})),
        ("a day in words", line({**CONTENT, "on": "yesterday"})),
        ("no such hour", line({**CONTENT, "at": "25:00"})),
        ("version nought", line({**CONTENT, "v": 0})),
        ("a true version", line({**CONTENT, "v": True})),
        ("no body", line({**CONTENT, "body": None})),
        ("a body of words", line({**CONTENT, "body": "rock"})),
        ("readers as a word", line({**CONTENT, "readers": "owner"})),
        ("readers as counts", line({**CONTENT, "readers": [1]})),
        ("seen, not a hash", line({**CONTENT, "seen": {"ck": "abc"}})),
        ("replaces, not an object", line({**CONTENT, "replaces": ["ld-1"]})),
        ("replaces, not a hash", line({**CONTENT, "replaces": [{"entry": "ld-1"}]})),
    ],
)
def test_a_content_line_is_refused_for(fault: str, bad: bytes):
    with pytest.raises(BadLine):
        read_content(bad)


@pytest.mark.parametrize(
    "change",
    [
        {"writer": "LD"},
        {"writer": "l d"},
        {"writer": None},
        {"seq": 0},
        {"seq": -1},
        {"seq": "1"},
        {"content": "abc"},
        {"content": ZEROS.replace("0", "G")},
        {"prev": "abc"},
        {"prev": 0},
        {"site": None},
        {"recorded": 5},
        {"recorded": "yesterday"},
        {"recorded": "2031-05-14 21:03"},
    ],
)
def test_a_link_line_is_refused_for(change: dict[str, object]):
    assert read_link(line(LINK)).seq == 1
    with pytest.raises(BadLine):
        read_link(line({**LINK, **change}))


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text() | st.just(ZEROS),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=8,
)
mutated = st.builds(
    lambda of, changes: line({**of, **changes}),
    st.sampled_from([LINK, CONTENT]),
    st.dictionaries(
        st.sampled_from([*LINK, *CONTENT, "seen", "replaces", "readers", "from", "at"]),
        json_values,
        max_size=4,
    ),
)


@given(st.binary(max_size=200) | st.text(max_size=60).map(str.encode) | mutated)
def test_any_bytes_at_all_are_read_or_refused_in_words(data: bytes):
    for reader in (read_link, read_content):
        try:
            reader(data)
        except BadLine as fault:
            assert str(fault)


@given(st.dictionaries(st.text(), json_values, max_size=4))
def test_what_is_sealed_can_be_read_again_or_is_not_sealed(body: dict[str, object]):
    content = Content(kind="remark", version=1, about="x", on="2031-05-14", body=body)
    try:
        entry = seal(
            content, site="s", writer="ld", seq=1, recorded="2031-05-14T21:03:11Z",
            prev=None, salt=bytes(16),
        )  # fmt: skip
    except BadLine:
        return
    assert read(entry.link_line, entry.content_line) == entry


def test_a_remark_too_long_to_be_read_again_is_not_sealed():
    with pytest.raises(BadLine):
        Tablet("ld").says("remark", "x", {"text": "x" * (LONGEST_LINE + 1)})


def test_a_salt_keeps_two_equal_contents_apart():
    content = Content(kind="remark", version=1, about="x", on="2031-05-14", body={"text": "a"})
    said = {"site": "s", "writer": "ld", "seq": 1, "recorded": "2031-05-14T21:03:11Z"}
    one = seal(content, **said, prev=None, salt=bytes(16))
    two = seal(content, **said, prev=None, salt=bytes(15) + b"\1")
    assert one.link.content != two.link.content
    with pytest.raises(ValueError, match="16 bytes"):
        seal(content, **said, prev=None, salt=b"short")


def test_a_copy_without_the_content_keeps_its_link_and_its_number():
    entry = chain().chain[4]
    stripped = read(entry.link_line, None)
    assert (stripped.hash, stripped.number, stripped.content) == (entry.hash, "ld-5", None)


def test_a_checkpoint_shows_a_cut_tail_and_a_missing_writer(tmp_path: Path):
    ld, ck = chain(), Tablet("ck")
    ck.says("remark", "fern-bank", {"text": "sand"})
    whole = checkpoint("fern-bank", [*ld.chain, *ck.chain])
    assert whole.text == f"fern-bank\nck 1 {ck.chain[-1].hash}\nld 20 {ld.chain[-1].hash}\n"
    (tmp_path / "checkpoint").write_text(whole.text, encoding="utf-8")
    done = subprocess.run(
        ["sha256sum", tmp_path / "checkpoint"], capture_output=True, text=True, check=True
    )
    assert done.stdout.split()[0] == whole.hash
    cut = checkpoint("fern-bank", [*ld.chain[:-1], *ck.chain])
    alone = checkpoint("fern-bank", ld.chain)
    moved = checkpoint("other-bank", [*ld.chain, *ck.chain])
    assert len({whole.hash, cut.hash, alone.hash, moved.hash}) == 4
    assert checkpoint("fern-bank", [*ck.chain, *reversed(ld.chain)]) == whole


def kept_lines(path: Path) -> list[bytes]:
    return path.read_bytes().splitlines(keepends=True)


@pytest.mark.parametrize("path", sorted(LINES.glob("*.jsonl")), ids=lambda path: path.stem)
def test_a_line_of_every_version_ever_shipped_still_reads_and_folds(path: Path):
    """Each file: a content line and the SHA-256 it was shipped with, by sha256sum."""
    kind, _, version = path.stem.rpartition("-v")
    shipped = (LINES / "SHA256SUMS").read_text(encoding="utf-8")
    (content_line,) = kept_lines(path)
    assert f"{digest(content_line)}  {path.name}\n" in shipped
    content = read_content(content_line)
    assert (content.kind, content.version) == (kind, int(version))
    for name, form in content.body.items():
        assert STORED[kind].field(name), name
        value = from_json(form)
        assert not isinstance(value, Unread)
        assert to_json(value) == form
    if kind != "withdrawn":
        link = line({**LINK, "content": digest(content_line)})
        whole = content.about.partition("/")[0]
        built = fold([read(link, content_line)])
        assert not built.unread
        assert built.happenings or whole in built.things or "/" in content.about


def test_every_kind_has_its_line_kept():
    kept = {path.stem for path in LINES.glob("*.jsonl")}
    assert kept >= {f"{kind.stored}-v{kind.version}" for kind in STORED.values()}
