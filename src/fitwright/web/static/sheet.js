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

  // A draft outlives a reload. On the page of a build it is kept here, with the revision it was begun on;
  // where a build is started page.js has put it back into the empty text.
  const form = () => document.querySelector("form[data-draft]");
  const nameOf = () => "draft " + location.pathname;
  const kept = () => { try { return JSON.parse(sessionStorage.getItem(nameOf())); } catch (broken) { return null; } };
  const note = (shown) => { const words = document.querySelector("#draft-note"); if (words) words.hidden = !shown; };
  let own = "";
  const keep = () => {
    const field = text();
    if (!form() || !field) return;
    if (field.value === own) sessionStorage.removeItem(nameOf());
    else try { sessionStorage.setItem(nameOf(), JSON.stringify({ on: form().dataset.draft, text: field.value })); } catch (full) { /* then it is not kept */ }
    note(field.value !== own);
  };
  const restore = () => {
    const field = text(), before = kept();
    if (!form() || !field) return;
    own = field.defaultValue;
    if (before && before.text !== own) {
      field.value = before.text;
      changed(field);
    }
    keep();
  };
  document.addEventListener("input", (event) => { if (event.target.id === "text") keep(); });
  document.addEventListener("click", (event) => {
    if (event.target.id !== "drop-draft") return;
    text().value = own;
    changed(text());
  });

  // What a new source is asked for only where a new source is chosen.
  const asked = () => {
    const source = document.querySelector("[name=limit-new-source]"), more = document.querySelector(".new-source");
    if (source && more) more.hidden = source.value !== "new";
  };
  document.addEventListener("change", asked);
  document.addEventListener("htmx:afterSettle", asked);

  // A whole page came again: what the build has is known from before, unless it has another revision now.
  let scrolled = 0, on = "";
  document.addEventListener("htmx:beforeSwap", () => { scrolled = text() ? text().scrollTop : 0; on = form() ? form().dataset.draft : ""; });
  document.addEventListener("htmx:afterSettle", () => {
    const field = text();
    if (!form() || !field) return;
    if (form().dataset.draft !== on) own = field.value;
    keep();
    const line = Number(form().dataset.go);
    if (line && !field.dataset.gone) {
      field.dataset.gone = "yes";
      field.scrollTop = Math.max(0, (line - 4) * parseFloat(getComputedStyle(field).lineHeight));
    } else if (!field.dataset.gone) field.scrollTop = scrolled;
    number();
  });
  document.addEventListener("DOMContentLoaded", () => {
    restore();
    number();
    const field = text();
    if (field && field.value && !field.defaultValue) changed(field);
  });
})();
