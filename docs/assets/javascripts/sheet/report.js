/* What a reader takes away from a survey: the report saved or printed, with the parts that were
 * chosen, and one answer for a review.  What is left out stands in the sheet, in a field of its title
 * block, so that whoever opens its file gets the same report.
 *
 * `own` is the sheet, as sheet.js makes it; `files` gives its text, `survey` what was computed.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const WHY = "This is made of the whole survey of the sheet as it stands: compute the survey first.";
  const KINDS = { html: "text/html", markdown: "text/markdown", csv: "text/csv" };
  const ENDS = { html: "html", markdown: "md", csv: "csv" };

  function of(own, files, survey) {
    const { root } = own;
    const field = root.querySelector("[data-section=report] [data-field=leave_out] .sheet-entry");
    const list = root.querySelector(".report-answers");
    let listed = []; // the questions that boxes stand for
    let refused = false;

    root.addEventListener("survey:told", tell);
    root.addEventListener("change", ({ target }) => target.matches("[data-part]") && choose());
    root.addEventListener("click", ({ target }) => {
      if (target.closest("[data-whole][aria-disabled=true]")) refuse();
    });
    return { save, print: printed, quote };

    function refuse() {
      refused = true;
      own.trouble(WHY);
    }

    /** Show what the report holds: parts, and the answers that were asked for. */
    function tell() {
      if (refused && survey.whole()) {
        refused = false;
        own.trouble("");
      }
      const questions = survey.questions();
      if (questions.length > 0 && questions !== listed) {
        listed = questions;
        list.replaceChildren(...questions.map(({ key, title }) => box(key, title)));
      }
      const out = leftOut();
      for (const part of boxes()) part.checked = !out.includes(part.dataset.part);
    }

    function box(key, title) {
      const label = document.createElement("label");
      const made = Object.assign(document.createElement("input"), { type: "checkbox" });
      made.dataset.part = key;
      label.append(made, ` ${title}`);
      return label;
    }

    function boxes() {
      return [...root.querySelectorAll("[data-part]")];
    }

    function leftOut() {
      return field.value.split(",").map((key) => key.trim()).filter(Boolean);
    }

    /** What has no box, such as an answer of another survey, stays left out. */
    function choose() {
      const known = boxes().map(({ dataset }) => dataset.part);
      const kept = leftOut().filter((key) => !known.includes(key));
      const out = boxes().filter(({ checked }) => !checked).map(({ dataset }) => dataset.part);
      field.value = [...out, ...kept].join(", ");
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }

    /** Return the report of the survey that stands there, never of one that is out of date. */
    async function made(kind) {
      const run = survey.whole();
      const text = run && (await files.text("There is no report yet. Put this right first:"));
      const report = text && (await own.asked("survey.asking.reported", { text, kind }, "survey"));
      if (report && survey.whole() === run) return report;
      if (!run || report) refuse();
      return null;
    }

    async function save(pressed) {
      const { kind } = pressed.dataset;
      const report = await made(kind);
      if (report) desk.download(report, `${files.name()}_survey.${ENDS[kind]}`, KINDS[kind]);
    }

    /** The report is printed from a frame, so that paper and file hold the same. */
    async function printed() {
      const report = await made("html");
      if (!report) return;
      document.querySelector(".print-frame")?.remove();
      const frame = Object.assign(document.createElement("iframe"), { className: "print-frame", srcdoc: report });
      frame.title = "Report to be printed";
      frame.addEventListener("load", () => frame.contentWindow.print(), { once: true });
      document.body.append(frame);
    }

    /** Copy one answer for a review, or save its numbers. */
    async function quote(pressed) {
      const { kind } = pressed.dataset;
      const { key } = pressed.closest(".sheet-answer").dataset;
      const text = await files.text("Nothing was copied. Put this right first:");
      if (!text) return;
      const folder = location.href.split("#")[0].replace(/[^/]*$/, "");
      const found = await own.asked("survey.asking.quoted", { text, key, folder }, "survey");
      if (!found || !survey.isCurrent()) return;
      if (kind === "csv") desk.download(found.csv, `${files.name()}_${key}.csv`, KINDS.csv);
      else if (await desk.toClipboard(found[kind])) desk.flash(pressed, "copied");
      else own.trouble("The browser refused to copy.");
    }
  }

  dataSheet.report = { of };
});
