/* The rows of a table, each {id, ...}: every function returns a new list, or the same if it stays. */
(globalThis.calculator ??= {}).rows = (() => {
  "use strict";

  let count = 0;

  /** Return a row with an id of its own. */
  function made(content) {
    return { id: ++count, ...content };
  }

  function added(rows, row, most) {
    return rows.length < most ? [...rows, row] : rows;
  }

  function removed(rows, id) {
    return rows.filter((row) => row.id !== id);
  }

  /** Move a row up (-1) or down (1) by one place; at the end of the table it stays. */
  function moved(rows, id, by) {
    const from = rows.findIndex((row) => row.id === id);
    const other = rows[from + by];
    return other ? rows.with(from, other).with(from + by, rows[from]) : rows;
  }

  return { made, added, removed, moved };
})();
