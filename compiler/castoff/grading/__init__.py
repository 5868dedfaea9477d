"""Stage 4: formulas to numbers per size, with units."""
