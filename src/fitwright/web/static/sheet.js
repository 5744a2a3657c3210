// The text of a sheet: its lines numbered, problems marked at them, Tab for indenting, a file read in.
"use strict";
(() => {
  const UNIT = "    ";
  const text = () => document.querySelector("#text");
  const gutter = () => document.querySelector(".gutter");
  const linesOf = (field) => field.value.split("\n").length;
  let drawn = "";

  const marked = () => {
    const found = new Map();
    document.querySelectorAll("#findings li[data-line]").forEach((each) => {
      const line = Number(each.dataset.line);
      if (!found.has(line)) found.set(line, each.querySelector(":scope > span").textContent);
    });
    return found;
  };

  // Number the lines. Drawn again only where their count or their marks have changed.
  const number = () => {
    const field = text(), aside = gutter();
    if (!field || !aside) return;
    const count = linesOf(field), wrong = marked();
    const wanted = count + ":" + [...wrong.keys()].join(",");
    if (wanted !== drawn || !aside.firstChild) {
      drawn = wanted;
      const parts = document.createDocumentFragment();
      let plain = "";
      for (let line = 1; line <= count; line += 1) {
        if (wrong.has(line)) {
          parts.append(plain);
          plain = "";
          const mark = document.createElement("b");
          mark.textContent = "✗ " + line;
          parts.append(mark, "\n");
        } else plain += line + "\n";
      }
      parts.append(plain);
      aside.replaceChildren ? aside.replaceChildren(parts) : (aside.textContent = "", aside.append(parts));
    }
    aside.scrollTop = field.scrollTop;
  };

  const lineAt = (field) => field.value.slice(0, field.selectionStart).split("\n").length;
  const say = () => {
    const field = text(), words = document.querySelector("#at-line");
    if (!field || !words || document.activeElement !== field) return;
    const line = lineAt(field), wrong = marked().get(line);
    const said = "Line " + line + (wrong ? ": " + wrong : "");
    if (words.textContent !== said) words.textContent = said;
  };

  const goTo = (line, column) => {
    const field = text();
    const lines = field.value.split("\n");
    const start = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    const at = Math.min(start + Math.max(0, column - 1), start + (lines[line - 1] || "").length);
    field.focus();
    field.setSelectionRange(at, start + (lines[line - 1] || "").length);
    const high = parseFloat(getComputedStyle(field).lineHeight);
    field.scrollTop = Math.max(0, (line - 6) * high);
    field.scrollLeft = 0;
    field.scrollIntoView({ block: "nearest" });
  };

  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-line]");
    if (!link) return;
    event.preventDefault();
    goTo(Number(link.dataset.line), Number(link.dataset.column) || 1);
  });

  const changed = (field) => field.dispatchEvent(new Event("input", { bubbles: true }));
  const insert = (field, words) => {
    // execCommand keeps what can be undone; where it is gone, the text is set.
    if (!document.execCommand("insertText", false, words)) {
      field.setRangeText(words, field.selectionStart, field.selectionEnd, "end");
      changed(field);
    }
  };

  let leaving = false;
  document.addEventListener("keydown", (event) => {
    if (event.target.id !== "text") return;
    if (event.key === "Escape") { leaving = true; return; }
    if (event.key === "Tab" && !leaving && !event.shiftKey && !event.ctrlKey && !event.altKey && !event.metaKey) {
      event.preventDefault();
      insert(event.target, UNIT);
    }
    if (event.key !== "Tab" && event.key !== "Shift") leaving = false;
  });
  document.addEventListener("focusin", (event) => { if (event.target.id === "text") leaving = false; });
  document.addEventListener("selectionchange", say);
  document.addEventListener("input", (event) => { if (event.target.id === "text") number(); });
  document.addEventListener("scroll", (event) => { if (event.target.id === "text") gutter().scrollTop = event.target.scrollTop; }, true);
  document.addEventListener("htmx:afterSettle", () => { number(); say(); });
  window.addEventListener("resize", number);

  document.addEventListener("change", (event) => {
    const file = event.target.type === "file" && event.target.files[0], field = text();
    if (!file || !field) return;
    const reader = new FileReader();
    reader.onload = () => {
      field.value = reader.result.replace(/\r\n?/g, "\n");
      event.target.value = "";
      changed(field);
    };
    reader.readAsText(file);
  });

  // A draft outlives a reload: page.js has put it back into an empty text, which is then looked at.
  window.sheetText = { number, changed, text };
  document.addEventListener("DOMContentLoaded", () => { number(); const field = text(); if (field && field.value && !field.defaultValue) changed(field); });
})();
