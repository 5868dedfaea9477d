"""`python -m castoff` is the command."""

from castoff.cli import main

main()
