"""Coming back: a quotation is compared, explained, and never trusted."""

import re
from dataclasses import replace

import pytest

from calc import VERSION, changes
from calc.catalogue import formula
from calc.changes import Change
from calc.declaration import Table, inputs, outputs
from calc.form.answer import answer
from calc.form.calculation import calculate, latest, start
from calc.form.coming_back import LONGEST, MOST, told
from calc.form.quoting import linked, numbers
from scripts.golden import kept

TIP = "rotor.tip_speed.tip_state"
SPEED = "rotor.tip_speed.tip_speed"
MULTIPLES = "harmonics.blade_passage.multiples"
TEN = {"radius": "10_m", "rotor_speed": "35_rad/s"}
"""A tip speed of 350 m/s."""

CHANGE = Change("9.0.0", (SPEED,), "The radius is longer.", "It was measured anew.")


def said(quoted: str | None, release: str = VERSION, name: str = SPEED, **entries: str) -> str:
    """Return what is said of a quotation of a tip speed of 350 m/s, or of other entries."""
    about = {"release": release, **({} if quoted is None else {"quoted": quoted})}
    given = start(name) | (entries or (TEN if name == SPEED else {}))
    return " ".join(told(calculate(name, given), about).sentences)


def own(name: str) -> dict[str, str]:
    """Return what a link of this release quotes of the example of a form."""
    fragment = linked(name, start(name), "page.html#x=1").partition("#")[2]
    return dict(part.split("=", 1) for part in fragment.split("&")[1:])


@pytest.mark.parametrize(
    ("name", "words"),
    [
        (SPEED, ". Unchanged."),
        (TIP, " more. All unchanged."),
        (MULTIPLES, "Quoted in release {}: the table “"),
    ],
)
def test_own_quotation_is_unchanged(name: str, words: str) -> None:
    """What this release quotes, it finds the same: one number, several, a table."""
    found = told(calculate(name, start(name)), own(name))
    assert not found.differs
    assert len(found.sentences) == 1
    assert words.format(VERSION) in found.sentences[0]
    assert "nchanged." in found.sentences[0]


def test_changed_number_is_told_with_its_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    """Old and new number in the unit of the page, and every change since the release quoted."""
    later = replace(CHANGE, version="10.0.0", what="It is shorter.")
    other = replace(CHANGE, formulas=(TIP,), what="Not this.")
    monkeypatch.setattr(changes, "CHANGES", (later, other, CHANGE))
    monkeypatch.setattr("calc.form.coming_back.VERSION", "10.0.0")
    assert said("tip_speed_340", "0.1.0") == (
        "Quoted in release 0.1.0: tip speed 340.0 m/s; now 350.0 m/s. "
        "Changed in release 9.0.0: The radius is longer. It was measured anew. "
        "Changed in release 10.0.0: It is shorter. It was measured anew."
    )
    assert "The radius is longer" not in said("tip_speed_340", "9.0.0")
    calculation = latest(SPEED, start(SPEED) | TEN, "aviation")
    (first, *_) = told(calculation, {"release": "0.1.0", "quoted": "tip_speed_340"}).sentences
    assert first == "Quoted in release 0.1.0: tip speed 660.9 kt; now 680.3 kt."


def test_unchanged_number_of_a_changed_formula_has_no_reason(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A change that does not touch this result is no news."""
    monkeypatch.setattr(changes, "CHANGES", (CHANGE,))
    monkeypatch.setattr("calc.form.coming_back.VERSION", "9.0.0")
    assert said("tip_speed_350", "0.1.0").endswith("350.0 m/s. Unchanged.")
    assert said(None, "0.1.0").startswith("The link is from release 0.1.0 and quotes no number. C")


@pytest.mark.parametrize(
    ("release", "what_to_do"),
    [
        (VERSION, "Ask whoever sent it."),
        ("0.1.0", "Ask whoever sent it, or open the link in the folder of release 0.1.0."),
    ],
)
def test_other_number_without_a_change_is_said_plainly(release: str, what_to_do: str) -> None:
    """Nothing is made up: a number or an entry may be another, and what to do is said."""
    cause = "A number or an entry in the link was altered, or a number in it rounded."
    text = said("tip_speed_349.99", release)
    assert "tip speed 349.99 m/s; now 350.00 m/s." in text  # with digits enough to differ
    assert text.endswith(f"{cause} {what_to_do}")
    assert ("is this one." in text) == (release == VERSION)
    assert said("tip_speed_350", release, **TEN | {"radius": "9_m"}).endswith(what_to_do)


@pytest.mark.parametrize("quoted", ["tip_speed_340", "tip_speed_350", None])
def test_later_release_is_said(quoted: str | None) -> None:
    """An older copy of the handbook cannot know what a newer one changed, if numbers agree too."""
    text = said(quoted, "99.0")
    assert f"Release 99.0 is later than this one, {VERSION}" in text
    assert ("Unchanged." in text) == (quoted == "tip_speed_350")
    assert "altered" not in text


def test_several_changed_numbers_are_a_list() -> None:
    """Each has a line, and what follows stands below; one alone stays in its sentence."""
    form = calculate(TIP, start(TIP))
    names = [name for name, value in numbers(form).items() if isinstance(value, float)][:5]
    several = ";".join(f"{name}_1e3" for name in names)
    html = told(form, {"release": VERSION, "quoted": several}).html
    assert html.count("<li>") == len(names) == 5
    assert all(line.endswith(".</li>") for line in re.findall(r"<li>.*?</li>", html))
    assert re.search(r"</ul> <p>Release .* Ask whoever sent it\.", html)
    assert "<li>" not in told(form, {"release": VERSION, "quoted": f"{names[0]}_1e3"}).html


def test_quotation_without_a_release_is_left_out() -> None:
    """There is none in the link, which is not one that cannot be read."""
    found = told(calculate(SPEED, start(SPEED)), {"quoted": "tip_speed_350"})
    assert found.sentences == ("The link names no release, and what it quotes is left out.",)


def test_table_that_changed_names_its_columns() -> None:
    """The columns by their heads; where rows came or went, how many there were and are."""
    name = "harmonics.blade_passage.multiples"
    rows, first, *others = own(name)["quoted"].rpartition("_")[2].split(",")
    moved = ",".join([rows, f"{float(first) + 1}", *others])
    (table,) = numbers(calculate(name, start(name)))
    text = said(f"{table}_{moved}", name=name)
    (declared,) = (f.declaration for f in outputs(formula(name)))
    assert isinstance(declared, Table)
    head = inputs(declared.row)[0].declaration.label
    assert f"”; now other numbers under “{head}”." in text
    assert f" of 1 row; now {rows[1:]} rows." in said(f"{table}_t1,{first}", name=name)
    assert "; now other numbers. " in said(f"{table}_none", name=name)


@pytest.mark.parametrize(
    "release", ["", "1", "x", "0.1.0<b>", "1.2.3.4", "\u0663.\u0661", "0.1.0 0.2.0"]
)
def test_strange_release_is_left_out_with_a_word(release: str) -> None:
    """It is not shown, and nothing is compared."""
    assert said("tip_speed_350", release) == (
        "The release in the link cannot be read, and what it quotes is left out."
    )


@pytest.mark.parametrize(
    "quoted",
    [
        "tip_speed",
        "tip_speed_",
        "tip_speed_1.5.5",
        "tip_speed_1e999",
        "tip_speed_inf",
        "tip speed_1",
        "<b>_1",
        "tip_speed_t3,x",
        "tip_speed_" + "1" * 30,
        ";".join(f"x{n}_1" for n in range(MOST + 1)),
        "x" * LONGEST + "_1",
    ],
)
def test_strange_quotation_is_left_out_with_a_word(quoted: str) -> None:
    """It is read within bounds or not at all."""
    assert said(quoted) == (
        f"What the link quotes of release {VERSION} cannot be read and is left out."
    )


def test_number_that_the_form_does_not_give_is_named() -> None:
    """The others are compared all the same."""
    text = said("tip_speed_350;tip_loss_3")
    assert "tip speed 350.0 m/s. Unchanged." in text
    assert text.endswith("It quotes what this form does not give: tip_loss.")
    assert said("tip_loss_3").startswith(f"The link is from release {VERSION}. It quotes what")


def test_end_of_a_sentence_is_no_part_of_a_quotation() -> None:
    """A link is often the last word of a sentence, or stands in brackets."""
    assert said("tip_speed_350).").endswith("350.0 m/s. Unchanged.")
    assert said(None, "0.1.0.").startswith("The link is from release 0.1.0 and")


def test_refused_entries_have_no_number_now() -> None:
    """A link whose entries a later release refuses says what it quoted."""
    about = {"release": VERSION, "quoted": "tip_speed_340"}
    found = answer(SPEED, start(SPEED) | {"radius": "-1_m"}, quoted=about)
    assert "tip speed 340.0 m/s; now no result." in found["html"]
    assert found["problems"]


def test_number_that_was_renamed_is_compared() -> None:
    """The stall onset of release 0.1.0, which CHANGELOG.md gives in knots: 94.7, and now 109.8."""
    name = "rotor.stall_onset.stall_onset_airspeed"
    (link,) = [link for link in kept("0.1.0")[name] if "pressure_altitude=3000_m" in link]
    entries = dict(part.split("=") for part in link.split("&"))
    calculation = latest(name, start(name) | entries, "aviation")
    then = kept("0.1.0")[name][link]["airspeed"]
    found = told(calculation, {"release": "0.1.0", "quoted": f"airspeed_{then}"})
    assert "94.71 kt; now 109.8 kt. Changed in release 0.2.0: Retr" in " ".join(found.sentences)


def test_line_is_quiet_unless_a_number_changed() -> None:
    """It stands at the result, is spoken with it, and is marked where a number is another."""
    entries = start(SPEED) | TEN
    for value, kind in ("350", '<p class="quoted">'), ("340", '<p class="warning quoted">'):
        about = {"release": VERSION, "quoted": f"tip_speed_{value}"}
        found = answer(SPEED, entries, quoted=about)
        assert kind in found["html"]
        assert f"tip speed {value}.0 m/s" in found["spoken"]
    assert "quoted" not in answer(SPEED, entries)["html"]
