"""Stage 5: instruction text to syntax trees, in the trade's own shorthand."""
