"""Lanes in batches."""

import numpy as np
import pytest

from coldwright.clock.batches import in_batches


@pytest.mark.parametrize("count", [1, 64, 65, 161, 1000])
def test_batches_hold_every_lane_once_and_none_is_too_large(count):
    found = in_batches(count, 64)
    assert np.array_equal(np.concatenate(found), np.arange(count))
    sizes = [each.size for each in found]
    assert max(sizes) <= 64
    assert max(sizes) - min(sizes) <= 1
