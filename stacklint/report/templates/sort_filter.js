"use strict";
// Sorts and filters the table of stacks. Without this script the page is whole, in the order of the plans.
(() => {
  const table = document.getElementById("stacks");
  if (!table) return;
  const form = document.getElementById("filter");
  const words = document.getElementById("filter-words");
  const state = document.getElementById("filter-state");
  const count = document.getElementById("filter-count");
  const body = table.tBodies[0];
  const order = new Intl.Collator("en", { numeric: true, sensitivity: "base" });
  const heads = [...table.tHead.rows[0].cells].filter((head) => head.dataset.sort);
  const rows = [...body.rows].map((row) => {
    const told = document.getElementById(row.dataset.told);
    return { row, told, text: `${row.textContent} ${told.textContent}`.toLowerCase().replace(/\s+/g, " ") };
  });
  let sorted = "";

  const key = (row, column) => {
    const cell = row.cells[column];
    return cell.dataset.key ?? cell.textContent.trim();
  };

  // Lines without a value come last, whichever way the others go.
  const compared = (column, numbers, down) => (one, other) => {
    const a = key(one.row, column);
    const b = key(other.row, column);
    if (!a || !b) return Number(!a) - Number(!b);
    const difference = numbers ? Number(a) - Number(b) : order.compare(a, b);
    return down ? -difference : difference;
  };

  const tell = () => {
    const shown = rows.filter(({ row }) => !row.hidden).length;
    count.textContent = `${shown} of ${rows.length} shown${sorted}`;
  };

  const sort = (head) => {
    const down = head.getAttribute("aria-sort") === "ascending";
    for (const each of heads) each.removeAttribute("aria-sort");
    head.setAttribute("aria-sort", down ? "descending" : "ascending");
    rows.sort(compared(head.cellIndex, head.dataset.sort === "number", down));
    for (const { row } of rows) body.append(row);
    sorted = `, sorted by ${head.textContent.trim()}, ${down ? "falling" : "rising"}`;
    tell();
  };

  // Whole words: "row 3" is not in "row 30", nor in "arrow 3".
  const whole = (phrase, begun = false) => {
    const literal = phrase.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replace(/\s+/g, "\\s+");
    const before = /^[\p{L}\p{N}]/u.test(phrase) ? "(?<![\\p{L}\\p{N}])" : "";
    const after = !begun && /[\p{L}\p{N}]$/u.test(phrase) ? "(?![\\p{L}\\p{N}])" : "";
    const pattern = new RegExp(before + literal + after, "u");
    return (text) => pattern.test(text);
  };

  // What stands in quotation marks is looked for as it is. Of other words the first way counts that finds a line:
  // all of them together as a phrase, each of them somewhere, each as the beginning of a word.
  const finder = (typed) => {
    const quoted = [...typed.matchAll(/["\u201c\u201d]([^"\u201c\u201d]+)["\u201c\u201d]/g)].map((match) => match[1].trim());
    const rest = typed.replace(/["\u201c\u201d][^"\u201c\u201d]+["\u201c\u201d]/g, " ").replace(/["\u201c\u201d]/g, " ").trim();
    const each = rest.split(/\s+/).filter(Boolean);
    const fixed = quoted.filter(Boolean).map((phrase) => whole(phrase));
    const ways = [[rest].filter(Boolean).map((phrase) => whole(phrase)), each.map((word) => whole(word)), each.map((word) => whole(word, true))];
    const tests = ways.map((way) => (text) => [...fixed, ...way].every((test) => test(text)));
    return tests.find((test) => rows.some(({ text }) => test(text))) ?? (() => false);
  };

  const filter = () => {
    const finds = finder(words.value.toLowerCase());
    for (const { row, told, text } of rows) {
      const fits = (!state.value || row.dataset.state === state.value) && finds(text);
      row.hidden = !fits;
      told.hidden = !fits;
    }
    tell();
  };

  // A link of the page to what the filter hides shows all again.
  const reveal = () => {
    const target = document.getElementById(location.hash.slice(1));
    if (!target || !target.hidden) return;
    form.reset();
    filter();
    target.scrollIntoView();
  };

  for (const head of heads) {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    button.addEventListener("click", () => sort(head));
    head.append(button);
  }
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", filter);
  form.addEventListener("change", filter);
  form.addEventListener("reset", () => setTimeout(filter));
  window.addEventListener("hashchange", reveal);
  table.classList.add("sortable");
  form.hidden = false;
  filter();
})();
