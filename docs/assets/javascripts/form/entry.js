/* An entry: what a reader typed, and the unit it was typed in and is shown in.
 *
 *   { text, unit, shown }   "395", "rpm", "Hz": typed as 395 rpm, and shown in Hz since
 *
 * In a request, in a link and in what is kept in the browser it is one text: 395_rpm, 395_rpm~Hz,
 * or 0.35 where there is no unit.  The text that was typed is never rounded or rewritten; what a
 * field shows in another unit is made of it each time.
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

  /** Return an entry as one text. */
  function joined(entry, shownIn = entry.shown) {
    const units = entry.unit === shownIn ? shownIn : `${entry.unit}~${shownIn}`;
    return units || entry.text.includes("_") ? `${entry.text}_${units}` : entry.text;
  }

  /** Return the entry in a text; `bare` says that its unit was neither given nor typed. */
  function parsed(text, units) {
    const first = units[0].key;
    const known = (key) => units.some((unit) => unit.key === key);
    const split = text.lastIndexOf("_");
    if (split < 0) return adopted({ text, unit: first, shown: first }, units);
    const body = text.slice(0, split);
    const [unit, shownIn = unit] = text.slice(split + 1).split("~");
    if (!known(unit)) return { text: `${body} ${unit}`, unit: first, shown: first };
    return { text: body, unit, shown: known(shownIn) ? shownIn : unit };
  }

  /** A unit typed behind the number becomes the unit of the entry. */
  function adopted(entry, units) {
    const found = read(entry.text, units);
    if (!found) return entry;
    if (!found.unit) return { ...entry, bare: entry.unit !== "" };
    return { text: found.text, unit: found.unit.key, shown: found.unit.key };
  }

  return { read, shown, inUnit, short, joined, parsed, adopted };
})();
