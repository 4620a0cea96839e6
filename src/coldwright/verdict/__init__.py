"""Verdict: a build worked out, held against targets and the trade's limits, and explained."""

from coldwright.verdict.assess import Assessment, assess
from coldwright.verdict.explain import explanation_of, inputs_of, value_at
from coldwright.verdict.report import report

__all__ = ["Assessment", "assess", "explanation_of", "inputs_of", "report", "value_at"]
