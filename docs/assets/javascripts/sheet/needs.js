/* What the answers of a survey still need: listed, beside each field, and counted by section. */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { view } = dataSheet;

  /** Show needs: for each answer {title, missing}, of which each is {label, place}. */
  function show(root, needs) {
    const wanting = needs.filter(({ missing }) => missing.length > 0);
    list(root.querySelector(".sheet-needs"), root, needs.length, wanting);
    const titles = new Map(); // of the answers that need a place
    for (const { title, missing } of wanting) {
      for (const { place } of missing) titles.set(place, [...(titles.get(place) ?? []), title]);
    }
    for (const section of root.querySelectorAll(".sheet-section")) {
      const fields = new Map();
      for (const place of titles.keys()) {
        const [key] = /^\w*/.exec(place);
        if (key === section.dataset.section) fields.set(view.fieldAt(root, place), titles.get(place));
      }
      for (const use of section.querySelectorAll(".sheet-use")) {
        const wanted = fields.get(use.closest(".sheet-field").querySelector(".sheet-entry"));
        use.textContent = wanted ? `Needed for: ${inShort(wanted)}` : "";
      }
      section.querySelector(".sheet-needed").textContent = fields.size > 0 ? `, ${fields.size} needed` : "";
    }
  }

  function inShort([first, ...others]) {
    return others.length > 0 ? `${first}, and ${others.length} more` : first;
  }

  function list(box, root, count, wanting) {
    const isOpen = box.querySelector("details")?.open ?? false;
    const all = `${count - wanting.length} of ${count} answers can be given from the sheet as it stands.`;
    box.replaceChildren(Object.assign(document.createElement("p"), { textContent: all }));
    if (wanting.length === 0) return;
    const fold = document.createElement("details");
    fold.open = isOpen;
    const lines = document.createElement("ul");
    lines.append(...wanting.map((answer) => lineOf(root, answer)));
    fold.append(Object.assign(document.createElement("summary"), { textContent: "What the others need" }), lines);
    box.append(fold);
  }

  function lineOf(root, { title, missing }) {
    const line = document.createElement("li");
    line.append(`${title} needs ${missing.length} more: `);
    missing.forEach(({ label, place }, number) => line.append(number > 0 ? ", " : "", view.wayTo(root, place, label)));
    return line;
  }

  dataSheet.needs = { show };
});
