/* Links: the entries of a form as the fragment of an address, and back.
 *
 *   #radius=5.5_m&rotor_speed=395_rpm      where the page has one form
 *   #tip_state.radius=5.5_m&...            where it has several: the form's name before each key
 *
 * The cells of a table are encoded once.  Earlier links have them encoded twice, so that each "%" is
 * "%25", and are read; the rare table that would be taken for one of these is written like them.
 *
 * Where the reader chose them, a link also has the units of the form: the key of a system, and of
 * each result its name and the key of its unit, as in units=aviation;tip_speed_kt;lines.frequency_cpm
 *
 * A link that was copied ends in release=0.2.0&quoted=tip_speed_227.5, from which the engine tells
 * whether its result is still the same.
 *
 * A link is untrusted: whatever is in it becomes text in a field, or a doubt that the page tells.
 */
(globalThis.calculator ??= {}).link = (() => {
  "use strict";

  const { entry } = calculator;

  const LONGEST = 100_000; // characters; a longer link is not read
  const MOST = 500; // entries
  const UNITS = "units";
  const ABOUT = [UNITS, "release", "quoted"]; // the keys that are no entries; no form has such inputs
  const CLOSING = /[).,;:!?\]>"'’”»]+$/; // what may stand behind a link in a sentence
  const CLOSING_A_TABLE = /[).:!?\]>"'’”»]+$/; // a comma or a semicolon is an empty cell

  /** Return the fragment of the entries of a form, whose fields say which of them are tables. */
  function fragment(entries, prefix, fields) {
    const written = ([key, text]) => (fields[key]?.kind === "table" ? tableWritten(text) : encoded(text));
    return Object.entries(entries)
      .map((pair) => `${prefix}${pair[0]}=${written(pair)}`)
      .join("&")
      .replace(/[.!')]+$/, (typed) => [...typed].map((sign) => `%${sign.charCodeAt(0).toString(16)}`).join(""));
  }

  function tableWritten(text) {
    const once = text.replaceAll("%2F", "/");
    return isTwice(once) ? encoded(text) : once;
  }

  function tableRead(text, columns) {
    const spaced = text.replaceAll("+", "%20");
    const isWhole = columns.length > 1 && /%2C/i.test(spaced) && !/[,;]/.test(spaced); // encoded as a whole on its way
    return isTwice(spaced) || isWhole ? decoded(spaced) : spaced;
  }

  function isTwice(text) {
    return text.includes("%") && !/%(?!25)/.test(text);
  }

  function encoded(text) {
    return encodeURIComponent(text).replace(/%(2F|2C|3B)/g, decodeURIComponent);
  }

  /** Return what follows the last key of a link without the end of a sentence, where it is valid only so. */
  function unclosed(given, { kind, units, options, columns }) {
    if (kind === "table") {
      const short = given.replace(CLOSING_A_TABLE, "");
      const cells = short.split(";").at(-1).split(",");
      const column = columns[cells.length - 1] ?? {};
      const cell = given.slice(short.length - cells.at(-1).length);
      return unclosed(cell, column) === cells.at(-1) ? short : given;
    }
    const short = given.replace(CLOSING, "");
    const reads = (text) => {
      if (kind === "choice") return options.some(({ key }) => key === decoded(text));
      return kind === "number" && entry.read(entry.parsed(decoded(text), units).text, units) !== null;
    };
    return !reads(given) && reads(short) ? short : given;
  }

  /** Return the keys and what follows them in a fragment, in order. */
  function pairs(text) {
    return text
      .replace(/^#/, "")
      .split(/&(?:amp;)*/) // a mail program may write "&amp;"
      .filter(Boolean)
      .map((part) => {
        const [key, ...rest] = part.split("=");
        return [decoded(key), rest.join("=")];
      });
  }

  /** Return the fragment of an address; one that was encoded as a whole on its way is decoded. */
  function received(address) {
    const fragment = address.replace(/^#/, "");
    return !fragment.includes("=") && /%3D/i.test(fragment) ? decoded(fragment) : fragment;
  }

  function decoded(text) {
    return unquoted(text.replaceAll("+", " "));
  }

  /** Return a text without its per cent signs; as it is where they stand for nothing. */
  function unquoted(text) {
    try {
      return decodeURIComponent(text);
    } catch {
      return text;
    }
  }

  /** Return the forms that a fragment is for, each with its entries and what is doubtful.
   *
   * `forms` are the shapes of those of the page.
   */
  function opened(text, forms) {
    if (text.length > LONGEST) return [refused(forms[0], "longer than it can be")];
    const found = pairs(text);
    if (found.length > MOST) return [refused(forms[0], `of more than ${MOST} entries`)];
    const part = (key) => key.slice(0, key.lastIndexOf(".") + 1).slice(0, -1);
    const bare = (key) => key.slice(key.lastIndexOf(".") + 1);
    const prefixed = forms.filter((form) => found.some(([key]) => part(key) === form.name));
    const isOf = (form, key) => form.keys.includes(key) || ABOUT.includes(key);
    const fitting = forms.find((form) => found.some(([key]) => isOf(form, key)));
    const meant = prefixed.length > 0 ? prefixed : [fitting ?? forms[0]];
    const strangers = new Set(found.map(([key]) => part(key)).filter(Boolean));
    for (const form of forms) strangers.delete(form.name);
    const doubts = [...strangers].map((name) => `This page has no form called “${name}”`);
    return meant.map((form, place) => {
      const own = found.filter(([key]) => [form.name, ""].includes(part(key)));
      const last = own.at(-1) === found.at(-1) && own.length - 1;
      const read = taken(own.map(([key, value], n) => [bare(key), n === last ? plainly(value, bare(key), form) : value]), form);
      return { ...read, form, doubts: [...(place === 0 ? doubts : []), ...read.doubts] };
    });
  }

  function plainly(value, key, form) {
    if (key !== UNITS) return unclosed(value, form.fields[key] ?? {});
    const short = value.replace(CLOSING, "");
    return unitsIn(decoded(short), form).strange.length === 0 ? short : value;
  }

  function taken(own, form) {
    const entries = {};
    const doubts = [];
    for (const [key, given] of own) {
      const { kind, columns } = form.fields[key] ?? {};
      const text = kind === "table" ? tableRead(given, columns) : decoded(given);
      const isKnown = form.keys.includes(key) || ABOUT.includes(key);
      if (!isKnown) {
        doubts.push(`${form.title} has no input called “${key}”`);
      } else if (Object.hasOwn(entries, key) && entries[key] !== text) {
        doubts.push(`The link gives “${key}” as ${entries[key]} and as ${text}`);
      }
      if (isKnown) entries[key] = text;
    }
    const { units = "", release, quoted, ...others } = entries;
    const about = (release ?? quoted) === undefined ? null : { quoted: { release, quoted } };
    return { entries: others, doubts: [...new Set(doubts)], ...unitsIn(units, form), ...about };
  }

  /** Return the system and the units of results in a link, and what of it the form does not have. */
  function unitsIn(text, { systems, results }) {
    const found = { system: null, results: {}, strange: [] };
    for (const part of text.split(";").filter(Boolean)) {
      const [name, unit] = [part.slice(0, part.lastIndexOf("_")), part.slice(part.lastIndexOf("_") + 1)];
      if (systems.includes(part)) found.system = part;
      else if (Object.hasOwn(results, name) && results[name].includes(unit)) found.results[name] = unit;
      else found.strange.push(part);
    }
    return found;
  }

  /** Return the text of the units that a reader chose for a form; empty if there are none. */
  function unitsText(system, results) {
    return [system ?? "", ...Object.entries(results).map((pair) => pair.join("_"))]
      .filter(Boolean)
      .join(";");
  }

  function refused(form, why) {
    const doubts = [`The link is ${why}, and was not read`];
    return { form, entries: {}, doubts, system: null, results: {}, strange: [] };
  }

  return { UNITS, fragment, received, opened, unitsText, unquoted };
})();
