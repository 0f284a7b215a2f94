// Buttons beside a numbered equation: copy its LaTeX, copy a link to it.
for (const equation of document.querySelectorAll(".equation-numbered")) {
  const tex = equation.querySelector('annotation[encoding="application/x-tex"]').textContent;
  const number = equation.querySelector(".equation-number").textContent;
  const address = () => `${location.href.split("#")[0]}#${equation.id}`;
  const tools = document.createElement("span");
  tools.className = "equation-tools";
  tools.append(
    button("Copy LaTeX", `Copy LaTeX of equation ${number}`, () => tex),
    button("Copy link", `Copy link to equation ${number}`, address),
  );
  equation.append(tools);
}

function button(label, name, text) {
  const element = document.createElement("button");
  element.type = "button";
  element.textContent = label;
  element.setAttribute("aria-label", name);
  element.addEventListener("click", async () => {
    const copied = await calculator.desk.toClipboard(text());
    element.textContent = copied ? "Copied" : "Press Ctrl+C";
    announce(copied ? "Copied" : "Not copied");
    setTimeout(() => (element.textContent = label), 2000);
  });
  return element;
}

function announce(text) {
  let region = document.getElementById("equation-status");
  if (!region) {
    region = document.body.appendChild(document.createElement("span"));
    region.id = "equation-status";
    region.className = "visually-hidden";
    region.role = "status";
  }
  region.textContent = text;
}
