"""The whole plant: the parts balanced at rest, the operating map, the audit."""
