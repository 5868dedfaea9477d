"""Stage 3: the node tree to a typed pattern."""
