"""Labels of a column: apart, in order, as near to what they name as can be; lines of text."""

from __future__ import annotations

from itertools import pairwise, product

import pytest

from coldwright.sheet.drawing.labels import GAP, Note, column_height, labelled, leader, placed
from coldwright.sheet.drawing.shapes import runs_across
from coldwright.sheet.drawing.text_size import text_width, wrapped
from support.drawn import BUILDS, bent, made_up, picture

WIDE = 150.0


def label(level, value="12.0 °C", text="some words"):
    return labelled(Note("walls", "left", (300.0, level), value, text), WIDE)


def wanted(each):
    return each.note.anchor[1] - 0.55 * each.lines[0].size * 1.24


def test_labels_that_do_not_meet_stand_level_with_what_they_name():
    found = placed([label(500.0), label(100.0)], 0.0, 700.0, WIDE)
    assert [each.level for each in found] == pytest.approx([100.0, 500.0])


def test_labels_that_meet_are_moved_by_the_least_sum_of_squares():
    labels = [label(100.0), label(104.0), label(110.0), label(300.0)]
    found = placed(labels, 0.0, 700.0, WIDE)
    for one, other in pairwise(found):
        assert other.top - (one.top + one.height) >= GAP - 1e-9
    moved = sum((each.top - wanted(each)) ** 2 for each in found)
    # No other place of the first three on a fine grid, apart as they must be, is nearer.
    high = found[0].height + GAP
    best = min(
        sum((top - wanted(each)) ** 2 for top, each in zip(tops, found[:3], strict=True))
        for tops in product([30.0 + 0.5 * at for at in range(300)], repeat=1)
        for tops in [(tops[0], tops[0] + high, tops[0] + 2 * high)]
    )
    assert moved <= best + 1e-6
    assert found[3].level == pytest.approx(300.0)


def test_a_column_is_held_at_its_ends_and_grows_beyond_its_foot_only_when_full():
    found = placed([label(-50.0), label(900.0)], 10.0, 200.0, WIDE)
    assert found[0].top == pytest.approx(10.0)
    assert found[1].top + found[1].height == pytest.approx(200.0)
    many = [label(20.0 * at) for at in range(12)]
    full = placed(many, 10.0, 200.0, WIDE)
    assert full[0].top == pytest.approx(10.0)
    assert full[-1].top + full[-1].height == pytest.approx(
        10.0 + column_height([each.note for each in many], WIDE + 2.0) - GAP
    )


def test_a_note_of_the_whole_stands_first_and_has_no_leader():
    room = labelled(Note("site", "right", None, "21.0 °C", "room"), WIDE)
    found = placed([label(40.0), room], 12.0, 400.0, WIDE)
    assert found[0].note.part == "site"
    assert leader(found[0], WIDE) is None


def cross(one, other):
    (a, b), (c, d) = one, other

    def side(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


@pytest.mark.parametrize("name", BUILDS)
@pytest.mark.parametrize("what", ["section", "front", "back", "plan"])
def test_leaders_of_one_side_do_not_cross(name, what):
    drawn = picture(what, bent(name), made_up())
    ways = []
    for group in drawn.painted:
        if group.get("data-leader"):
            pairs = [pair.split(",") for pair in group[1].get("d")[1:].split(" L")]
            points = [(float(x), float(y)) for x, y in pairs]
            ways.append((points[0][0] < points[1][0], points[1:]))
    assert len(ways) >= 3
    for at, (left, way) in enumerate(ways):
        for other_left, other in ways[at + 1 :]:
            assert left != other_left or not cross(way, other)


def test_text_is_wrapped_at_blanks_but_not_between_a_figure_and_its_unit():
    lines = wrapped("stored air, mean; target 12.0\u00a0°C", 12.0, 130.0)
    assert lines == ["stored air, mean;", "target 12.0\u00a0°C"]
    for line in lines:
        assert text_width(line, 12.0) <= 130.0


def test_a_word_too_long_for_a_line_is_cut_and_none_of_it_is_lost():
    word = "propylene-glycol-with-inhibitor"
    lines = wrapped(word, 12.0, 60.0)
    assert "".join(lines) == word
    assert len(lines) > 2
    assert all(text_width(line, 12.0) <= 60.0 for line in lines)


def test_runs_use_the_tube_up():
    runs = runs_across(14.0, 0.65, 0.05)
    assert runs.count * runs.straight + (runs.count - 1) * 0.5 * 3.14159265 * 0.05 == (
        pytest.approx(14.0)
    )
    assert runs.straight == pytest.approx(0.60, abs=0.02)
    assert runs_across(0.3, 0.65, 0.05).count == 1
