"""Speed as ratios within one run; no figure here is a test."""
