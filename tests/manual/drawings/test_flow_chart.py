"""A diagram of what flows where."""

import re
from dataclasses import replace
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from manual.drawings.flow import Edge, Flow, Join, Node, Sort
from manual.drawings.flow_chart import flow_chart

AIR = Flow(
    name="How the air goes",
    nodes=(
        Node("in", Sort.END, "intake terminal"),
        Node("pipe", Sort.PIPE, "AIR-IN", ("fresh air in",)),
        Node("flap", Sort.ITSELF, "CV-1 check valve", ("lets through: inward",)),
        Node("hand", Sort.HAND, "DV-1 ball valve", ("left shut",)),
        Node("fan", Sort.MACHINE, "AU-1 air unit"),
        Node("room", Sort.ROOM, "Hull A: living room"),
        Node("drip", Sort.DRAIN, "DL-1 drain"),
        Node("gap", Sort.GAP, "where the air leaves: not recorded"),
    ),
    edges=(
        Edge("in", "pipe"),
        Edge("pipe", "flap"),
        Edge("flap", "fan", Join.NOT_RECORDED),
        Edge("fan", "room"),
        Edge("pipe", "drip"),
        Edge("drip", "hand"),
        Edge("hand", "room", Join.SHUT),
        Edge("room", "gap"),
    ),
    notes=("What is not drawn is not proved absent.",),
)


def paths(svg):
    """The points of every open line that is as wide as an arrow's shaft."""
    found = re.findall(r'd="M([^"Z]*)" fill="none"[^>]*stroke-width="(0\.[45])"', svg)
    return [[tuple(map(float, p.split())) for p in d.split("L")] for d, _ in found]


def boxes(drawing):
    """Label boxes of the heads, by their words."""
    return {box.text: box for box in drawing.labels if box.bold}


def test_it_is_legible(legible):
    drawing = flow_chart(AIR)
    legible(drawing)
    assert drawing.width_mm == 170 and drawing.height_mm <= 238


def test_what_comes_later_stands_lower():
    heads = boxes(flow_chart(AIR))
    for one, other in (("intake terminal", "AIR-IN"), ("AIR-IN", "CV-1 check valve")):
        assert heads[one].bottom_mm < heads[other].y_mm


def test_the_words_say_all_that_the_picture_shows():
    drawing = flow_chart(AIR)
    for node in AIR.nodes:
        assert node.head in drawing.alt
        assert all(words in drawing.alt for words in node.words)
    assert "Goes on to AIR-IN (flows on, as recorded)" in drawing.alt
    assert "Goes on to Hull A: living room (shut: nothing goes on)" in drawing.alt
    assert "that they join is not recorded" in drawing.alt


def test_a_shut_valve_and_an_unproved_join_differ_in_line_not_colour():
    plain = flow_chart(replace(AIR, edges=(Edge("in", "pipe"),))).svg
    shut = flow_chart(replace(AIR, edges=(Edge("in", "pipe", Join.SHUT),))).svg
    unsure = flow_chart(replace(AIR, edges=(Edge("in", "pipe", Join.NOT_RECORDED),))).svg
    assert 'stroke-dasharray="2 1.2"' in unsure
    assert 'stroke-dasharray="2 1.2"' not in plain + shut
    # Two strokes over the line, and two in the legend's sample.
    heavy = 'fill="none" stroke="#000000" stroke-width="0.6"'
    assert shut.count(heavy) == plain.count(heavy) + 4


def test_a_way_that_leads_back_up_says_where_it_goes_on():
    drawing = flow_chart(replace(AIR, edges=(*AIR.edges, Edge("room", "fan"))))
    assert "on at AU-1 air unit, above" in boxes(drawing)
    assert "on at AU-1 air unit, above" in drawing.alt


NODES = st.lists(
    st.builds(
        Node,
        key=st.text("abcdefghij", min_size=1, max_size=2),
        sort=st.sampled_from(Sort),
        head=st.text(max_size=60),
        words=st.lists(st.text(max_size=90), max_size=4).map(tuple),
    ),
    min_size=1,
    max_size=12,
    unique_by=lambda node: node.key,
)
FLOWS = NODES.flatmap(
    lambda nodes: st.builds(
        Flow,
        name=st.text(max_size=40).map("How it goes {}".format),
        nodes=st.just(tuple(nodes)),
        edges=st.lists(
            st.builds(
                Edge,
                start=st.sampled_from([n.key for n in nodes]),
                end=st.sampled_from([n.key for n in nodes]),
                join=st.sampled_from(Join),
            ),
            max_size=16,
        ).map(tuple),
        notes=st.lists(st.text(max_size=200), max_size=3).map(tuple),
    )
)


@given(FLOWS)
@settings(max_examples=60)
def test_any_flow_is_legible(legible, flow):
    legible(flow_chart(flow))


@given(FLOWS)
@settings(max_examples=60)
def test_no_arrow_runs_through_words(flow):
    drawing = flow_chart(flow)
    for (x0, y0), (x1, y1) in (pair for path in paths(drawing.svg) for pair in pairwise(path)):
        for box in drawing.labels:
            across = min(max(x0, x1), box.right_mm) - max(min(x0, x1), box.x_mm)
            down = min(max(y0, y1), box.bottom_mm) - max(min(y0, y1), box.y_mm)
            assert across < 0 or down < 0, (x0, y0, x1, y1, box)
