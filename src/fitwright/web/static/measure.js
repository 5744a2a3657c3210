// Measure: what is typed is taken one line after the other, in order, and shown as kept only when it is.
"use strict";
(() => {
  const form = document.querySelector("#take");
  const field = document.querySelector("#typed");
  if (!form || !field) return;
  const outbox = document.querySelector("#outbox");
  const echo = document.querySelector("#echo");
  let store = "waiting " + location.pathname;
  const part = (id) => document.getElementById(id);
  const newId = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");

  // ---- the lines that wait ----
  // A line is {text, more, id, at, refused}; `at` is set only when it is tied to a place, otherwise it goes to where one is then.
  // `held` says why they wait: the bench is "silent", a line was "refused", a question is "asked", the page was "reloaded".
  let waiting = [], sending = false, held = "", trouble = "";
  try { waiting = JSON.parse(sessionStorage.getItem(store)) || []; } catch (none) { waiting = []; }
  if (waiting.length) { held = "reloaded"; trouble = "These were typed before this page was loaded again. Enter sends them."; }

  const keepWaiting = () => {
    try { waiting.length ? sessionStorage.setItem(store, JSON.stringify(waiting)) : sessionStorage.removeItem(store); } catch (full) { /* shown all the same */ }
    outbox.replaceChildren(...waiting.map((line) => {
      const item = document.createElement("li");
      item.textContent = (line.shown || line.text) + (line === waiting[0] && sending ? ": being kept ..." : ": not kept yet");
      return item;
    }));
    if (trouble) {
      const item = document.createElement("li");
      item.className = "trouble";
      item.textContent = trouble;
      outbox.append(item);
    }
    outbox.hidden = !waiting.length && !trouble;
  };

  const fields = (line) => {
    const data = new URLSearchParams();
    for (const input of form.elements) {
      if (!input.name || input.type === "submit" || input.type === "button" || ((input.type === "radio" || input.type === "checkbox") && !input.checked)) continue;
      if (input.name === "text" || input.name === "entry_id" || (input.name === "blade" && !line.more.did)) continue;
      data.append(input.name, input.value);
    }
    data.set("text", line.text);
    data.set("entry_id", line.id);
    for (const [name, value] of Object.entries(line.more)) data.set(name, value);
    return data;
  };

  // A network that is gone may say nothing for minutes: after SILENT ms the line is sent again, and counts once.
  const SILENT = 20000;
  const post = async (line) => {
    const stop = new AbortController(), timer = setTimeout(() => stop.abort(), SILENT);
    try {
      const answer = await fetch(form.action, { method: "POST", body: fields(line), headers: { "hx-request": "true" }, signal: stop.signal });
      return { text: await answer.text(), status: answer.status };
    } catch (none) { return { text: "", status: 0 }; } finally { clearTimeout(timer); }
  };

  // The bench was started anew while this page was open. Where its record holds all that was shown here, and it is at
  // the same place in the same sitting, the page takes the token of this run and sends again; else somebody looks first.
  const isSameBench = (from) => {
    const own = from.getElementById("hidden"), now = form.elements;
    if (!own || Number(own.dataset.seq) < shown) return false;
    const fresh = (name) => { const input = own.querySelector("[name=" + name + "]"); return input ? input.value : ""; };
    if (["at", "sitting"].some((name) => !now[name] || now[name].value !== fresh(name)) || now.token.value === fresh("token")) return false;
    now.token.value = fresh("token");
    return true;
  };

  const pump = async () => {
    if (sending || held || !waiting.length) return;
    sending = true;
    const line = waiting[0];
    keepWaiting();
    const { text, status } = await post(line);
    const from = new DOMParser().parseFromString(text, "text/html");
    sending = false;
    if (status === 403 && isSameBench(from)) { pump(); return; }
    if (!status || status >= 500) {
      held = "silent";
      trouble = status ? plain(from.querySelector("#said") || from.body) + " Enter tries again." : "The bench does not answer. Nothing is lost: Enter tries again, and it never counts twice.";
      keepWaiting();
      if (!status) setTimeout(again, 3000);
      return;
    }
    waiting.shift();
    trouble = "";
    show(text);
    const said = part("said").dataset;
    if (!from.querySelector("[data-part]")) Object.assign(said, { state: "refused", text: line.text }); // a page of its own: no such station any more
    const note = form.elements.note;
    if (said.state === "kept" && note && line.more.note === undefined) note.value = "";
    if (said.state === "refused") {
      if (waiting.length || field.value) {
        held = "refused";
        trouble = (line.shown || line.text) + " was not taken, and these wait: /92 puts 92 in its place, Enter goes on without it.";
        if (field.value) field.dataset.before = "yes";
      } else { field.value = said.text; field.select(); }
      signal();
    }
    if (part("asked").dataset.waits) {
      held = "asked";
      if (waiting.length) trouble = WAITS_ANSWER;
      if (field.value) field.dataset.before = "yes";
      signal();
    }
    keepWaiting();
    pump();
    refresh();
  };

  const WAITS_ANSWER = "These wait until the question is answered.";
  const again = () => { if (held === "silent") { held = ""; pump(); } };
  window.addEventListener("online", again);

  const plain = (element) => element.textContent.trim().replace(/\s+/g, " ");
  const words = (html) => plain(new DOMParser().parseFromString(html, "text/html").body);
  const signal = () => { if (navigator.vibrate) navigator.vibrate(120); };

  // ---- what came back ----
  const show = (html) => {
    const from = new DOMParser().parseFromString(html, "text/html");
    shows(from);
    const open = [...document.querySelectorAll("#sitting details[open] > summary, #blades details[open] > summary")].map((each) => each.textContent);
    for (const fresh of from.querySelectorAll("[data-part]")) {
      const old = part(fresh.id);
      if (!old || old.isEqualNode(fresh) || (fresh.id === "station" && fresh.dataset.title === old.dataset.title)) continue;
      if (fresh.id === "sitting" && old.contains(document.activeElement) && document.activeElement.tagName === "INPUT") continue;
      old.replaceWith(document.importNode(fresh, true));
    }
    if (from.querySelector("#asked[data-waits]")) askedAt = performance.now();
    keyboard();
    if (from.querySelector("#hidden")) atStation();
    for (const each of document.querySelectorAll("#blades details > summary")) if (open.includes(each.textContent)) each.parentNode.open = true;
    if (!from.querySelector("[data-part]")) part("said").textContent = words(html);
    if (!part("asked").dataset.waits && held === "asked") held = "";
    const here = part("run").querySelector(".here");
    const list = part("run").querySelector(".places");
    if (here && list && list.scrollHeight > list.clientHeight) list.scrollTop = here.offsetTop - list.clientHeight / 2;
    const at = form.elements.at;
    if (at) {
      const address = new URL(location.href);
      address.pathname = new URL(form.action).pathname;
      address.searchParams.set("at", at.value);
      if (form.elements.sitting.value) address.searchParams.set("sitting", form.elements.sitting.value);
      history.replaceState(null, "", address);
    }
    echoed();
  };

  // ---- another station, reached by a line: what is sent from now on goes there ----
  const atStation = () => {
    const { action, echo: asks } = part("hidden").dataset;
    if (form.getAttribute("action") === action) return;
    document.title = document.title.replace(title, part("station").dataset.title);
    title = part("station").dataset.title;
    form.setAttribute("action", action);
    form.dataset.echo = asks;
    try { sessionStorage.removeItem(store); } catch (none) { /* nothing was stored */ }
    store = "waiting " + new URL(form.action).pathname;
    cautioned();
    scrollTo(0, 0);
  };
  let title = part("station").dataset.title;

  // ---- a question comes up where keys were: a thumb already on its way is no answer ----
  const UNSEEN = 700;
  let askedAt = -UNSEEN;
  const unseen = (pressed) => coarse && pressed.name === "answer" && performance.now() - askedAt < UNSEEN;

  // ---- typing ----
  // A hand that does not look may be lines ahead. What it typed before it could see a question or a refusal goes
  // to the end; ahead of the lines that wait goes only what answers the question or mends the line refused.
  const send = (text, more = {}, shown = "") => {
    const line = { text, more, shown, id: newId() };
    const pressed = Object.keys(more).length > 0, before = Boolean(field.dataset.before);
    delete field.dataset.before;
    if (held === "asked" && !sending) {
      const answers = more.answer || (!before && (!waiting.length || /^\d$/.test(text) || text[0] === "/" || part("asked").dataset.waits === "because"));
      if (!answers && !text && !pressed) return;
      if (answers) { held = ""; waiting.unshift(line); } else { waiting.push(line); trouble = WAITS_ANSWER; }
    } else if (held === "refused" && !before && (pressed || !text || text[0] === "/")) {
      if (!pressed) line.text = text.slice(1);
      held = trouble = "";
      if (pressed || line.text) waiting.unshift(line);
    } else if (held === "refused") waiting.push(line);
    else {
      held = trouble = "";
      if (text || pressed || !waiting.length) waiting.push(line);
    }
    keepWaiting();
    pump();
  };
  const enter = () => {
    const text = field.value.trim();
    field.value = "";
    send(text);
    echoed();
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const pressed = event.submitter || lastPressed;
    lastPressed = null;
    if (pressed && pressed.name && unseen(pressed)) return;
    if (pressed && pressed.name) {
      const more = { [pressed.name]: pressed.value };
      const text = pressed.name === "move" ? field.value.trim() : "";
      if (pressed.name === "move") field.value = "";
      if (pressed.name === "did") {
        const chosen = form.querySelector("input[name=blade]:checked");
        if (chosen) more.blade = chosen.value;
      }
      send(text, more, pressed.name === "did" ? (more.blade || "") + " " + pressed.value : pressed.textContent.trim());
    } else enter();
    if (!coarse) field.focus();
  });
  let lastPressed = null; // for browsers that do not say which button was pressed
  document.addEventListener("click", (event) => { const button = event.target.closest && event.target.closest("button[type=submit]"); if (button && button.form === form) lastPressed = button; }, true);

  // ---- the echo in both units, before Enter ----
  let asked = 0;
  // Asked once the keys rest for a moment: a hand or a gauge that types fast asks once, not for each key.
  const KEYS_REST = 60;
  let resting = 0;
  const echoed = () => {
    const text = field.value.trim(), number = ++asked;
    clearTimeout(resting);
    if (!text) delete field.dataset.before; // what is typed from now on is typed after looking
    if (text && form.elements.at) resting = setTimeout(() => askEcho(text, number), KEYS_REST);
    else echo.textContent = "";
  };
  const askEcho = async (text, number) => {
    const query = new URLSearchParams({ at: form.elements.at.value, sitting: form.elements.sitting.value, text, way: form.elements.way.value, from: form.elements.from.value });
    const unit = form.querySelector("input[name=unit]:checked") || document.querySelector("input[name=unit]:checked");
    if (unit) query.set("unit", unit.value);
    try {
      const answer = await fetch(form.dataset.echo + "?" + query);
      const found = await answer.json();
      if (number === asked) echo.textContent = found.words ? "= " + found.words : "";
    } catch (none) { if (number === asked) echo.textContent = ""; }
  };
  field.addEventListener("input", echoed);

  // ---- how a size is typed in the unit chosen ----
  const typedIn = async (unit) => {
    const address = new URL(location.href);
    address.searchParams.set("unit", unit);
    try {
      const answer = await fetch(address, { headers: { "hx-request": "true" } });
      const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("pattern");
      if (fresh && part("pattern")) part("pattern").replaceWith(document.importNode(fresh, true));
    } catch (none) { /* the echo says in which unit it is read */ }
  };
  document.addEventListener("change", (event) => {
    if (event.target.name === "unit") { echoed(); typedIn(event.target.value); }
    if (event.target.matches("select[data-set]")) changeSitting(new URLSearchParams({ "gauge:feeler blades": event.target.value }));
  });

  // ---- the keypad on screen; the tablet's own keyboard stays away ----
  const coarse = window.matchMedia && matchMedia("(pointer: coarse)").matches;
  const keyboard = () => { if (coarse) field.setAttribute("inputmode", "words" in part("asked").dataset ? "text" : "none"); };
  keyboard();
  form.querySelector(".keypad").addEventListener("click", (event) => {
    const key = event.target.closest("button[data-key]");
    if (!key) return;
    field.value = key.dataset.key === "back" ? field.value.slice(0, -1) : field.value + key.dataset.key;
    echoed();
  });

  const pad = document.querySelector("#pad");
  pad.addEventListener("click", () => { const shown = form.classList.toggle("with-keypad"); pad.setAttribute("aria-expanded", String(shown)); });

  // ---- keys from anywhere, and bursts from a gauge that types like a keyboard ----
  const BURST = 50, LEAST = 4;
  let burst = [], lastKey = 0;
  const writes = (element) => element && (element.tagName === "TEXTAREA" || element.tagName === "SELECT" || (element.tagName === "INPUT" && !["radio", "checkbox", "submit", "button"].includes(element.type)));
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const now = performance.now(), quick = now - lastKey < BURST;
    lastKey = now;
    if (event.key.length === 1) {
      burst = quick ? [...burst, event.key] : [event.key];
      const focus = document.activeElement;
      if (focus !== field && !writes(focus) && /[0-9.,+\-*/]/.test(event.key)) {
        event.preventDefault();
        field.value += event.key;
        field.focus();
        echoed();
      }
      return;
    }
    if ((event.key === "Enter" || event.key === "Tab") && quick && burst.length >= LEAST && document.activeElement !== field) {
      event.preventDefault();
      const typed = burst.join(""), focus = document.activeElement;
      if (writes(focus) && focus.value && focus.value.endsWith(typed)) focus.value = focus.value.slice(0, -typed.length);
      if (!field.value.endsWith(typed)) field.value = typed;
      burst = [];
      enter();
    } else if (event.key === "Tab" && quick && burst.length >= LEAST) {
      event.preventDefault();
      burst = [];
      enter();
    }
  }, true);

  // ---- one thing of the sitting changed ----
  const changeSitting = async (data, action) => {
    for (const name of ["token", "sitting", "at", "way", "from"]) if (!data.has(name) && form.elements[name]) data.set(name, form.elements[name].value);
    data.set("entry_id", newId());
    try {
      const address = action || form.action.replace("?", "/sitting?");
      const answer = await fetch(address, { method: "POST", body: data, headers: { "hx-request": "true" } });
      show(await answer.text());
      pump();
    } catch (none) {
      part("said").textContent = "Not kept: the bench does not answer. Choose it again when it is back.";
    }
    if (!coarse) field.focus();
  };
  let sittingButton = null;
  document.addEventListener("click", (event) => { const button = event.target.closest && event.target.closest("form[data-sitting] button"); if (button) sittingButton = button; }, true);
  document.addEventListener("submit", (event) => {
    const own = event.target;
    if (!own.matches("form[data-sitting]")) return;
    event.preventDefault();
    const data = new URLSearchParams(new FormData(own));
    const pressed = event.submitter || sittingButton;
    if (pressed && pressed.name) data.set(pressed.name, pressed.value);
    changeSitting(data, own.action);
  });

  document.addEventListener("toggle", (event) => {
    const changes = event.target.closest && event.target.closest(".changes");
    if (changes) changes.classList.toggle("opened", Boolean(changes.querySelector("details[open]")));
  }, true);

  // ---- what others read; what this page wrote itself, its answer showed already ----
  let shown = 0, heard = 0;
  const shows = (from) => { const own = from.getElementById("hidden"); if (own) shown = Math.max(shown, Number(own.dataset.seq)); };
  shows(document);
  document.body.addEventListener("written", (event) => { heard = Math.max(heard, event.detail.seq); refresh(); });
  const refresh = async () => {
    if (heard <= shown || sending || waiting.length || part("asked").dataset.waits) return;
    try {
      const answer = await fetch(location.href, { headers: { "hx-request": "true" } });
      const html = await answer.text();
      if (sending || waiting.length || !answer.ok) return;
      const from = new DOMParser().parseFromString(html, "text/html");
      shows(from);
      for (const id of ["run", "scales"]) { const fresh = from.getElementById(id); if (fresh && part(id)) part(id).replaceWith(document.importNode(fresh, true)); }
    } catch (none) { /* the next news asks again */ }
  };

  // ---- the caution, once per place and sitting ----
  const cautioned = () => {
    const caution = document.querySelector("#caution");
    if (!caution) return;
    const name = "seen " + caution.dataset.once + " " + form.elements.sitting.value;
    const seen = document.querySelector("#seen");
    seen.hidden = false;
    if (sessionStorage.getItem(name)) caution.hidden = true;
    seen.addEventListener("click", () => { sessionStorage.setItem(name, "yes"); caution.hidden = true; if (!coarse) field.focus(); });
  };

  cautioned();
  keepWaiting();
  if (!coarse) field.focus({ preventScroll: true });
})();
