/* An entry: what a reader typed, the unit it was typed in, and the unit the reader chose to see it in.
 *
 *   { text, unit, own }   "395", "rpm", "Hz": typed as 395 rpm, and to be shown in Hz;
 *                         `own` is null where the field follows the units of the whole handbook
 *
 * In a link and in what is kept in the browser it is one text, u being the unit it was typed in:
 *
 *   395_u     typed in u; the field follows the handbook if a form starts with u, and keeps u if not
 *   395_u~v   typed in u, and v was chosen for the field
 *   395_u~    typed in u, and the field follows the handbook
 *   0.35      where there is no unit
 *
 * The engine gets it as 395_u~v, v being the unit that the field shows.  The text that was typed is
 * never rounded or rewritten; what a field shows in another unit is made of it each time.
 *
 * A unit typed behind a number moves into the list.  Not so in a field that starts without a unit,
 * such as a share: "30 %" stays as it is and the list does too, so that 0.3 typed there later is
 * 0.3 and not 0.3 %.  The list is at % only where the reader has chosen it.
 *
 * Numbers are read by the rules of calc/form/reading.py, and tests hold the two together.  What is
 * not read here keeps its unit behind it, so that it means the same in every field.
 */
(globalThis.calculator ??= {}).entry = (() => {
  "use strict";

  const DIGITS = 10; // of a number that is shown in another unit than it was typed in
  const PLAIN = { "\u00a0": " ", "\u2007": " ", "\u2009": " ", "\u202f": " ", "−": "-", "–": "-" };
  const RAISED = "⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹";
  const POWER = /\s*[×x·*]\s*10\s*\^?\s*([-+]?\d+)/g;
  const NUMBER =
    /^([-+]?)\s*(\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d.,])|[\d.,]*\d[.,]?)([eE][-+]?\d+)?([^]*)$/;
  const TWO_MEANINGS = /^[1-9]\d{0,2},\d{3}$/;

  /** Return {number, text, unit}, the unit being null where none was typed; or null for no number. */
  function read(typed, units) {
    const raw = typed.trim();
    const plain = raw.replace(/./gu, (sign) => PLAIN[sign] ?? sign);
    const simple = plain.includes("10") ? lowered(plain).replace(POWER, "e$1") : plain;
    const [, sign, digits, exponent = "", rest] = NUMBER.exec(simple) ?? [];
    if (digits === undefined) return null;
    const unit = rest.trim() ? spelled(rest, units) : null;
    const decimal = decimals(digits.replaceAll(" ", ""));
    if ((rest.trim() && !unit) || decimal === null) return null;
    const text = raw.slice(0, raw.length - rest.length).trim();
    return { number: Number(sign + decimal + exponent), text, unit };
  }

  function lowered(text) {
    return text.replace(/[⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (sign) => "-+0123456789"[RAISED.indexOf(sign)]);
  }

  /** Return digits with at most a decimal point, from digits with any common separators. */
  function decimals(digits) {
    const marks = digits.match(/[.,]/g) ?? [];
    if (TWO_MEANINGS.test(digits)) return null;
    let [whole, fraction] = [digits, ""];
    if (marks.length === 1 || (marks.length > 1 && !marks.slice(0, -1).includes(marks.at(-1)))) {
      const last = digits.lastIndexOf(marks.at(-1));
      [whole, fraction] = [digits.slice(0, last), digits.slice(last + 1)];
    }
    for (const mark of new Set(marks)) {
      if (!whole.includes(mark)) continue;
      if (!new RegExp(`^\\d{1,3}(\\${mark}\\d{3})+$`).test(whole)) return null;
      whole = whole.replaceAll(mark, "");
    }
    return fraction ? `${whole || "0"}.${fraction}` : whole || "0";
  }

  /** Return the unit that a reader spelled: first as typed, then without regard to case and spaces. */
  function spelled(text, units) {
    for (const fold of [(word) => word.trim(), folded]) {
      const found = units.find((unit) =>
        [unit.name, unit.key, ...unit.also].some((name) => fold(name) === fold(text)),
      );
      if (found) return found;
    }
    return null;
  }

  function folded(text) {
    return text.toLowerCase().replaceAll(" ", "").replace(/[·*]/g, ".");
  }

  /** Return what a field shows: the text as typed, or its number in the unit chosen since. */
  function shown(entry, shownIn, units) {
    if (shownIn === entry.unit || !entry.text.trim()) return entry.text;
    const own = units.find((unit) => unit.key === entry.unit);
    const value = inUnit(entry, shownIn, units);
    return Number.isFinite(value) ? short(value) : `${entry.text} ${own.name}`.trim();
  }

  /** Return the number of an entry in a unit; NaN where it is none. */
  function inUnit(entry, key, units) {
    const found = read(entry.text, units);
    if (!found) return NaN;
    const from = found.unit ?? units.find((unit) => unit.key === entry.unit);
    const to = units.find((unit) => unit.key === key);
    return (found.number * from.size + from.zero - to.zero) / to.size;
  }

  /** Return a number as short as it can be typed, as `plain` in calc/digits.py does. */
  function short(value) {
    const [mantissa, power] = (value + 0).toExponential(DIGITS - 1).split("e").map(Number);
    if (value === 0 || (power >= -4 && power < DIGITS)) {
      return String(Number(value.toPrecision(DIGITS)) + 0);
    }
    return `${mantissa}e${power < 0 ? "-" : "+"}${String(Math.abs(power)).padStart(2, "0")}`;
  }

  /** Return the key of the unit that a field shows: its own, or that of a system of units. */
  function unitOf(own, units, system) {
    return own ?? (units.find(({ systems }) => systems.includes(system)) ?? units[0]).key;
  }

  /** Return the unit as a choice of the reader; the one of the system is none. */
  function chosen(key, units, system) {
    return key === unitOf(null, units, system) ? null : key;
  }

  /** Return an entry as one text for a link and for what is kept. */
  function joined({ text, unit }, own, units) {
    const starts = unit === units[0].key;
    const followed = starts ? unit : `${unit}~`;
    const kept = own === unit && !starts ? unit : `${unit}~${own}`;
    return tailed(text, own === null ? followed : kept);
  }

  /** Return what was typed of an entry that is one text, without the units that were chosen since. */
  function typedPart(text, { columns, units }) {
    if (columns) {
      const cell = (part, place) => typedPart(part, columns[place] ?? {});
      return text.split(";").map((row) => row.split(",").map(cell)).join();
    }
    const tail = units ? text.lastIndexOf("_") + 1 : text.length;
    return text.slice(0, tail) + text.slice(tail).split("~")[0];
  }

  /** Return an entry as one text for the engine, in the unit that its field shows. */
  function sent({ text, unit }, shownIn) {
    return tailed(text, unit === shownIn ? unit : `${unit}~${shownIn}`);
  }

  function tailed(text, tail) {
    return tail || text.includes("_") ? `${text}_${tail}` : text;
  }

  /** Return the entry in a text; `bare` says that its unit was neither given nor typed. */
  function parsed(text, units) {
    const first = units[0].key;
    const known = (key) => units.some((unit) => unit.key === key);
    const kept = (key) => (key === first ? null : key);
    const split = text.lastIndexOf("_");
    if (split < 0) return adopted({ text, unit: first, own: null }, first, units, "");
    const body = text.slice(0, split);
    const [unit, own = kept(unit)] = text.slice(split + 1).split("~");
    if (!known(unit)) return { text: `${body} ${unit}`, unit: first, own: null };
    return { text: body, unit, own: own === "" ? null : known(own ?? first) ? own : kept(unit) };
  }

  /** Return the entry of a field after it was left: a unit behind its number goes into the list. */
  function adopted(entry, shownIn, units, system) {
    const found = read(entry.text, units);
    if (!found) return entry;
    if (!found.unit) return { ...entry, bare: entry.unit !== "" };
    const { key } = found.unit;
    if (key === shownIn) return { ...entry, text: found.text, unit: key };
    if (units[0].key === "") return entry; // a per cent stays beside its number
    return { text: found.text, unit: key, own: chosen(key, units, system) };
  }

  /** Return a cell after it was left: with a unit behind its number it was typed in that unit. */
  function celled(cell, units) {
    const found = read(cell.text, units);
    return found?.unit ? { text: found.text, unit: found.unit.key } : cell;
  }

  return { read, shown, inUnit, short, unitOf, chosen, joined, typedPart, sent, parsed, adopted, celled };
})();
