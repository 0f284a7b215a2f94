"""Coming back: whether the numbers that an older link quotes still stand, and if not, why.

What a link says of itself is not trusted: it is read within bounds, changes no entry, and where it
cannot be read that is said.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape

from calc import VERSION
from calc.catalogue import formula
from calc.changes import name_now, place, since
from calc.declaration import Field, Table, outputs
from calc.form.calculation import Calculation
from calc.form.quoting import NONE, QUOTED, RELEASE, Quotable, is_same, numbers, told_apart
from calc.form.showing import number
from calc.quantity import Quantity, in_sentence

LONGEST = 4000
MOST = 60
"""Characters and numbers of a quotation; one with more is not read."""

MOST_SHOWN = 6
"""Numbers that changed which are told one by one."""

MOST_DIGITS = 12

_CLOSING = ")].,;:!?>\"'’”»"
"""What may stand behind a link in a sentence."""

_RELEASE = re.compile(r"\d{1,3}(?:\.\d{1,3}){1,2}", re.ASCII)
_NUMBER = re.compile(r"-?\d{1,20}(?:\.\d{1,20})?(?:e-?\d{1,3})?", re.ASCII)
_TABLE = re.compile(rf"t\d{{1,5}}(?:,{_NUMBER.pattern}){{0,50}}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Told:
    """What is said of a quotation: the first sentence compares, `differs` if unlike.

    Where several results differ, `lines` has one for each; `then` says why.
    """

    first: str
    lines: tuple[str, ...] = ()
    then: tuple[str, ...] = ()
    differs: bool = False

    @property
    def sentences(self) -> tuple[str, ...]:
        """All of it, to be read as a text."""
        return (self.first, *self.lines, *self.then)

    @property
    def html(self) -> str:
        """A paragraph, with a list where several results differ."""
        kind, head = ("warning ", "<strong>Differs</strong> ") if self.differs else ("", "")
        releases = '<a class="no-print" href="../releases.html">Releases</a>'
        first, then = head + escape(self.first), f"{escape(' '.join(self.then))} {releases}".strip()
        if not self.lines:
            return f'<p class="{kind}quoted">{first} {then}</p>'
        items = " ".join(f"<li>{escape(line)}</li>" for line in self.lines)
        return f'<div class="{kind}quoted"><p>{first}</p> <ul>{items}</ul> <p>{then}</p></div>'


def told(calculation: Calculation, quoted: Mapping[str, str]) -> Told:
    """Return what is to be said of the quotation in a link.

    Args:
        calculation: What the entries of the link give now.
        quoted: `release` and `quoted` as they stand in the link.
    """
    if quoted.get(RELEASE) is None:
        return Told("The link names no release, and what it quotes is left out.")
    release = str(quoted[RELEASE]).rstrip(_CLOSING)
    if not _RELEASE.fullmatch(release):
        return Told("The release in the link cannot be read, and what it quotes is left out.")
    given = _read(str(quoted.get(QUOTED) or "").rstrip(_CLOSING))
    if given is None:
        return Told(f"What the link quotes of release {release} cannot be read and is left out.")
    given = {name_now(calculation.name, key): value for key, value in given.items()}
    now = numbers(calculation)
    fields = {f.name: f for f in outputs(formula(calculation.name)) if _is_quotable(f)}
    strange = [key for key in given if key not in fields]
    compared = [fields[key] for key in given if key in fields]
    same = [f for f in compared if is_same(f.declaration, given[f.name], now.get(f.name))]
    unlike = [f for f in compared if f not in same]
    first, *lines = _Shown(calculation, given, now).compared(release, same, unlike)
    if strange and not compared:
        first = f"The link is from release {release}."
    then = [f"It quotes what this form does not give: {', '.join(strange)[:60]}."] * bool(strange)
    if place(release) > place(VERSION):
        then.append(
            f"Release {release} is later than this one, {VERSION}, which does not know what it "
            "changed."
        )
    elif unlike or not same:
        then += _reasons(calculation.name, release, differs=bool(unlike))
    return Told(first, tuple(lines), tuple(then), bool(unlike))


@dataclass(frozen=True, slots=True)
class _Shown:
    """Results in words: as they were quoted and as they are now."""

    calculation: Calculation
    given: Mapping[str, Quotable]
    now: Mapping[str, Quotable]

    def compared(self, release: str, same: list[Field], changed: list[Field]) -> list[str]:
        """Return the sentence that says which results are the same, or several, each a line."""
        if not same and not changed:
            return [f"The link is from release {release} and quotes no number."]
        head = f"Quoted in release {release}:"
        if not changed:
            first = f"{head} {self._old(same[0])}"
            more = len(same) - 1
            return [f"{first} and {more} more. All unchanged." if more else f"{first}. Unchanged."]
        lines = [f"{self._old(f)}; {self._new(f)}." for f in changed[:MOST_SHOWN]]
        left = len(changed) - MOST_SHOWN
        rest = [f"{left} more changed."] if left > 0 else []
        rest += [f"{len(same)} more unchanged."] if same else []
        return [head, *lines, *rest] if len(changed) > 1 else [" ".join([head, *lines, *rest])]

    def _old(self, f: Field) -> str:
        if isinstance(f.declaration, Table):
            return f"the table “{f.declaration.label}” {self._tables(f)[0]}".rstrip()
        return f"{in_sentence(f.declaration.label)} {self._value(f, self.given, self.now)}"

    def _new(self, f: Field) -> str:
        if isinstance(f.declaration, Table):
            return f"now {self._tables(f)[1]}"
        return f"now {self._value(f, self.now, self.given)}"

    def _tables(self, f: Field) -> tuple[str, str]:
        """Return in words how a table differs from the one that was quoted, old and new."""
        old, new = self.given[f.name], self.now.get(f.name)
        if new is None or not isinstance(f.declaration, Table) or is_same(f.declaration, old, new):
            return "", "no table"
        if not str(old).startswith("t"):
            return "", "other numbers"
        rows, other = told_apart(f.declaration, str(old), str(new))
        return f"of {rows}" if rows else "", other

    def _value(
        self, f: Field, those: Mapping[str, Quotable], others: Mapping[str, Quotable]
    ) -> str:
        """Return a number with as many digits as tell it from the other."""
        value, other = those.get(f.name), others.get(f.name)
        if not isinstance(f.declaration, Quantity) or not isinstance(value, float):
            return NONE if value else "no result"
        unit = self.calculation.shown_in.unit(f.name, f.declaration)
        digits = 4
        while (
            isinstance(other, float)
            and not is_same(f.declaration, value, other)
            and digits < MOST_DIGITS
            and number(f.declaration, value, unit, digits)
            == number(f.declaration, other, unit, digits)
        ):
            digits += 1
        return f"{number(f.declaration, value, unit, digits)} {unit.name}".rstrip()


def _reasons(name: str, release: str, *, differs: bool) -> list[str]:
    """Return why numbers differ, or that no reason is recorded and what to do."""
    changes = since(name, release)
    if changes:
        return [f"Changed in release {one.version}: {one.what} {one.why}" for one in changes]
    is_this = place(release) == place(VERSION)
    none = f"No change of this calculation is recorded up to this release, {VERSION}."
    found = [f"Release {release} is this one." if is_this else none]
    if differs:
        found.append("A number or an entry in the link was altered, or a number in it rounded.")
        elsewhere = "" if is_this else f", or open the link in the folder of release {release}"
        found.append(f"Ask whoever sent it{elsewhere}.")
    return found


def _read(text: str) -> dict[str, Quotable] | None:
    """Return what a quotation says, or None where it cannot be one."""
    parts = [part for part in text.split(";") if part]
    if len(text) > LONGEST or len(parts) > MOST:
        return None
    found: dict[str, Quotable] = {}
    for part in parts:
        name, _, value = part.rpartition("_")
        is_number = bool(_NUMBER.fullmatch(value)) and math.isfinite(float(value))
        is_word = value == NONE or bool(_TABLE.fullmatch(value))
        if not name.isidentifier() or not name.isascii() or not (is_number or is_word):
            return None
        found[name] = float(value) if is_number else value
    return found


def _is_quotable(f: Field) -> bool:
    return isinstance(f.declaration, Quantity | Table)
