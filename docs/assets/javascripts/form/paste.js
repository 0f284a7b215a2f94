/* A table pasted into a cell: rows of a spreadsheet, of a CSV file, or of a text with tabs. */
(globalThis.calculator ??= {}).paste = (() => {
  "use strict";

  const { entry, state: states } = calculator;

  /** Return the cells in a text, row by row, or null where the text is for one cell alone. */
  function cellsIn(text, columns) {
    const lines = text.replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n");
    const mark = ["\t", ";", ","].find((sign) => lines.some((line) => line.includes(sign)));
    if (lines.length === 1) {
      const alone = mark !== "\t" && (columns < 3 || split(text, mark ?? ",").length !== columns);
      if (alone) return null;
    }
    return lines.map((line) => split(line, mark ?? "\t"));
  }

  /** Return the cells of a line; a cell in quotation marks may hold the mark between cells. */
  function split(line, mark) {
    const cells = [""];
    let quoted = false;
    for (const sign of line) {
      if (sign === '"') quoted = !quoted;
      else if (sign === mark && !quoted) cells.push("");
      else cells[cells.length - 1] += sign;
    }
    return cells.map((cell) => cell.trim());
  }

  /** Return the state with a text pasted from a cell on, to the right and down; null for no table. */
  function pasted(state, place, field, text) {
    const cells = cellsIn(text, field.columns.length - place.column);
    if (!cells) return null;
    const table = state.values[place.key];
    const first = table.rows.findIndex((row) => row.id === place.row);
    const isHeaded = isHead(cells, field.columns.slice(place.column));
    const given = isHeaded ? cells.slice(1) : cells;
    const taken = given.slice(0, field.atMost - first);
    const notes = isHeaded ? [`${field.label}: the first row was taken for a heading and left out`] : [];
    const unknown = [];
    const rows = [...table.rows];
    taken.forEach((row, down) => {
      const old = rows[first + down] ?? states.made(field.empty);
      const fresh = old.cells.map((cell, column) => {
        const own = row[column - place.column];
        const { [column]: shape } = field.columns;
        if (own === undefined) return cell;
        const unit = shape.units && entry.unitOf(table.own[column], shape.units, state.system);
        return filled(cell, own, shape, unit, unknown);
      });
      rows[first + down] = { ...old, cells: fresh };
    });
    if (taken.length < given.length) {
      notes.push(`${field.label}: at most ${field.atMost} rows; ${given.length - taken.length} were left out`);
    }
    const wide = Math.max(...given.map((row) => row.length)) - (field.columns.length - place.column);
    const columns = wide === 1 ? "one column" : `${wide} columns`;
    if (wide > 0) notes.push(`${field.label}: left out, as too many: ${columns}`);
    if (unknown.length > 0) notes.push(`${unknown[0]}: ${asItWas(unknown.length)}`);
    const said = { key: place.key, lines: notes };
    return states.edited(state, { ...states.withRows(state, place.key, rows), pasted: said });
  }

  /** Whether the first row has the labels of the columns, or words above numbers. */
  function isHead([row, ...others], columns) {
    const named = (cell, place) => !cell || (columns[place] && cell.startsWith(columns[place].label));
    if (row.some(Boolean) && row.every(named)) return true;
    const numbers = row.map((_, place) => place).filter((place) => columns[place]?.units);
    const hasDigit = (cells, place) => /\d/.test(cells[place] ?? "");
    const isWords = (place) => !hasDigit(row, place);
    const isAbove = (place) => others.some((cells) => hasDigit(cells, place));
    return numbers.every(isWords) && numbers.some(isAbove);
  }

  function asItWas(count) {
    return count === 1 ? "the cell was left as it was" : `it and ${count - 1} other cells were left as they were`;
  }

  /** Return a cell with a text put in; a word that is no choice is told to a list. */
  function filled(cell, text, column, unit, unknown) {
    if (column.units) return entry.celled({ text, unit }, column.units);
    if (column.kind === "word") return { ...cell, text };
    const same = (word) => word.toLowerCase() === text.toLowerCase();
    const option = column.options.find(({ key, label }) => same(key) || same(label));
    if (option) return { ...cell, text: option.key };
    unknown.push(`“${text}” is no choice of “${column.label}”`);
    return cell;
  }

  return { pasted };
})();
