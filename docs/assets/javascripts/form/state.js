/* The state of a form, the one owner of its entries.
 *
 *   values    by key: an entry {text, unit, own}, a word {text}, or a table {own, rows}, whose rows
 *             are {id, cells} with a cell {text, unit} a column; `own` are the units that the
 *             reader chose, null where a field or a column follows the system
 *   digits    of the results
 *   system    the system of units: that of the handbook, or that of a link
 *   results   the units that the reader chose beside results, by their names
 *   origin    whose numbers these are: "example", "mine" or "link"; if mine, `owner` is the id of the
 *             rotorcraft in fleet.js
 *   doubts    what is wrong with the link they came with; there is no result until the reader has
 *             gone on without it
 *   notes     what else the reader should know of the link
 *   pasted    what the reader should know of a paste: {key, lines}, until the next edit
 *   quoted    what the link says of the result it was copied with, until an entry is changed
 *   touched   whether the reader has changed something since they came
 *   undone    whether the last edit was taken back, so that the next one begins nothing anew
 *   revision  grows with every change; an answer belongs to the revision it was asked for
 *   since     the revision in which whole entries were last put in
 *   past      the states before the last edits, for Undo
 *
 * Digits and the units of results are no entries: choosing them is no edit, and Undo leaves them.
 *
 * Every function returns a new state and leaves the old one alone.  `shape` describes the form, as
 * fields.js reads it from the page: {name, title, keys, fields}, a field by key {kind, label}, the
 * kind being "number" with units, "word", "choice" with options, or "table" with columns, the cells
 * of a new row (empty), the most rows it takes (atMost) and the cells that a row must give
 * (leastCells): links from before the other columns were there have no more.
 */
(globalThis.calculator ??= {}).state = (() => {
  "use strict";

  const { entry, history, rows: lists, link: { unquoted } } = calculator;

  /** Return the first state of a form: its example. */
  function started(shape, example, system) {
    const blank = { digits: 4, system, results: {}, doubts: [], notes: [], revision: 0, past: [] };
    return { ...loaded(blank, shape, example, "example"), past: [], revision: 0, since: 0 };
  }

  /** Return the state after `change`, which Undo takes back; edits of one place in a row are one. */
  function edited(state, change, place = null) {
    const { past: _, ...before } = state;
    const origin = state.origin === "link" ? "link" : "mine";
    const notes = state.origin === "link" ? state.notes : [];
    const mine = { touched: true, undone: false, quoted: null, pasted: null };
    const next = { ...state, origin, notes, ...mine, ...change };
    return { ...next, ...history.edited(state, before, place) };
  }

  function undone(state) {
    if (state.past.length === 0) return state;
    const { past, digits, system, results } = state;
    const left = history.undone(state);
    return { ...past.at(-1), digits, system, results, ...left, since: left.revision, undone: true };
  }

  /** Another view of the same entries: digits, a system of units, or a unit of a result. */
  function viewed(state, change) {
    return { ...state, ...change, revision: state.revision + 1 };
  }

  /** A unit was chosen for a result; none, where it is the one that the result starts with. */
  function resultUnitChosen(state, name, unit) {
    const { [name]: _, ...others } = state.results;
    return viewed(state, { results: unit === null ? others : { ...others, [name]: unit } });
  }

  /** Return the state with whole entries put in: an example, a link, or what was kept. */
  function loaded(state, shape, entries, origin, told = {}) {
    const values = {};
    const doubts = [...(told.doubts ?? [])];
    const notes = [...(told.notes ?? [])];
    for (const [key, field] of Object.entries(shape.fields)) {
      const text = entries[key] ?? "";
      if (field.kind === "table") values[key] = table(field, text, doubts);
      else if (field.kind !== "number") values[key] = { text };
      else {
        const { bare, ...value } = entry.parsed(text, field.units);
        values[key] = value;
        if (bare) notes.push(`${field.label} ${text} came without a unit and is taken ${asUnit(field)}`);
      }
    }
    const since = state.revision + 1;
    return edited(state, { values, origin, doubts, notes, since, touched: false, quoted: told.quoted });
  }

  function asUnit(field) {
    return field.units[0].words.replace(/^, /, "") || "as it is";
  }

  function table(field, text, doubts) {
    const given = text.split(";").filter(Boolean).map((row) => row.split(",").map(unquoted));
    const rows = given.slice(0, field.atMost);
    if (given.length > rows.length) {
      doubts.push(`${field.label}: ${given.length} rows are given, at most ${field.atMost} are taken`);
    }
    rows.forEach((row, number) => {
      if (row.length >= field.leastCells && row.length <= field.columns.length) return;
      doubts.push(`${field.label}, row ${number + 1}: ${field.columns.length} cells, not ${row.length}`);
    });
    const read = rows.map((row) =>
      field.columns.map((column, place) => {
        const cell = row[place];
        if (cell === undefined) return { ...field.empty[place], own: null };
        return column.units ? entry.parsed(cell, column.units) : { text: cell };
      }),
    );
    const own = field.columns.map((_, place) => read[0]?.[place].own ?? null);
    return { own, rows: read.map((cells) => made(cells)) };
  }

  function made(cells) {
    return lists.made({ cells: cells.map(({ text, unit = "" }) => ({ text, unit })) });
  }

  /** Return the entries as texts, by key: what is linked and kept. */
  function entries(state, shape) {
    return texts(state, shape, ({ units }, value, own) => entry.joined(value, own, units));
  }

  /** Return the entries as texts, by key, each in the unit that it is shown in: what is sent. */
  function request(state, shape) {
    return texts(state, shape, ({ units }, value, own) =>
      entry.sent(value, entry.unitOf(own, units, state.system)),
    );
  }

  function texts({ values }, shape, joined) {
    const cell = (column, value, own) =>
      encodeURIComponent(column.units ? joined(column, value, own) : value.text);
    const row = ({ columns }, { cells }, own) =>
      cells.map((value, place) => cell(columns[place], value, own[place])).join(",");
    return Object.fromEntries(
      Object.entries(shape.fields).map(([key, field]) => {
        const value = values[key];
        if (field.kind !== "table") {
          return [key, field.kind === "number" ? joined(field, value, value.own) : value.text];
        }
        return [key, value.rows.map((one) => row(field, one, value.own)).join(";")];
      }),
    );
  }

  /** Return the values with one replaced: that of a key, or of a cell in its table. */
  function put(state, place, change) {
    const value = state.values[place.key];
    if (place.row === undefined) return { ...state.values, [place.key]: change(value, value.own) };
    const rows = value.rows.map((row) => {
      if (row.id !== place.row) return row;
      const cells = row.cells.map((cell, column) =>
        column === place.column ? change(cell, value.own[column]) : cell,
      );
      return { ...row, cells };
    });
    return { ...state.values, [place.key]: { ...value, rows } };
  }

  /** A reader typed or chose `text` in a field or in a cell; `units` are those it can be in. */
  function typed(state, place, text, units) {
    const unit = (own) => units && { unit: entry.unitOf(own, units, state.system) };
    const values = put(state, place, (old, own) => ({ ...old, text, ...unit(own) }));
    return edited(state, { values }, `${place.key} ${place.row} ${place.column}`);
  }

  /** A field was left: a unit behind its number moves into the list, or turns a cell to its column. */
  function left(state, place, units) {
    let moved = false;
    const values = put(state, place, (old, own) => {
      const shownIn = entry.unitOf(own, units, state.system);
      const next = "own" in old ? entry.adopted(old, shownIn, units, state.system) : entry.celled(old, units);
      moved = next.text !== old.text;
      return "own" in old ? { text: next.text, unit: next.unit, own: next.own } : next;
    });
    return moved ? edited(state, { values }, state.place) : state;
  }

  /** Another unit was chosen for a field or for a column; what was typed stays as it is. */
  function unitChosen(state, place, unit, units) {
    const value = state.values[place.key];
    const own = entry.chosen(unit, units, state.system);
    const changed =
      place.column === undefined
        ? { ...value, own }
        : { ...value, own: value.own.with(place.column, own) };
    const values = { ...state.values, [place.key]: changed };
    return edited(state, { values }, `${place.key} ${place.column} unit`);
  }

  function rowAdded(state, key, field) {
    return relisted(state, key, (rows) => lists.added(rows, made(field.empty), field.atMost));
  }

  function rowRemoved(state, key, id) {
    return relisted(state, key, (rows) => lists.removed(rows, id));
  }

  function rowMoved(state, key, id, by) {
    return relisted(state, key, (rows) => lists.moved(rows, id, by));
  }

  function relisted(state, key, change) {
    const { rows } = state.values[key];
    const next = change(rows);
    return next === rows ? state : edited(state, withRows(state, key, next));
  }

  function withRows(state, key, rows) {
    return { values: { ...state.values, [key]: { ...state.values[key], rows } } };
  }

  return {
    started, edited, settled: history.settled, undone, viewed, loaded, entries, request, made,
    typed, left, unitChosen, resultUnitChosen, rowAdded, rowRemoved, rowMoved, withRows,
  };
})();
