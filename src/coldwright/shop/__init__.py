"""Stock data: tubes, bores, materials, surfaces, refrigerant safety; each row with its source."""
