"""Stage 7: how much yarn the knitted fabric takes, and what to buy."""
