"""Why an entry is refused, before it is put into a sentence."""

from __future__ import annotations

from coldwright.units import registry
from coldwright.units.kinds import FACTS


class RefusedError(ValueError):
    """A refused entry: `what` follows the received text, `hint` stands in brackets behind."""

    def __init__(self, what: str, hint: str = "") -> None:
        """Hold the two parts of the reason."""
        super().__init__(what, hint)
        self.what = what
        self.hint = hint


def wrong_unit(registry_unit: str, hint: str) -> RefusedError:
    """Return the refusal of a known unit that measures something else, naming what it measures."""
    for facts in FACTS.values():
        if facts.si_unit and registry.same_dimension(registry_unit, facts.si_unit):
            noun = facts.noun.removesuffix(" with its unit").removesuffix(
                " that says gauge or absolute"
            )
            return RefusedError(f"which is {noun}", hint)
    return RefusedError("which measures something else", hint)
