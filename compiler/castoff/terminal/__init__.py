"""Stage 9: tables and progress for the terminal."""
