"""The quick way of reading a line takes what the strict way takes, and nothing otherwise."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.entry import BadLine, read_content, read_link
from record.entry.reading import _quick, _quick_content, _quick_link
from record.entry.strict import read_content_strictly, read_link_strictly
from tests.bench.made import Site

PAIRS = list(Site("fern-bank", 3).entries(400))
LINES = [content for *_, content in PAIRS]
values = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**17), 10**17) | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=12,
)


def either(line: bytes, read: object) -> object:
    try:
        return read(line)
    except BadLine:
        return BadLine


def agree(line: bytes) -> None:
    assert either(line, read_content) == either(line, read_content_strictly)


def test_the_lines_that_posting_writes_go_the_quick_way():
    for _, link, content in PAIRS:
        assert _quick(link, _quick_link) is not None
        assert _quick(content, _quick_content) is not None
        assert read_link(link) == read_link_strictly(link)
        agree(content)


@given(values, st.sampled_from(["body", "seen", "readers", "at", "v", "from", "replaces", "new"]))
@settings(max_examples=400)
def test_whatever_stands_in_a_field_both_ways_say_the_same(value: object, key: str):
    content = json.loads(LINES[7])
    content[key] = {"x": value} if key == "body" and not isinstance(value, dict) else value
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":"))
    agree((text + "\n").encode("utf-8", "surrogatepass"))


@given(st.integers(0, 399), st.data())
@settings(max_examples=400)
def test_a_line_with_a_few_bytes_put_otherwise_is_read_or_refused_alike(
    n: int, data: st.DataObject
):
    line = bytearray(LINES[n])
    for _ in range(data.draw(st.integers(1, 3))):
        place = data.draw(st.integers(0, len(line) - 1))
        new = data.draw(st.sampled_from([b"", b"1", b'"', b"\\", b"{", b"e9", b".5", b" ", b"\n"]))
        line[place : place + 1] = new
    agree(bytes(line))


@pytest.mark.parametrize(
    "wrong",
    [
        ('"si":"47', '"si":"47","si":"48'),
        ('"v":1', '"v":1,"v":2'),
        ('"line":', '"line":1e400,"x":'),
        ('"line":', '"line":NaN,"x":'),
        ('"line":', '"line":1.5,"x":'),
        ('"line":', '"line":1234567890123456,"x":'),
    ],
)
def test_what_two_readers_could_take_two_ways_is_refused_as_before(wrong: tuple[str, str]):
    line = next(line for line in LINES if b'"si":"47' in line)
    assert either(line.decode().replace(*wrong, 1).encode(), read_content) is BadLine
