"""Stage 2: YAML text to a node tree in which every value knows its place."""
