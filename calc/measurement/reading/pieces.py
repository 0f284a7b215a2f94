"""Pieces: a file that comes piece by piece, as whole lines for the rows."""

from calc.measurement.reading.layout import Layout, layout
from calc.measurement.reading.rows import Rows
from calc.measurement.reading.settings import Settings, UnclearError

LARGEST = 60_000_000
"""So many characters are read, so that memory is bounded."""
HEAD = 1 << 16
"""So many characters are waited for before the layout is told from them."""
LONGEST = 1_000_000
"""A line of more characters is left out."""


class Pieces:
    """Takes pieces of any length; the layout and the rows are there once it can be told."""

    def __init__(self, settings: Settings | None = None) -> None:
        """Take what the reader says of the file; the rest is guessed from it."""
        self.settings = settings or Settings()
        self.layout: Layout | None = None
        self.rows: Rows | None = None
        self.characters = 0
        self._rest = ""
        self._skipping = False
        self._passed = 0

    def feed(self, text: str) -> None:
        """Take the next piece.

        Raises:
            UnclearError: If the file has two meanings, with what must be asked.
            ValueError: If the file is too large or has no rows of numbers.
        """
        self.characters += len(text)
        if self.characters > LARGEST:
            raise ValueError(f"The file is longer than {LARGEST // 1_000_000} MB: cut it in parts")
        self._rest += text
        if self.layout is None and len(self._rest) < HEAD:
            return
        self._take(whole=False)

    def close(self) -> Rows:
        """Take what is left and return all rows.

        Raises:
            UnclearError: As `feed`.
            ValueError: As `feed`.
        """
        self._take(whole=True)
        assert self.rows is not None
        return self.rows

    def _take(self, *, whole: bool) -> None:
        if self.layout is None:
            self.layout = layout(self._rest, self.settings, whole=whole)
            if self.layout.questions:
                raise UnclearError(self.layout.questions)
            self.rows = Rows(self.layout)
            self._rest = self._rest.removeprefix("\ufeff")
        assert self.rows is not None
        text = self._rest
        if "\r" in text:
            held = "" if whole or not text.endswith("\r") else "\r"
            text = text[: len(text) - len(held)].replace("\r\n", "\n").replace("\r", "\n")
        else:
            held = ""
        lines = text.split("\n")
        self._rest = lines.pop() + held
        if whole:
            lines += [self._rest] if self._rest else []
            self._rest = ""
        first = self.rows.layout.header_lines - self._passed
        if first > 0:
            self._passed += min(first, len(lines))
            self.rows.headings.update(filter(str.strip, lines[:first]))
            del lines[:first]
        self._bounded(lines, whole=whole)

    def _bounded(self, lines: list[str], *, whole: bool) -> None:
        """Hand on lines, but those of unbounded length."""
        assert self.rows is not None
        if self._skipping and (lines or whole):
            self.rows.leave_out(f"longer than {LONGEST} characters and is left out")
            del lines[:1]
            self._skipping = False
        if self._skipping or len(self._rest) > LONGEST:
            self._rest, self._skipping = "", True
        self.rows.take(lines)
