// Quick sums: the address follows what is typed, a list grows by itself, a table of readings is a grid, the text is copied.
"use strict";
(() => {
  const form = document.querySelector("#sum");
  const part = document.querySelector(".sum-answer");
  if (!form || !part) return;

  // The address always holds what is answered, so that a bookmark and the way back work.
  let entered = false, leaving = false;
  const settle = () => {
    if (leaving) return;
    const address = document.querySelector("#answer").dataset.address;
    if (entered) history.pushState(null, "", address);
    else history.replaceState(history.state, "", address);
    entered = false;
    ready();
  };
  form.addEventListener("submit", () => { entered = true; });
  document.addEventListener("htmx:afterSettle", (event) => { if (event.detail.target.id === "answer") settle(); });
  window.addEventListener("popstate", () => { leaving = true; location.reload(); });
  const silent = document.querySelector("#no-answer");
  const lost = (event) => {
    if (event.target !== form) return;
    silent.textContent = "The bench did not answer: the answer shown is to what was typed before. What you typed stands in the form.";
    silent.hidden = false;
  };
  document.addEventListener("htmx:sendError", lost);
  document.addEventListener("htmx:timeout", lost);

  // A list goes on: once something stands in its last item, there is another one.
  const changed = (field) => field.dispatchEvent(new Event("input", { bubbles: true }));
  const grown = (item) => {
    const next = item.cloneNode(true);
    const number = Number(/\.(\d+)\./.exec(item.querySelector("[name]").name)[1]);
    const renamed = (text) => text.replace(new RegExp("([.-])" + number + "(?=[.-]|$)", "g"), "$1" + (number + 1));
    next.querySelectorAll("*").forEach((each) => {
      for (const name of ["id", "name", "for", "list", "aria-describedby"]) {
        if (each.hasAttribute(name)) each.setAttribute(name, each.getAttribute(name).split(" ").map(renamed).join(" "));
      }
      if (each.matches("input[type=radio]")) each.checked = false;
      else if (each.matches("input, textarea, select")) each.value = "";
      if (each.matches(".sum-note")) each.textContent = "";
      each.classList.remove("wrong");
    });
    const title = item.getAttribute("aria-label").replace(/\d+$/, number + 1);
    next.setAttribute("aria-label", title);
    const summary = next.querySelector("summary");
    if (summary) summary.textContent = "more of " + title;
    item.after(next);
  };
  form.addEventListener("input", (event) => {
    const item = event.target.closest("[data-item]");
    if (item && !item.nextElementSibling && event.target.value) grown(item);
  });

  // A blade: type its thickness, press what it did, and the next one is asked for.
  form.addEventListener("click", (event) => {
    const key = event.target.closest(".sum-key input");
    const item = key && key.closest("[data-item]");
    const next = item && item.nextElementSibling && item.nextElementSibling.querySelector("input[type=text]");
    if (next && !next.value && event.detail) next.focus();
  });
  form.querySelectorAll("button[data-fill]").forEach((button) => {
    button.addEventListener("click", (event) => {
      const field = form.querySelector("textarea[name=blades], textarea[name=blade_set]");
      event.preventDefault();
      field.value = button.dataset.fill;
      changed(field);
    });
  });

  // Copy and print, which need script.
  const ready = () => part.querySelectorAll("[data-copy], [data-print]").forEach((each) => { each.hidden = false; });
  part.addEventListener("click", (event) => {
    if (event.target.closest("[data-print]")) window.print();
    const copy = event.target.closest("[data-copy]");
    if (!copy) return;
    const text = part.querySelector("[data-text]");
    const shown = () => { text.closest("details").open = true; text.focus(); text.select(); };
    if (!navigator.clipboard) { shown(); return; }
    navigator.clipboard.writeText(text.value).then(() => { copy.textContent = "Copied"; }, shown);
  });
  ready();

  // A table of readings as a grid: the text stays the truth, and a table can be pasted into any cell.
  const text = form.querySelector("textarea[data-grid]");
  if (!text) return;
  const split = (words) => words.split(/\r?\n/).filter((line) => line.trim()).map((line) => line.split(line.includes("\t") ? "\t" : ";").map((cell) => cell.trim()));
  let cells = split(text.value);
  const grid = document.createElement("table");
  grid.className = "study-grid";
  const hold = document.createElement("div");
  hold.className = "scroll";
  hold.append(grid);
  const person = (column) => { let at = column; while (at > 1 && !cells[0][at]) at -= 1; return cells[0][at] || "reading " + column; };
  const nameOf = (row, column) => {
    if (!row) return column ? "person of column " + column : "unit of the readings";
    return column ? "part " + (cells[row][0] || row) + ", " + person(column) + ", column " + column : "name of part " + row;
  };
  const width = () => Math.max(...cells.map((line) => line.length));
  const kept = () => {
    text.value = cells.map((line) => line.join(";")).join("\n");
    changed(text);
  };
  const input = (row, column) => {
    const field = document.createElement("input");
    field.type = "text";
    field.autocomplete = "off";
    field.inputMode = row && column ? "decimal" : "text";
    field.value = cells[row][column] || "";
    field.dataset.row = row;
    field.dataset.column = column;
    if (!row && !column) field.placeholder = "unit";
    const label = document.createElement("label");
    const words = document.createElement("span");
    words.className = "unseen";
    words.textContent = nameOf(row, column);
    label.append(words, field);
    return label;
  };
  const draw = () => {
    grid.textContent = "";
    const wide = width();
    cells.forEach((line, row) => {
      const tr = grid.insertRow();
      while (line.length < wide) line.push("");
      line.forEach((_, column) => {
        const cell = document.createElement(row && column ? "td" : "th");
        if (!row || !column) cell.className = "head";
        cell.append(input(row, column));
        tr.append(cell);
      });
    });
  };
  grid.addEventListener("input", (event) => {
    event.stopPropagation();
    const at = event.target.dataset;
    cells[at.row][at.column] = event.target.value.replace(/[;\t\n]/g, " ");
    kept();
  });
  grid.addEventListener("change", (event) => event.stopPropagation());
  grid.addEventListener("paste", (event) => {
    const pasted = split(event.clipboardData.getData("text"));
    const at = event.target.dataset;
    if (pasted.length < 2 && (pasted[0] || []).length < 2) return;
    event.preventDefault();
    const [top, left] = [Number(at.row), Number(at.column)];
    if (!top && !left) cells = [];
    pasted.forEach((line, row) => line.forEach((value, column) => {
      while (cells.length <= top + row) cells.push([]);
      cells[top + row][left + column] = value;
    }));
    cells = cells.map((line) => Array.from({ length: Math.max(width(), line.length) }, (_, column) => line[column] || ""));
    draw();
    kept();
  });
  grid.addEventListener("keydown", (event) => {
    const steps = { Enter: 1, ArrowDown: 1, ArrowUp: -1 };
    if (!(event.key in steps)) return;
    event.preventDefault();
    const to = grid.querySelector('[data-row="' + (Number(event.target.dataset.row) + steps[event.key]) + '"][data-column="' + event.target.dataset.column + '"]');
    if (to) { to.focus(); to.select(); }
  });
  const way = (words, does) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", () => { does(); draw(); kept(); });
    return button;
  };
  const ways = document.createElement("div");
  ways.className = "study-ways";
  ways.append(
    way("one part more", () => cells.push([String(cells.length), ...Array(width() - 1).fill("")])),
    way("one reading more of each", () => {
      const runs = cells[0].map((_, column) => column && person(column) !== person(column + 1) ? column : 0);
      cells = cells.map((line, row) => line.flatMap((value, column) => (runs[column] ? [value, row ? "" : person(column)] : [value])));
    }),
    way("one person more", () => {
      const repeats = cells[0].filter((_, column) => column && person(column) === person(1)).length || 2;
      cells = cells.map((line, row) => [...line, ...Array(repeats).fill(row ? "" : "person " + (new Set(cells[0].slice(1).map((__, column) => person(column + 1))).size + 1))]);
    }),
  );
  draw();
  text.closest(".sum-typed").after(hold, ways);
  text.closest(".sum-typed").hidden = true;
})();
