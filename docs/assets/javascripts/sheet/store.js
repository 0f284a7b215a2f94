/* Where the data sheet is kept in the browser: {stamp, sheet, units} under one name in the local
 * storage, the sheet as Python holds it and the units that the reader chose to see.
 *
 * The stamp tells whose writing was last, so that two tabs do not write over each other unseen.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const PLACE = "handbook data sheet";
  const OURS = "handbook"; // begins the names of all that the handbook keeps
  let known = null; // the stamp that was read or written last

  /** Return {sheet, units} as kept; null if there is none; undefined if the storage cannot be used. */
  function read() {
    const text = safely(() => localStorage.getItem(PLACE));
    const found = text && safely(() => JSON.parse(text));
    known = found?.stamp ?? null;
    if (text === undefined) return undefined;
    return isWhole(found?.sheet) ? { sheet: found.sheet, units: found.units ?? null } : null;
  }

  function isWhole(sheet) {
    return ["values", "rows"].every((part) => sheet?.[part] && typeof sheet[part] === "object") && typeof sheet.title === "string" && typeof sheet.note === "string";
  }

  /** Keep a sheet and its units.  Return {kept, other, lost}: whether it is kept now, what another tab had put
   * there meanwhile, and whether what was kept had been taken away. */
  function write(sheet, units) {
    const before = known;
    const there = read();
    const other = known !== null && known !== before ? there : null;
    const lost = before !== null && there === null;
    const stamp = `${Math.random()}`.slice(2);
    const kept = safely(() => {
      localStorage.setItem(PLACE, JSON.stringify({ stamp, sheet, units }));
      return JSON.parse(localStorage.getItem(PLACE)).stamp === stamp;
    });
    known = kept ? stamp : null;
    return { kept: kept === true, other, lost };
  }

  /** Take away all that the handbook keeps in this browser; return whether nothing is left. */
  function clear() {
    known = null;
    return safely(() => {
      for (const storage of [localStorage, sessionStorage]) {
        for (const name of Object.keys(storage)) if (name.startsWith(OURS)) storage.removeItem(name);
      }
      return !Object.keys(localStorage).some((name) => name.startsWith(OURS));
    }) === true;
  }

  /** Call `action` with what another tab has kept; also by the way back to a page that
   * slept meanwhile. */
  function watch(action) {
    addEventListener("storage", ({ key }) => [PLACE, null].includes(key) && action(read() ?? null));
    addEventListener("pageshow", ({ persisted }) => {
      const before = known;
      if (!persisted) return;
      const there = read();
      if (known !== before) action(there ?? null);
    });
  }

  function safely(action) {
    try {
      return action();
    } catch {
      return undefined;
    }
  }

  (globalThis.dataSheet ??= {}).store = { PLACE, read, write, clear, watch };
});
