"""A progress bar on standard error for long work; silent when nobody watches.

In: how many steps. Out: nothing but what a terminal shows. Lines printed on the way go to standard output.
"""

from __future__ import annotations

import os
import sys
from types import TracebackType

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, TextColumn
from rich.progress import Progress as Bar


class Progress:
    """Used as a context: `step` once for each piece of work done."""

    def __init__(self, what: str, total: int) -> None:
        self._what = what
        self._total = total
        self._bar: Bar | None = None

    def __enter__(self) -> Progress:
        if sys.stderr.isatty() and sys.stdout.isatty() and self._total > 1:
            console = Console(stderr=True, no_color="NO_COLOR" in os.environ)
            columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
            self._bar = Bar(*columns, console=console, transient=True)
            self._bar.start()
            self._task = self._bar.add_task(self._what, total=self._total)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._bar is not None:
            self._bar.stop()

    def step(self, name: str) -> None:
        """One piece of work is done; its name is shown beside the bar."""
        if self._bar is not None:
            self._bar.update(self._task, advance=1, description=name)

    def print(self, text: str) -> None:
        """A line on standard output, above the bar."""
        if self._bar is not None:
            self._bar.stop()
        print(text, flush=self._bar is not None)
        if self._bar is not None:
            self._bar.start()
