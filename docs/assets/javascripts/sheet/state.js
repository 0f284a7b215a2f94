/* The state of a data sheet, the one owner of its values.
 *
 *   content   {title, note, values, rows}: a value by "section.name", and rows {id, values} by
 *             section with a value by name
 *   revision  grows with every change; a survey belongs to the revision it was computed for
 *   past      the contents before the last edits, for Undo
 *
 * A value is {text, unit, shown, raw, origin, tolerance}: an entry as entry.js has it, with what a
 * file held as long as nobody typed over it, where it came from and how far it may be off.  What is
 * held in a file is what was typed; another unit that is chosen changes what is shown alone.
 *
 * The scripts of the page wait for those of forms, which stand further down in it.
 *
 * Every function returns something new and leaves the old alone.  `shape` is what view.js reads from
 * the page: sections by key {most, fields}, a field by name {label, kind, units, usual}.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { entry } = calculator;
  const UNKNOWN = "unknown";
  const PAST = 50; // edits that can be undone
  let rowsMade = 0;

  const EMPTY = { title: "", note: "", values: {}, rows: {} };

  /** Return the content of a sheet as Python holds it: [text, origin, tolerance] by place. */
  function loaded(held, shape) {
    const content = { title: held.title, note: held.note, values: {}, rows: {} };
    for (const [key, { most, fields }] of Object.entries(shape)) {
      if (most) content.rows[key] = (held.rows[key] ?? []).map((row) => rowOf(row, fields));
      else {
        for (const [name, field] of Object.entries(fields)) {
          content.values[`${key}.${name}`] = valueOf(held.values[`${key}.${name}`], field);
        }
      }
    }
    return content;
  }

  function rowOf(row, fields) {
    const own = Object.entries(fields).map(([name, field]) => [name, valueOf(row[name], field)]);
    return { id: ++rowsMade, values: Object.fromEntries(own) };
  }

  function valueOf([raw, origin, tolerance] = [undefined, UNKNOWN, ""], field) {
    const text = raw === undefined || raw === UNKNOWN ? "" : raw;
    const said = { raw, origin, tolerance };
    if (field.kind !== "number") return { text, ...said };
    const first = field.units[0].key;
    return { ...adopted({ text, unit: first, shown: first }, field.units), ...said };
  }

  /** A unit behind a number goes into the list; a per cent stays beside it where there is no unit. */
  function adopted(value, units) {
    const found = entry.read(value.text, units);
    if (!found?.unit || (units[0].key === "" && found.unit.key !== value.shown)) return value;
    return { ...value, text: found.text, unit: found.unit.key, shown: found.unit.key };
  }

  /** Return a content as Python holds it. */
  function held({ title, note, values, rows }, shape) {
    const found = { title, note, values: {}, rows: {} };
    for (const [key, { most, fields }] of Object.entries(shape)) {
      const each = Object.entries(fields);
      if (most) {
        found.rows[key] = rows[key].map(({ values: own }) =>
          Object.fromEntries(each.map(([name, f]) => [name, triple(own[name], f)]).filter(([, t]) => t)),
        );
      } else {
        for (const [name, field] of each) {
          const told = triple(values[`${key}.${name}`], field);
          if (told) found.values[`${key}.${name}`] = told;
        }
      }
    }
    return found;
  }

  /** Return [text, origin, tolerance], or nothing where the usual value holds. */
  function triple(value, field) {
    const text = textOf(value, field);
    if (text === "" && field.usual && value.origin === UNKNOWN && !value.tolerance) return null;
    return [text || UNKNOWN, value.origin, value.tolerance];
  }

  /** Return what a file holds of a value: what it held before, or what was typed, with its unit. */
  function textOf(value, field) {
    if (value.raw !== undefined) return value.raw;
    const text = value.text.trim();
    if (field.kind !== "number" || !text) return text;
    const read = entry.read(text, field.units);
    if (!read || read.unit) return text;
    const { name } = field.units.find(({ key }) => key === value.unit);
    return `${text} ${name}`.trim();
  }

  function isKnown(value, field) {
    return ![UNKNOWN, ""].includes(textOf(value, field));
  }

  /** Return the state after an edit, which Undo takes back; edits of one place in a row are one. */
  function edited(state, content, place = null) {
    const isSame = place !== null && place === state.place;
    const past = isSame ? state.past : [...state.past, state.content].slice(-PAST);
    return { content, past, place, revision: state.revision + 1 };
  }

  function undone(state) {
    if (state.past.length === 0) return state;
    const { past, revision } = state;
    return { content: past.at(-1), past: past.slice(0, -1), place: null, revision: revision + 1 };
  }

  /** End the edit of a place: what is typed there next is an edit of its own. */
  function settled(state) {
    return { ...state, place: null };
  }

  /** Return a content with the value at a place {section, row, name} changed. */
  function put(content, { section, row, name }, change) {
    if (row === undefined) {
      const key = `${section}.${name}`;
      return { ...content, values: { ...content.values, [key]: change(content.values[key]) } };
    }
    const rows = content.rows[section].map((one) =>
      one.id === row ? { ...one, values: { ...one.values, [name]: change(one.values[name]) } } : one,
    );
    return withRows(content, section, rows);
  }

  function withRows(content, section, rows) {
    return { ...content, rows: { ...content.rows, [section]: rows } };
  }

  /** A reader typed `text`: it is in the unit that is shown, and what a file held is gone. */
  function typed(value, text) {
    return { ...value, text, unit: value.shown, raw: undefined };
  }

  /** A field was left: a unit behind its number moves into the list. */
  function left(value, field) {
    if (field.kind !== "number" || value.raw !== undefined) return value;
    return adopted(value, field.units);
  }

  function rowAdded(content, section, { most, fields }) {
    const rows = content.rows[section];
    return rows.length < most ? withRows(content, section, [...rows, rowOf({}, fields)]) : content;
  }

  function rowRemoved(content, section, id) {
    return withRows(content, section, content.rows[section].filter((row) => row.id !== id));
  }

  /** Move a row up (-1) or down (1) by one place. */
  function rowMoved(content, section, id, by) {
    const rows = content.rows[section];
    const from = rows.findIndex((row) => row.id === id);
    const other = rows[from + by];
    return other ? withRows(content, section, rows.with(from, other).with(from + by, rows[from])) : content;
  }

  (globalThis.dataSheet ??= {}).state = {
    EMPTY, loaded, held, isKnown, edited, undone, settled,
    put, typed, left, rowAdded, rowRemoved, rowMoved,
  };
});
