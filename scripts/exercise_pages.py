"""Exercises as HTML: each with the numbers of its first seed, folded solution, and the sheets."""

from html import escape

from calc.exercises.asking import asked
from calc.exercises.book import CHAPTERS
from calc.exercises.exercise import LEVELS, Exercise
from calc.exercises.posing import LARGEST_SEED
from calc.exercises.sheets import LONGEST_TITLE, MOST_EXERCISES, MOST_VARIANTS, PAPERS

WITHOUT_SCRIPTS = (
    '<noscript><p class="warning"><strong>Note</strong> Other numbers, and a check of your answer, '
    "need JavaScript and WebAssembly. The numbers of seed 1 stand here with their solution."
    "</p></noscript>\n"
)


def exercises(chapter: str) -> str:
    """Return the exercises of a chapter, readable without scripts."""
    return WITHOUT_SCRIPTS + "\n".join(map(_exercise, CHAPTERS[chapter][1]))


def overview() -> str:
    """Return every exercise with its level, as a Markdown table."""
    rows = ["| Exercise | Chapter | Asks for |", "| - | - | - |"]
    rows += [
        f"| [{one.title}]({chapter}.html#{one.key}) | {title} | {LEVELS[one.level]} |"
        for chapter, (title, found) in CHAPTERS.items()
        for one in found
    ]
    return "\n".join(rows)


def sheets() -> str:
    """Return the choice of exercises for printed sheets; scripts make them."""
    groups = "\n".join(
        f"<fieldset><legend>{escape(title)}</legend>"
        + "".join(
            f'<label><input type="checkbox" value="{one.key}"> {escape(one.title)}, '
            f"{LEVELS[one.level]}</label>"
            for one in found
        )
        + "</fieldset>"
        for title, found in CHAPTERS.values()
    )
    papers = "".join(f"<option>{paper}</option>" for paper in PAPERS)
    return f"""<div class="exercise-sheets" id="sheets" data-most="{MOST_EXERCISES}"
data-search-exclude>
<noscript><p class="warning"><strong>Note</strong> Sheets need JavaScript and WebAssembly.</p>
</noscript>
<form class="exercise-order" autocomplete="off" novalidate>
<div class="exercise-tools">
<label>Title <input name="title" maxlength="{LONGEST_TITLE}" spellcheck="false"></label>
<label>Seed <input name="seed" inputmode="numeric" value="1" size="8"></label>
<label>Variants, at most {MOST_VARIANTS}
<input name="variants" inputmode="numeric" value="10" size="3"></label>
<label>Paper <select name="paper">{papers}</select></label></div>
<div class="exercise-choice">
{groups}
</div>
<div class="exercise-tools"><button type="submit">Make the sheets</button>
<button type="button" data-do="stop" hidden>Stop (Esc)</button></div>
</form>
<p class="exercise-progress" role="status"></p>
<p class="exercise-trouble" role="alert" hidden></p>
<ul class="exercise-changed" hidden></ul>
<div class="exercise-made" tabindex="-1" hidden>
<div class="exercise-tools">
<button type="button" data-do="print" data-part="sheet">Print the sheets</button>
<button type="button" data-do="save" data-part="sheet">Save the sheets</button>
<button type="button" data-do="print" data-part="key">Print the key</button>
<button type="button" data-do="save" data-part="key">Save the key</button>
<button type="button" data-do="save" data-part="csv">Save the answers as CSV</button>
<button type="button" data-do="link">Copy the link to these sheets</button></div>
</div>
</div>
"""


def _exercise(one: Exercise) -> str:
    found = asked(one.key, 1)
    title = escape(one.title)
    hints = "".join(_hint(number, hint) for number, hint in enumerate(found["hints"], 1))
    return f"""<section class="exercise" id="{one.key}" aria-labelledby="{one.key}-title">
<h2 id="{one.key}-title">{title} <span class="exercise-level">{LEVELS[one.level]}</span></h2>
<div class="exercise-tools" data-search-exclude>
<label>Numbers of seed <input class="exercise-seed" inputmode="numeric" value="1" size="9"
maxlength="{len(str(LARGEST_SEED))}" aria-label="Seed of the numbers, {title}"></label>
<button type="button" data-do="other">Other numbers</button>
<button type="button" data-do="link">Copy link</button></div>
<div class="exercise-question">{found["question"]}</div>
<form class="exercise-tools" autocomplete="off" novalidate data-search-exclude>
<label>Your answer with its unit
<input class="exercise-answer" spellcheck="false" aria-label="Your answer, {title}"></label>
<button type="submit">Check</button></form>
<p class="exercise-said" role="status"></p>
<div class="exercise-hints" data-search-exclude>{hints}</div>
<details class="exercise-solution" data-search-exclude><summary>Solution</summary>
<div>{found["solution"]}</div></details>
</section>
"""


def _hint(number: int, hint: str) -> str:
    return f"<details><summary>Hint {number}</summary><p>{hint}</p></details>"
