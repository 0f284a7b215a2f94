/* The history of a state: what stood before the last edits, so that Undo can bring it back.
 *
 *   past      what stood before each edit, the latest last
 *   place     what the last edit was of; edits of one place in a row are one
 *   revision  grows with every change
 */
(globalThis.calculator ??= {}).history = (() => {
  "use strict";

  const MOST = 50; // edits that can be undone

  /** Return the history of a state after an edit of a place, before which `before` stood. */
  function edited({ past, place: last, revision }, before, place) {
    const goesOn = place !== null && place === last;
    return { past: goesOn ? past : [...past, before].slice(-MOST), place, revision: revision + 1 };
  }

  /** Return the history of a state whose last edit was taken back. */
  function undone({ past, revision }) {
    return { past: past.slice(0, -1), place: null, revision: revision + 1 };
  }

  /** End the edit of a place: what is typed there next is an edit of its own. */
  function settled(state) {
    return { ...state, place: null };
  }

  return { edited, undone, settled };
})();
