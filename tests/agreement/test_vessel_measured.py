"""A measured vessel beside the shapes whose area and volume it is given."""

from __future__ import annotations

import numpy as np
import pytest

import box_scenario as box

STATE = [np.asarray(value) for value in (263.0, 275.0, 276.0)]


def twin(body, **changes):
    """The measured body of another's side and volume."""
    return box.shell(
        "measured",
        height=body.height,
        top_exposed=0.0,
        bottom_exposed=0.0,
        measured_area=body.perimeter() * body.height,
        measured_volume=body.cross_section() * body.height,
        **changes,
    )


def test_a_box_without_lid_and_floor_is_the_measured_body_of_its_side():
    flat = box.shell("flat", width=0.35, depth=0.12, top_exposed=0.0, bottom_exposed=0.0)
    ours, theirs = (box.drum(body=body).films(*STATE) for body in (twin(flat), flat))
    for name in ("convective_conductance", "radiative_conductance", "outside_area"):
        assert getattr(ours, name) == pytest.approx(getattr(theirs, name), rel=1e-12)


def test_a_finned_drum_is_the_measured_body_of_its_side():
    drum = box.shell(top_exposed=0.0, bottom_exposed=0.0)
    ours, theirs = (box.drum(box.fins(), body=body).films(*STATE) for body in (twin(drum), drum))
    # the bare strip above the fins is a plate here, slightly curved there
    assert ours.convective_conductance == pytest.approx(theirs.convective_conductance, rel=0.005)
    assert ours.radiative_conductance == pytest.approx(theirs.radiative_conductance, rel=0.005)


@pytest.mark.parametrize("radius", [0.1, 0.2])
def test_the_wall_of_a_sphere(radius):
    area, volume, wall = 4.0 * np.pi * radius**2, 4.0 / 3.0 * np.pi * radius**3, 0.0015
    body = box.shell(
        "measured",
        height=2.0 * radius,
        wall_thickness=wall,
        top_exposed=0.0,
        bottom_exposed=0.0,
        measured_area=area,
        measured_volume=volume,
    )
    clear = 4.0 / 3.0 * np.pi * (radius - wall) ** 3
    assert body.inside_volume == pytest.approx(clear, rel=1e-3)
    assert body.mass == pytest.approx((volume - clear) * 7900.0, rel=2.0 * wall / radius)
