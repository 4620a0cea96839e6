"""Any box: no text over another, nothing off the sheet, one scale for width and height."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sheet.drawing.geometry import geometry_of
from support.drawn import BUILDS, DRAW, SYSTEMS, bent, made_up, picture


def lengths(least, greatest):
    return st.floats(least, greatest).map(lambda each: f"{each:.4f} m")


CABINET = {
    "cabinet.inside_width": lengths(0.2, 2.0),
    "cabinet.inside_height": lengths(0.2, 2.2),
    "cabinet.inside_depth": lengths(0.2, 2.0),
    "cabinet.layers[2].thickness": lengths(0.005, 0.4),
    "cabinet.air_path.shelves": st.integers(0, 20),
    "cabinet.contents.mass": st.floats(0.0, 300.0).map(lambda each: f"{each:.2f} kg"),
    "condenser.gap": lengths(0.005, 0.15),
    "condenser.sheet_height": lengths(0.3, 2.0),
    "condenser.sheet_width": lengths(0.3, 1.5),
    "condenser.tube.length": lengths(3.0, 30.0),
    "suction_line.length": lengths(1.2, 6.0),
    "targets.use": st.text(
        st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=60
    ),
}  # fmt: skip
CHANGES = st.fixed_dictionaries({}, optional=CABINET)


@settings(max_examples=70)
@given(
    name=st.sampled_from(BUILDS),
    changes=CHANGES,
    shift=st.floats(-40.0, 40.0),
    worked_out=st.booleans(),
    units=st.sampled_from(SYSTEMS),
    compact=st.booleans(),
)
def test_any_box_is_drawn_whole_with_all_its_texts_apart(
    name, changes, shift, worked_out, units, compact
):
    try:
        build = bent(name, changes)
    except InputError:
        return  # a box that the file's own checks refuse is not drawn
    figures = made_up(shift) if worked_out else None
    for what in DRAW:
        drawn = picture(what, build, figures, units=units, compact=compact)
        assert drawn.clashes == []
        assert drawn.strays == []


@settings(max_examples=30)
@given(name=st.sampled_from(BUILDS), changes=CHANGES)
def test_width_and_height_have_one_scale(name, changes):
    try:
        build = bent(name, changes)
    except InputError:
        return
    geometry = geometry_of(build)
    drawn = picture("section", build)
    wide, high = drawn.sides("inside")
    across = wide / geometry.inside.width
    # Coordinates are written to a hundredth of a pixel: so sure is the scale, and each height.
    for found, metres in (
        (high, geometry.inside.height),
        (drawn.sides("sheet")[1], build.condenser.sheet_height.value),
    ):
        rounding = 0.006 * (1.0 + metres / geometry.inside.width)
        assert found == pytest.approx(across * metres, abs=rounding)
    assert geometry.outside.height == pytest.approx(
        geometry.inside.height + geometry.thickness("top") + geometry.thickness("bottom")
    )
