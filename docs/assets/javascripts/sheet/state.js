/* The state of a data sheet, the one owner of its values.
 *
 *   content   {title, note, values, rows}: a value by "section.name", and rows {id, values} by
 *             section with a value by name
 *   past, place, revision  as history.js has them: `past` holds contents, and a survey belongs to
 *             the revision it was computed for
 *
 * A value is {text, unit, own, raw, origin, tolerance}: an entry as entry.js has it, with what a
 * file held as long as nobody typed over it, where it came from and how far it may be off.  What is
 * held in a file is what was typed; another unit that is chosen changes what is shown alone.
 * `system` is the system of units of the handbook, which fields follow that have no unit of their
 * own.  So does a value that a file has in the unit that the sheet starts with; one in another unit
 * is shown as it stands in the file.
 *
 * The scripts of the page wait for those of forms, which stand further down in it.
 *
 * Every function returns something new and leaves the old alone.  `shape` is what view.js reads from
 * the page: sections by key {most, fields}, a field by name {label, kind, units, usual}.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { entry, history, rows: lists } = calculator;
  const UNKNOWN = "unknown";
  const EMPTY = { title: "", note: "", values: {}, rows: {} };

  function started(shape) {
    return { content: loaded(EMPTY, shape), past: [], place: null, revision: 0 };
  }

  /** Return the content of a sheet as Python holds it: [text, origin, tolerance] by place.
   *
   * `units` are the readers' own as `unitsOf` returns them, and null for a file, which has none.
   */
  function loaded(held, shape, system, units = null) {
    const content = { title: held.title, note: held.note, values: {}, rows: {} };
    for (const [key, { most, fields }] of Object.entries(shape)) {
      if (most) {
        const row = (one, number) => rowOf(one, fields, system, units && (units.rows?.[key]?.[number] ?? {}));
        content.rows[key] = (held.rows[key] ?? []).map(row);
      } else {
        for (const [name, field] of Object.entries(fields)) {
          const place = `${key}.${name}`;
          const own = units && (units.values?.[place] ?? "");
          content.values[place] = valueOf(held.values[place], field, system, own);
        }
      }
    }
    return content;
  }

  function rowOf(row, fields, system, units = null) {
    const value = ([name, field]) => [name, valueOf(row[name], field, system, units && (units[name] ?? ""))];
    return lists.made({ values: Object.fromEntries(Object.entries(fields).map(value)) });
  }

  function valueOf([raw, origin, tolerance] = [undefined, UNKNOWN, ""], field, system, unitKept) {
    const text = raw === undefined || raw === UNKNOWN ? "" : raw;
    const said = { raw, origin, tolerance };
    if (field.kind !== "number") return { text, ...said };
    const first = field.units[0].key;
    const typed = entry.adopted({ text, unit: first, own: null }, first, field.units, system);
    const kept = field.units.some(({ key }) => key === unitKept) ? unitKept : null;
    return { text: typed.text, unit: typed.unit, own: unitKept === null ? typed.own : kept, ...said };
  }

  /** Return the units that readers chose, by place and by row, where they chose one. */
  function unitsOf({ values, rows }) {
    const chosen = (all) => Object.fromEntries(Object.entries(all).filter(([, { own }]) => own).map(([name, { own }]) => [name, own]));
    const lists = Object.entries(rows).map(([key, own]) => [key, own.map((row) => chosen(row.values))]);
    return { values: chosen(values), rows: Object.fromEntries(lists) };
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

  /** Return the unit that a value is shown in. */
  function shownIn({ own }, field, system) {
    return entry.unitOf(own, field.units, system);
  }

  /** Return the state after an edit, which Undo takes back; edits of one place in a row are one. */
  function edited(state, content, place = null) {
    return { content, ...history.edited(state, state.content, place) };
  }

  function undone(state) {
    if (state.past.length === 0) return state;
    return { content: state.past.at(-1), ...history.undone(state) };
  }

  /** Return the state with another content among those before, below what stood here last. */
  function remembered(state, content) {
    return { ...state, past: [...state.past.slice(0, -1), content, ...state.past.slice(-1)] };
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
  function typed(value, text, field, system) {
    const unit = field.kind === "number" ? { unit: shownIn(value, field, system) } : {};
    return { ...value, text, ...unit, raw: undefined };
  }

  /** A field was left: a unit behind its number moves into the list. */
  function left(value, field, system) {
    if (field.kind !== "number" || value.raw !== undefined) return value;
    const { text, unit, own } = entry.adopted(value, shownIn(value, field, system), field.units, system);
    return text === value.text ? value : { ...value, text, unit, own };
  }

  /** Another unit was chosen for a field; the one of the system is no choice. */
  function unitChosen(value, unit, field, system) {
    return { ...value, own: entry.chosen(unit, field.units, system) };
  }

  /** Say of all known values of a section that do not say it where they came from. */
  function originSaid(content, section, { most, fields }, origin) {
    const said = (value, field) =>
      value.origin === UNKNOWN && isKnown(value, field) ? { ...value, origin } : value;
    if (most) {
      const all = (values) => Object.fromEntries(Object.entries(values).map(([name, value]) => [name, said(value, fields[name])]));
      return relisted(content, section, (rows) => rows.map((row) => ({ ...row, values: all(row.values) })));
    }
    const own = Object.entries(fields).map(([name, field]) => [`${section}.${name}`, said(content.values[`${section}.${name}`], field)]);
    return { ...content, values: { ...content.values, ...Object.fromEntries(own) } };
  }

  function rowAdded(content, section, { most, fields }) {
    return relisted(content, section, (rows) => lists.added(rows, rowOf({}, fields), most));
  }

  function rowRemoved(content, section, id) {
    return relisted(content, section, (rows) => lists.removed(rows, id));
  }

  /** Move a row up (-1) or down (1) by one place. */
  function rowMoved(content, section, id, by) {
    return relisted(content, section, (rows) => lists.moved(rows, id, by));
  }

  function relisted(content, section, change) {
    const next = change(content.rows[section]);
    return next === content.rows[section] ? content : withRows(content, section, next);
  }

  (globalThis.dataSheet ??= {}).state = {
    EMPTY, started, loaded, held, unitsOf, isKnown, shownIn, edited, undone, settled: history.settled,
    remembered, put, typed, left, unitChosen, originSaid, rowAdded, rowRemoved, rowMoved,
  };
});
