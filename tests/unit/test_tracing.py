"""Operations written down on stand-ins and compiled give what NumPy gives."""

from __future__ import annotations

import os
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.arrays import Array
from coldwright.fluids.refrigerants import refrigerant
from coldwright.tracing import machine_code
from coldwright.tracing.earned import COMPILED_AFTER, LANE_WORK, Use, plain
from coldwright.tracing.graph import Graph
from coldwright.tracing.kernel import Inputs, Kernel
from coldwright.tracing.shares import at_most
from coldwright.tracing.stand_in import StandIn

PLACES = np.array([0.0, 0.5, 2.0, 5.0])
VALUES = np.array([1.0, -1.0, 4.0, 4.5])


@dataclass(frozen=True)
class Parts:
    """Two numbers of each lane, and nine points of one."""

    x: Array
    y: Array
    points: Array


@dataclass(frozen=True)
class OtherParts(Parts):
    """The same, of a structure that has earned nothing yet."""


def no_part(_: object) -> bool:
    """Every part has lanes."""
    return False


def compiled(function, parts, lane=None):
    """The compiled function's answer, by the lanes asked."""
    kernel = Kernel(function, (parts,), no_part)
    asked = np.arange(parts.x.size) if lane is None else lane
    return kernel(Inputs((parts,), no_part), asked)


def elementwise(p):
    x, y = p.x, p.y
    return (
        x + y - 2.0 * x / y,
        -x,
        np.abs(x) ** 1.7 + np.abs(x) ** 0.25 + x**3 + y**-2 + np.abs(x) ** 1.5,
        np.exp(-np.abs(x)) + np.expm1(0.1 * x) + np.log(y) + np.log1p(y) + np.log10(y),
        np.tanh(x) + np.arctan(x) + np.sin(x) + np.cos(x),
        np.arccos(np.tanh(x)) + np.arcsin(np.tanh(x)),
        np.maximum(x, y) + np.minimum(x, 0.3) + np.floor(x) + np.trunc(x),
        np.hypot(x, y) + np.logaddexp(0.0, x) + np.sign(x) + np.square(x) + np.cbrt(x),
        np.clip(x, -1.0, 1.0) + np.where((x > 0.0) & ~(y > 2.0) | (x < -3.0), x, y),
        np.where(x > 1.0, 1.0, 0.0) * y + (x > 0.0),
        np.interp(x, PLACES, VALUES),
        np.isfinite(x) & (x != y),
    )


def along_points(p):
    z = p.points * p.x
    step = np.diff(z, axis=0)
    place = np.argmax(z, axis=0)
    before, after = z[:-1], z[1:]
    return (
        np.cumsum(z, axis=0),
        np.maximum.accumulate(z, axis=0),
        np.cumsum(z[::-1], axis=0)[::-1],
        np.concatenate([np.zeros_like(z[:1]), np.cumsum(step, axis=0)]),
        np.sum(step * (before + after), axis=0) + np.max(np.abs(z), axis=0) + z[0] * z[-1],
        place + 0.0,
        np.take_along_axis(z, place[None], axis=0)[0],
        np.exp(np.clip(z, -700.0, 700.0) * 0.01)
        + np.log(np.abs(z) + 0.1)
        + (np.abs(z) + 1.0) ** 0.9,
        np.interp(z, PLACES, VALUES),
        np.where(z > 0.0, 1.0 / (1.0 + np.abs(z)), 0.5),
    )


def lanes_of(draw_count, low, high):
    return st.lists(
        st.floats(low, high, allow_nan=False), min_size=draw_count, max_size=draw_count
    ).map(np.array)


@given(x=lanes_of(5, -6.0, 6.0), y=lanes_of(5, 0.05, 6.0))
def test_elementwise_operations(x, y):
    parts = Parts(x, y, np.zeros((9, 5)))
    for k, (found, expected) in enumerate(
        zip(ELEMENTWISE(Inputs((parts,), no_part), np.arange(5)), elementwise(parts), strict=True)
    ):
        assert np.shape(found) == np.shape(expected), k
        np.testing.assert_allclose(found, expected, rtol=1e-13, atol=1e-13, err_msg=str(k))


@given(x=lanes_of(4, -3.0, 3.0), points=lanes_of(36, -50.0, 50.0))
def test_operations_along_points(x, points):
    parts = Parts(x, np.ones(4), points.reshape(9, 4))
    for k, (found, expected) in enumerate(
        zip(ALONG(Inputs((parts,), no_part), np.arange(4)), along_points(parts), strict=True)
    ):
        assert np.shape(found) == np.shape(expected), k
        np.testing.assert_allclose(found, expected, rtol=1e-12, atol=1e-12, err_msg=str(k))


SOME = Parts(np.linspace(-2.0, 3.0, 4), np.linspace(0.1, 2.0, 4), np.ones((9, 4)))
ELEMENTWISE = Kernel(elementwise, (SOME,), no_part)
ALONG = Kernel(along_points, (SOME,), no_part)


def test_lanes_are_answered_in_the_order_asked_and_scalars_serve_all():
    parts = Parts(np.array([1.0, 2.0, 3.0]), np.asarray(10.0), np.ones((9, 3)))
    found = compiled(lambda p: p.x * p.y, parts, np.array([2, 0, 0, 1]))
    assert found.tolist() == [30.0, 10.0, 10.0, 20.0]


def test_lanes_shared_out_among_cores_are_the_same():
    parts = Parts(np.linspace(0.1, 9.0, 200), np.linspace(1.0, 2.0, 200), np.ones((9, 200)))
    with at_most(1):
        alone = compiled(elementwise, parts)
    with at_most(3):
        shared = compiled(elementwise, parts)
    for one, other in zip(alone, shared, strict=True):
        np.testing.assert_array_equal(one, other)


def test_a_result_that_hangs_on_no_lane_stays_as_it_is():
    fixed = np.zeros(())
    found = compiled(lambda p: (p.x, fixed), SOME)
    assert found[1] is fixed


def test_not_a_number_reads_no_foreign_memory():
    parts = Parts(np.array([np.nan, 1e300, -1e300, 270.0]), np.ones(4), np.ones((9, 4)))
    found = compiled(lambda p: refrigerant("R152a").saturated(p.x).pressure, parts)
    assert found[3] == pytest.approx(refrigerant("R152a").saturation_pressure(270.0), rel=1e-14)


def test_a_stand_in_is_no_number():
    one = StandIn(Graph(), Graph().input())
    for wrong in (bool, float, np.asarray):
        with pytest.raises(TypeError, match="lane"):
            wrong(one)


def test_what_cannot_be_written_down_runs_as_plain_numpy():
    use = Use(lambda p: np.sort(p.points, axis=0), (SOME,), no_part)
    assert all(use.kernel(1_000_000) is None for _ in range(3))
    assert isinstance(use.refused, NotImplementedError)


def test_a_function_is_compiled_when_it_has_earned_it(tmp_path, monkeypatch):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))

    def function(p):
        return 3.0 * p.x

    many = int(COMPILED_AFTER / LANE_WORK)
    first = Use(function, (OtherParts(SOME.x, SOME.y, SOME.points),), no_part)
    assert first.kernel(many // 2) is None
    assert not list(tmp_path.rglob("*.o"))
    assert first.kernel(many) is not None
    with plain():
        assert first.kernel(many) is None
    assert len(list(tmp_path.rglob("*.o"))) == 1


def test_damaged_code_on_disk_is_made_again(tmp_path, monkeypatch):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    assert compiled(lambda p: 7.0 * p.x, SOME).tolist() == (7.0 * SOME.x).tolist()
    (file,) = tmp_path.rglob("*.o")
    whole = file.read_bytes()
    for damaged in (whole[: len(whole) // 2], b"", b"\0" * len(whole)):
        file.write_bytes(damaged)
        assert compiled(lambda p: 7.0 * p.x, SOME).tolist() == (7.0 * SOME.x).tolist()
        assert file.read_bytes() == whole


def test_old_code_makes_room(tmp_path, monkeypatch):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    monkeypatch.setattr(machine_code, "MOST_KEPT", 2)
    for k in (13.0, 17.0, 19.0):
        compiled(lambda p, k=k: k * p.x, SOME)
    assert len(list(tmp_path.rglob("*.o"))) == 2


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="files have no owners here")
def test_code_that_others_may_write_is_not_run(tmp_path, monkeypatch):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    compiled(lambda p: 11.0 * p.x, SOME)
    (file,) = tmp_path.rglob("*.o")
    assert machine_code._read(file) is not None
    file.chmod(0o666)
    assert machine_code._read(file) is None
    compiled(lambda p: 11.0 * p.x, SOME)
    assert machine_code._read(file) is not None
    monkeypatch.setattr(os, "getuid", lambda: 12345)
    assert machine_code._read(file) is None


def test_a_place_that_cannot_be_written_to_does_no_harm(tmp_path, monkeypatch):
    blocked = tmp_path / "file"
    blocked.write_text("")
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(blocked))
    assert compiled(lambda p: 9.0 * p.x, SOME).tolist() == (9.0 * SOME.x).tolist()
