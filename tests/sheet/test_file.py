"""The file of a data sheet: it comes back as it was, or a list of problems comes back."""

import math
import random
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from calc import examples
from calc.declaration import Choice
from calc.digits import plain
from calc.quantity import Quantity
from calc.sheet.file import LARGEST, opened, written
from calc.sheet.layout import sections
from calc.sheet.reader import MOST_PROBLEMS
from calc.sheet.sheet import ORIGINS, Sheet, Value, blank, filled, value_read
from scripts.environment import ROOT

EXAMPLES = sorted((ROOT / "docs" / "examples").glob("*.toml"))


def drawn(seed: int) -> random.Random:
    """Return a source of the same numbers each time."""
    return random.Random(seed)  # noqa: S311 - reproducible, nothing is secret


def random_value(dice: random.Random, declaration: object) -> Value:
    """Return a value that can exist, in any unit, with or without its origin and tolerance."""
    if isinstance(declaration, Choice):
        return Value(dice.choice(list(declaration.options)), dice.choice(list(ORIGINS)))
    if not isinstance(declaration, Quantity):
        return Value("".join(dice.choices('abcXYZ ,;"\\#=[]~²é日', k=8)) + "a")
    low = max(declaration.at_least, declaration.above, -1e3)
    high = min(declaration.at_most, declaration.below, low + 1e3)
    number = low + (high - low) * dice.uniform(0.01, 0.99)
    if declaration.whole:
        return Value(str(math.ceil(number)), dice.choice(list(ORIGINS)))
    unit = dice.choice(declaration.units)
    tolerance = dice.choice(["", f"{plain(abs(number) / unit.size / 10)} {unit.name}".rstrip()])
    text = f"{plain(unit.reading(number), 5)} {unit.name}".rstrip()
    return Value(text, dice.choice(list(ORIGINS)), tolerance)


def in_order(dice: random.Random) -> dict[str, Value]:
    """Return ranges of governed speeds that fit one another, each about its nominal speed."""
    found = {}
    for key, nominal in (
        ("rotor_speeds", "rotorcraft.rotor_speed"),
        ("propeller", "propeller.speed"),
    ):
        middle = dice.uniform(100.0, 900.0)
        found[nominal] = Value(f"{middle:.4f} rpm")
        for condition in ("power_on", "power_off", "transient"):
            for end, sign in (("low", -1.0), ("high", 1.0)):
                speed = middle * (1.0 + sign * dice.uniform(0.0, 0.2))
                found[f"{key}.{condition}_{end}"] = Value(f"{speed:.5f} rpm")
    return found


def random_sheet(dice: random.Random) -> Sheet:
    """Return a sheet of which some is known."""
    values: dict[str, Value] = {}
    rows = {}
    for part in sections():
        made = [
            filled(
                part,
                {
                    f.name: random_value(dice, f.declaration)
                    for f in part.fields
                    if dice.random() < 0.7
                },
            )
            for _ in range(dice.randint(0, part.most) if part.is_table else 1)
        ]
        if part.is_table:
            rows[part.key] = tuple(made)
        else:
            values |= {f"{part.key}.{name}": value for name, value in made[0].items()}
    values |= in_order(dice)
    return Sheet('A "sheet" with \\ marks', "a\nb", values, rows)


@pytest.mark.parametrize("seed", range(60))
def test_sheet_comes_back_as_it_was(seed: int) -> None:
    """What is written is read back to the same sheet, and written again to the same bytes."""
    sheet = random_sheet(drawn(seed))
    text = written(sheet)
    found = opened(text.encode())

    assert [str(problem) for problem in found.problems] == []
    assert found.sheet == sheet
    assert found.changes == ()
    assert written(found.sheet) == text


def test_general_reader_finds_every_value() -> None:
    """The standard library reads each text, origin and tolerance that was given."""
    sheet = random_sheet(drawn(7))
    content = tomllib.loads(written(sheet))
    for place, value in sheet.values.items():
        section, _, name = place.partition(".")
        said = content[section][name]
        said = {"value": said} if isinstance(said, str) else said
        assert said["value"] == value.text
        assert said.get("from", "unknown") == value.origin
        assert said.get("tolerance", "") == value.tolerance


def test_file_of_nothing_known_is_a_form_to_fill_in() -> None:
    """A blank sheet is legal, and its file names every field that has no default."""
    text = written(blank("Wren"))

    assert opened(text.encode()).sheet == blank("Wren")
    assert tomllib.loads(text)["rotorcraft"]["radius"] == "unknown"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_example_is_read_and_is_in_the_form_that_is_written(path: Path) -> None:
    """Each example is whole, plainly invented, and as the program would write it."""
    found = opened(path.read_bytes())

    assert found.problems == ()
    assert found.sheet is not None
    assert "invented example" in found.sheet.note.lower()
    assert written(found.sheet).encode() == path.read_bytes()


@pytest.mark.parametrize("name", ["plover", "curlew"])
def test_example_agrees_with_the_rotorcraft_of_the_pages(name: str) -> None:
    """The sheets of Plover and Curlew hold the numbers of `calc/examples.py`."""
    sheet = opened((ROOT / "docs" / "examples" / f"{name}.toml").read_bytes()).sheet
    craft = getattr(examples, name.upper())
    part = next(part for part in sections() if part.key == "rotorcraft")
    assert sheet is not None

    for f in part.fields:
        value = sheet.value(f"rotorcraft.{f.name}")
        assert value is not None
        assert value_read(f, value).value == pytest.approx(getattr(craft, f.name), rel=1e-12), (
            f.name
        )


@pytest.mark.parametrize(
    ("change", "line", "field", "message"),
    [
        ('radius = "4.8"', 4, "rotorcraft.radius", "needs its unit, one of m, ft, in, mm"),
        ('radius = "-4.8 m"', 4, "rotorcraft.radius", "must be above 0 m, not -4.8 m"),
        ('radius = "4.8 kg"', 4, "rotorcraft.radius", "cannot be in kilograms"),
        ("radius = 4.8", 4, "rotorcraft.radius", "text with its unit"),
        ('radius = { value = "4.8 m", from = "hearsay" }', 4, "rotorcraft.radius", "from must be"),
        (
            'mass = { value = "5200 lb", tolerance = "2 pounds" }',
            *(
                4,
                "rotorcraft.mass.tolerance",
                "Tolerance of the mass has an unknown unit, “pounds”",
            ),
        ),
        (
            'radius = { value = "4.8 m", tolerance = "5" }',
            *(4, "rotorcraft.radius.tolerance", "Tolerance of the rotor radius needs its unit"),
        ),
        (
            'radius = { value = "4.8 m", tolerance = "-1 mm" }',
            *(4, "rotorcraft.radius.tolerance", "Tolerance of the rotor radius is negative"),
        ),
        (
            '[[airframe_modes]]\nname = "bend\\u0007ing"',
            *(5, "airframe_modes row 1.name", "only signs that can be printed, not U+0007"),
        ),
        ('[[airframe_modes]]\nname = "  "', 5, "airframe_modes row 1.name", "Enter the "),
        ('radius = { value = "4.8 m", guess = "5" }', 4, "rotorcraft.radius", "may have value"),
        ('radios = "4.8 m"', 4, "rotorcraft.radios", "has no meaning here; there are mass, radius"),
        ('[rotor]\nradius = "4.8 m"', 4, "rotor", "has no meaning here"),
        ('[[measured_modes]]\nfrequency = "2 m"', 5, "measured_modes row 1.frequency", "metres"),
        ("[lag]\nlag_damping = [1, 2]", 5, "lag.lag_damping", "text with its unit"),
        ("[rotorcraft]", 4, "", "the section rotorcraft begins here a second time; keep one"),
        ('mass = "1 kg"\nmass = "2 kg"', 5, "", "the same name stands twice in its section"),
        ('twist = [ "1",', 4, "", "the file ends here and may have been cut off"),
        ("a." * 60 + "b = 1", 4, "", "too many parts"),
        ('radius = "4.8 m', 4, "", "this is not TOML: "),
        ('radius = "4.8 m"\n[lag', 5, "", "this is not TOML: "),
    ],
)
def test_problem_names_field_and_line(change: str, line: int, field: str, message: str) -> None:
    """Whatever is wrong is said with its line and its field, and there is no sheet."""
    found = opened(f"format = 2\n\n[rotorcraft]\n{change}\n".encode())

    assert found.sheet is None
    assert (found.problems[0].line, found.problems[0].field) == (line, field)
    assert message in found.problems[0].message


def test_each_wrong_name_is_told_which_there_are() -> None:
    """Not the first one alone."""
    found = opened(b'format = 2\n\n[rotorcraft]\nradios = "4.8 m"\nmas = "800 kg"\n')
    for problem in found.problems:
        assert "there are mass, radius" in problem.message
    assert len(found.problems) == 2


def test_newer_format_is_refused_and_an_older_one_upgraded() -> None:
    """The first drafts had one altitude under `flight`; it becomes a row, and that is said."""
    newer = opened(b"format = 3\nwhatever = 1\n")
    assert newer.sheet is None
    assert [problem.line for problem in newer.problems] == [1]
    assert "from a newer version" in newer.problems[0].message

    older = opened(b'format = 1\n[flight]\npressure_altitude = "2000 ft"\n')
    assert older.sheet is not None
    assert older.sheet.rows["altitudes"][0]["pressure_altitude"] == Value("2000 ft")
    assert older.changes == ("flight.pressure_altitude is now in the first row of altitudes",)
    assert written(older.sheet).startswith("# Data sheet")
    assert opened(written(older.sheet).encode()).changes == ()


@pytest.mark.parametrize("letter", ['"', "\n", "\\", "é"])
def test_longest_texts_come_back(letter: str) -> None:
    """A title and a note as long as they may be are read again, whatever needs an escape."""
    sheet = replace(blank(letter.replace("\n", "x") * 120), note=letter * 1000)

    assert opened(written(sheet).encode()).sheet == sheet


@pytest.mark.parametrize(
    "data", [b"", b"format = true", b"format = 0", b"format = '2'", b"title = 'no format'"]
)
def test_file_without_a_format_is_no_data_sheet(data: bytes) -> None:
    """A file says which format it has."""
    assert [problem.field for problem in opened(data).problems] == ["format"]


def damaged() -> Iterator[bytes]:
    """Yield a thousand damaged files: cut, shuffled, of wrong types, huge, in other encodings."""
    dice = drawn(20261126)
    yield from (b"[" * 1500, b"a" * (LARGEST + 1), b"\n".join([b"[" * 900] * 200), b"\xff\xfe")
    yield b"\n".join(b"k%d." % row + b"a." * 980 + b"b = 1" for row in range(95))
    yield from (b"a.b.c" * 300 + b" = 1", b"\x00" * 500, b"x = " + b"{a=" * 400)
    yield from (b"a=[" + b"[\n" * 50_000, b"\n" * LARGEST, b"format = 2\n" * 1000)
    yield from (b"[[hub]]\n" * 20_000, b"format = 2\n" + b"[[altitudes]]\nx = 1\n" * 5000)
    sources = [path.read_bytes() for path in EXAMPLES]
    for number in range(987):
        yield DAMAGES[number % len(DAMAGES)](dice, dice.choice(sources))


def cut(dice: random.Random, data: bytes) -> bytes:
    """Cut a file off."""
    return data[: dice.randrange(len(data))]


def shuffled(dice: random.Random, data: bytes) -> bytes:
    """Shuffle the lines of a file."""
    lines = data.splitlines()
    dice.shuffle(lines)
    return b"\n".join(lines)


def of_wrong_type(dice: random.Random, data: bytes) -> bytes:
    """Give one key a value of another kind."""
    lines = data.decode().splitlines()
    at = dice.randrange(len(lines))
    lines[at] = f"{lines[at].partition('=')[0]} = {dice.choice(WRONG)}"
    return "\n".join(lines).encode()


def in_another_encoding(dice: random.Random, data: bytes) -> bytes:
    """Write a file in an encoding that is not UTF-8."""
    return data.decode().encode(dice.choice(["utf-16", "utf-32", "cp037", "utf-7"]), "replace")


def with_noise(dice: random.Random, data: bytes) -> bytes:
    """Change a few bytes."""
    noise = bytearray(data)
    for _ in range(dice.randint(1, 30)):
        noise[dice.randrange(len(noise))] = dice.randrange(256)
    return bytes(noise)


def repeated(dice: random.Random, data: bytes) -> bytes:
    """Repeat the end of a file, up to beyond the largest size."""
    at = dice.randrange(len(data))
    return data[:at] + data[at:] * dice.choice([2, 3, 6, 60])


def less_a_line(dice: random.Random, data: bytes) -> bytes:
    """Leave a line out."""
    lines = data.splitlines()
    del lines[dice.randrange(len(lines))]
    return b"\n".join(lines)


DAMAGES = (cut, shuffled, of_wrong_type, in_another_encoding, with_noise, repeated, less_a_line)
WRONG = ["1", "-1.5e308", "nan", "true", "1979-05-27", "[]", "{}", "[[[]]]", '""', '"1,234 m"']
WRONG += ['"unknown"', '"\\u0000"', "9" * 400, '"' + "x" * 1500 + '"', "{ value = 3 }", "''''''"]


def test_damaged_file_gives_a_whole_sheet_or_problems() -> None:
    """None of a thousand damaged files raises, hangs, or is read by halves."""
    whole = 0
    for number, data in enumerate(damaged()):
        found = opened(data)
        if found.sheet is None:
            last = data.count(b"\n") + data.count(b"\r") + 1
            assert 1 <= len(found.problems) <= MOST_PROBLEMS + 1
            assert all(problem.message for problem in found.problems)
            assert all(0 <= problem.line <= last for problem in found.problems)
        else:
            whole += 1
            assert found.problems == ()
            if number % 10 == 0:
                assert opened(written(found.sheet).encode()).sheet == found.sheet
    assert number == 999
    assert 50 < whole < 500
