/* The fleet: the rotorcraft whose numbers a reader has typed, kept in this browser.
 *
 *   { current, list: [{ id, name, records, forms }], recent: [{ page, name, title }] }
 *   records: { "ground.aircraft.Rotor": { blades: "4", ... } }, forms: { FORM: { key: text } },
 *   earlier: { FORM: { key: text } }, what a form kept before the example was changed anew
 *
 * A form keeps all its entries under its own name.  What is typed for a record, such as a rotor in
 * lag, is kept under the record's name as well, and there every form that takes the record finds
 * it; a unit that is chosen beside another number, such as that of the example, leaves it alone.
 * The forms that were used last are listed for the home page.  Nothing that came with a link is
 * kept here until the reader asks for it.
 */
(globalThis.calculator ??= {}).fleet = (() => {
  "use strict";

  const { entry } = calculator;
  const PLACE = "handbook rotorcraft";
  const FIRST = "my rotorcraft";
  const LONGEST = 40; // characters of a name
  const RECENT = 5; // forms that are listed as used last

  let seen = null; // what is kept, until it changes: every form of a page looks at each change
  const lookAgain = () => (seen = null);
  addEventListener("storage", lookAgain); // changed by another page, before the forms hear of it
  addEventListener("pageshow", lookAgain); // gone back to: what others changed was not told here

  /** Return what is kept, to look at; `change` alone may alter it. */
  function read() {
    return (seen ??= parsed(safely(() => localStorage.getItem(PLACE))));
  }

  function parsed(text) {
    const found = safely(() => JSON.parse(text));
    const list = Array.isArray(found?.list) ? found.list.filter(isWhole) : [];
    const recent = Array.isArray(found?.recent) ? found.recent.filter(isForm).slice(0, RECENT) : [];
    return { current: found?.current, list, recent };
  }

  function isForm(one) {
    return typeof one?.title === "string" && /^\w+\/\w+\.html$/.test(one.page) && /^\w+$/.test(one.name);
  }

  function isWhole(one) {
    return Number.isInteger(one?.id) && typeof one.name === "string" && one.records && one.forms;
  }

  /** Change what is kept and tell every form on the page. */
  function change(action) {
    lookAgain();
    const all = structuredClone(read());
    const result = action(all);
    safely(() => localStorage.setItem(PLACE, JSON.stringify(all)));
    lookAgain();
    document.dispatchEvent(new Event("fleet"));
    return result;
  }

  function safely(action) {
    try {
      return action();
    } catch {
      return null;
    }
  }

  function found(all, id) {
    return all.list.find((one) => one.id === id) ?? made(all, FIRST);
  }

  function made(all, name) {
    const id = 1 + Math.max(0, ...all.list.map((one) => one.id));
    const fresh = { id, name, records: {}, forms: {} };
    all.list.push(fresh);
    all.current = id;
    return fresh;
  }

  /** Return the rotorcraft, and the one that was last worked with. */
  function names() {
    const { current, list } = read();
    return { current: list.find(({ id }) => id === current) ?? list[0], list };
  }

  /** Keep the entries of a form for a rotorcraft; return its id, which is new for the first.
   * Where they begin `anew` from the example, what the form kept before is set aside. */
  function keep(id, shape, before, after, anew) {
    return change((all) => {
      const own = found(all, id);
      if (anew && has(own.id, shape)) (own.earlier ??= {})[shape.formula] = kept(own.id, shape);
      own.forms[shape.formula] = after;
      for (const key of shape.keys) {
        if (before[key] !== after[key] && !isOnlySeen(own, shape, key, before, after)) put(own, shape, key, after[key]);
      }
      all.current = own.id;
      used(all, shape);
      return own.id;
    });
  }

  /** List a form as the one that was used last. */
  function used(all, { name, title }) {
    const page = location.pathname.split("/").slice(-2).join("/");
    const others = all.recent.filter((one) => one.page !== page || one.name !== name);
    all.recent = [{ page, name, title }, ...others].slice(0, RECENT);
  }

  function recent() {
    return read().recent;
  }

  function forget() {
    change((all) => (all.recent = []));
  }

  /** Whether only another unit was chosen, beside numbers that are not those kept for the record. */
  function isOnlySeen(own, shape, key, before, after) {
    const field = shape.fields[key];
    const there = own.records[field.record]?.[key];
    if (there === undefined) return false;
    const [old, now, mine] = [before[key], after[key], there].map((text) => entry.typedPart(text, field));
    return old === now && mine !== now;
  }

  function put(own, shape, key, text) {
    const { record } = shape.fields[key];
    if (record) (own.records[record] ??= {})[key] = text;
  }

  /** Return the entries of a rotorcraft that a form has inputs for, or null if there are none. */
  function kept(id, shape) {
    const own = read().list.find((one) => one.id === id);
    const entries = { ...(own?.forms[shape.formula] ?? before(shape)) };
    for (const key of shape.keys) {
      const text = own?.records[shape.fields[key].record]?.[key];
      if (text !== undefined) entries[key] = text;
    }
    const found = shape.keys.filter((key) => typeof entries[key] === "string");
    return found.length > 0 ? Object.fromEntries(found.map((key) => [key, entries[key]])) : null;
  }

  /** Return what a form kept for a rotorcraft before the example was changed anew, or undefined. */
  function earlier(id, shape) {
    return read().list.find((one) => one.id === id)?.earlier?.[shape.formula];
  }

  /** Whether a form itself was used with the numbers of a rotorcraft. */
  function has(id, shape) {
    const own = read().list.find((one) => one.id === id);
    return Boolean(own ? own.forms[shape.formula] : before(shape));
  }

  /** What an earlier version of this handbook kept for a form. */
  function before(shape) {
    if (read().list.length > 0) return {};
    return safely(() => JSON.parse(localStorage.getItem(`handbook ${shape.formula}`)));
  }

  /** Add a rotorcraft that has the entries of a form; return its id. */
  function add(name, shape, entries) {
    return change((all) => {
      const own = made(all, name.trim().slice(0, LONGEST) || FIRST);
      own.forms[shape.formula] = entries;
      for (const key of shape.keys) put(own, shape, key, entries[key]);
      return own.id;
    });
  }

  function rename(id, name) {
    change((all) => (found(all, id).name = name.trim().slice(0, LONGEST) || FIRST));
  }

  function remove(id) {
    change((all) => (all.list = all.list.filter((one) => one.id !== id)));
  }

  function choose(id) {
    change((all) => (all.current = id));
  }

  return { recent, forget, names, keep, kept, earlier, has, add, rename, remove, choose };
})();
