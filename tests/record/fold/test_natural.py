"""The order of tags: as a person counts, and the same every time."""

from __future__ import annotations

import random

from hypothesis import given
from hypothesis import strategies as st

from record.fold import natural

TAGS = st.text(alphabet="ABab019-/ .²٣", max_size=8)


def test_panel_2_comes_before_panel_10():
    assert sorted(["A-L10", "A-L2", "A-L1", "B-L1"], key=natural) == [
        "A-L1",
        "A-L2",
        "A-L10",
        "B-L1",
    ]


def test_tags_that_end_in_letters_keep_their_order_wherever_they_start():
    tags = ["AIR-IN", "AIR-OUT", "P-1", "P-1a", "P-1b", "P-2", "ck", "ld"]
    shuffled = tags[:]
    random.Random(1).shuffle(shuffled)
    assert sorted(shuffled, key=natural) == tags


@given(tags=st.sets(TAGS))
def test_however_a_set_of_tags_comes_out_it_is_sorted_alike(tags: set[str]):
    one_way = sorted(tags)
    other_way = sorted(tags, reverse=True)
    assert sorted(one_way, key=natural) == sorted(other_way, key=natural)
