"""Typed patterns with one number wrong: what share of the slips is found."""
