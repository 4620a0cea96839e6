"""When a function is worth compiling: once it has been used enough.

Writing a function's operations down costs about a tenth of a second and compiling them, once for
each processor, one or two. So a function runs as plain NumPy until it has been used about as long
as the first costs. What is counted is the work, not the time, and not whether its code is on disk:
the same calls are computed in the same way on every machine.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from coldwright.tracing.kernel import Kernel
from coldwright.tracing.parts import Parts, Whole, structure_of

# Work of one call and of each of its lanes, about in seconds of plain NumPy.
CALL_WORK, LANE_WORK = 4e-3, 5e-5
# Work after which a function is compiled.
COMPILED_AFTER = 0.1


@dataclass
class _Record:
    """One function of one structure of parts."""

    kernel: Kernel | None = None
    refused: Exception | None = None  # why it cannot be written down, or nothing compiles here


_records: dict[Hashable, _Record] = {}
# Work by the structure of the first part: functions of the same system earn together.
_work: defaultdict[Hashable, float] = defaultdict(float)
_plain = [False]


@contextmanager
def plain() -> Iterator[None]:
    """Within it everything runs as plain NumPy."""
    before, _plain[0] = _plain[0], True
    try:
        yield
    finally:
        _plain[0] = before


class Use:
    """A function in use for parts of one structure."""

    def __init__(
        self,
        function: Callable[..., Parts],
        parts: tuple[Parts, ...],
        whole: Whole,
        call_work: float = CALL_WORK,
    ) -> None:
        self._call_work = call_work
        self._earner = structure_of(parts[0], whole)
        structure = (function, self._earner, structure_of(parts[1:], whole))
        self._record = _records.setdefault(structure, _Record())
        self._function, self._parts, self._whole = function, parts, whole

    def kernel(self, count: int) -> Kernel | None:
        """The compiled function, or None where it has not earned it yet.

        `count` is how many lanes the coming call has.
        """
        record = self._record
        if _plain[0] or record.refused:
            return None
        _work[self._earner] += self._call_work + LANE_WORK * count
        if _work[self._earner] < COMPILED_AFTER:
            return None
        try:
            if record.kernel is None:
                record.kernel = Kernel(self._function, self._parts, self._whole)
                record.kernel.make()
        except (ImportError, NotImplementedError, OSError, RuntimeError, TypeError) as why:
            record.refused = why
            return None
        return record.kernel

    @property
    def refused(self) -> Exception | None:
        """Why the function stays plain NumPy; None where nothing is against compiling it."""
        return self._record.refused
