"""Stage 9: findings as reports, for people (`text`) and for machines (`data`, `sarif`, `junit`)."""
