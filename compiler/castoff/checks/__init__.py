"""Stage 7a: judgements over finished numbers and fabrics."""
