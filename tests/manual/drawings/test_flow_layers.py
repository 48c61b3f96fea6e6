"""Rows of a flow diagram."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manual.drawings.flow_layers import MOST_WIDE, rows

KEYS = st.integers(1, 14).map(lambda n: [f"k{i}" for i in range(n)])
GRAPHS = KEYS.flatmap(
    lambda keys: st.tuples(
        st.just(keys),
        st.lists(st.tuples(st.sampled_from(keys), st.sampled_from(keys)), max_size=20, unique=True),
    )
)


def test_a_chain_stands_in_one_column():
    laid = rows(["a", "b", "c"], [("a", "b"), ("b", "c")])
    assert laid.rows == (("a",), ("b",), ("c",))
    assert not laid.passing and not laid.closing


def test_a_line_past_a_row_has_a_place_in_it():
    laid = rows(["a", "b", "c"], [("a", "b"), ("b", "c"), ("a", "c")])
    (passing,) = laid.passing
    assert set(laid.rows[1]) == {"b", passing}
    assert laid.way["a", "c"] == ("a", passing, "c")


def test_what_starts_late_stands_right_above_what_it_leads_to():
    laid = rows(["a", "b", "c", "late"], [("a", "b"), ("b", "c"), ("late", "c")])
    assert "late" in laid.rows[1]


def test_two_ways_that_can_be_drawn_uncrossed_are():
    """a leads to d and b to c; left to right they can stand as a, b over d, c."""
    laid = rows(["a", "b", "c", "d"], [("a", "d"), ("b", "c")])
    assert laid.rows[0].index("a") == laid.rows[1].index("d")


def test_a_way_round_is_cut_where_it_closes():
    laid = rows(["a", "b"], [("a", "b"), ("b", "a")])
    assert laid.closing == (("b", "a"),)
    assert laid.rows == (("a",), ("b",))


@given(GRAPHS)
def test_every_edge_leads_down_one_row_at_a_time(graph):
    keys, pairs = graph
    laid = rows(keys, pairs)
    row_of = {key: r for r, row in enumerate(laid.rows) for key in row}
    assert set(laid.way) | set(laid.closing) == set(pairs)
    assert {key for row in laid.rows for key in row} - laid.passing == set(keys)
    for (start, end), path in laid.way.items():
        assert (path[0], path[-1]) == (start, end)
        assert all(row_of[two] - row_of[one] == 1 for one, two in pairwise(path))


@given(GRAPHS)
def test_no_row_holds_more_boxes_than_the_paper_is_wide(graph):
    laid = rows(*graph)
    assert all(sum(k not in laid.passing for k in row) <= MOST_WIDE for row in laid.rows)


@pytest.mark.parametrize("most_wide", [1, 2])
def test_narrower_paper_has_more_rows(most_wide):
    laid = rows(["a", "b", "c"], [], most_wide=most_wide)
    assert max(map(len, laid.rows)) == most_wide
