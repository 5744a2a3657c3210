// Assembly: times left count on; the keypad types; after a fastener was taken one is at the next.
"use strict";
(() => {
  // ---- times left, as the page said them, counted on; at their end the page is asked anew ----
  const left = (seconds) => {
    let minutes = Math.ceil(seconds / 60), hours = Math.floor(minutes / 60);
    minutes %= 60;
    if (hours >= 24) {
      hours += minutes > 0 ? 1 : 0;
      const days = Math.floor(hours / 24);
      hours %= 24;
      return hours ? `${days} d ${hours} h` : `${days} d`;
    }
    if (!hours) return `${minutes} min`;
    return minutes ? `${hours} h ${minutes} min` : `${hours} h`;
  };
  const count = () => {
    for (const each of document.querySelectorAll("[data-until]")) {
      const seconds = (Date.parse(each.dataset.until) - Date.now()) / 1000;
      if (seconds > 0) each.textContent = left(seconds);
      else if (!each.dataset.over) {
        each.dataset.over = "yes";
        each.textContent = left(0);
        document.body.dispatchEvent(new CustomEvent("written"));
      }
    }
  };
  setInterval(count, 15000);

  // ---- the number field of a tightening group; the tablet's own keyboard stays away ----
  const coarse = window.matchMedia && matchMedia("(pointer: coarse)").matches;
  const typed = () => document.querySelector("#typed");
  const form = () => document.querySelector("#tighten");
  const asked = () => document.querySelector("#tighten .question");
  const writes = (element) => element && ["INPUT", "TEXTAREA", "SELECT"].includes(element.tagName) && !["radio", "checkbox"].includes(element.type);
  const ready = () => {
    const field = typed();
    if (!field) return;
    if (coarse) field.setAttribute("inputmode", "none");
    else if (!asked()) field.focus({ preventScroll: true });
  };
  const changed = (field) => field.dispatchEvent(new Event("input", { bubbles: true }));
  document.addEventListener("click", (event) => {
    const key = event.target.closest && event.target.closest("#tighten button[data-key]"), field = typed();
    if (!key || !field) return;
    field.value = key.dataset.key === "back" ? field.value.slice(0, -1) : field.value + key.dataset.key;
    changed(field);
  });
  // A wrench that types like a keyboard writes into the field whatever has the focus; it presses no button.
  document.addEventListener("keydown", (event) => {
    const field = typed();
    if (!field || event.ctrlKey || event.metaKey || event.altKey || writes(document.activeElement)) return;
    if (/^[0-9.,-]$/.test(event.key)) field.focus({ preventScroll: true });
  });

  // ---- one line after the other: what is typed before an answer came waits, and goes in order ----
  let busy = null, lines = [], askedAt = -Infinity;
  const UNSEEN = 700; // a thumb already on its way to a key answers no question
  document.addEventListener("click", (event) => {
    const answer = event.target.closest && event.target.closest("#tighten .question button");
    if (answer && coarse && performance.now() - askedAt < UNSEEN) { event.preventDefault(); event.stopImmediatePropagation(); }
  }, true);
  document.addEventListener("submit", (event) => {
    if (event.target !== form() || !busy) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const field = typed(), pressed = event.submitter;
    if (!field || !field.value.trim() || (pressed && pressed.name !== "one")) return;
    lines.push(field.value);
    field.value = "";
  }, true);
  // A line begun while another is on its way goes over into the field of the answer, key by key; while a question or
  // a refusal stands in that field it waits, and comes back when the field is sent.
  let begun = "";
  document.addEventListener("htmx:beforeRequest", (event) => {
    if (event.target !== form()) return;
    const field = typed();
    busy = { text: field ? field.value : "" };
    if (field) field.value = begun;
    begun = "";
  });
  const failed = (event) => {
    if (event.target !== form() || !busy) return;
    const field = typed();
    if (field) { begun = field.value; field.value = busy.text; }
    busy = null;
  };
  document.addEventListener("htmx:sendError", failed);
  document.addEventListener("htmx:timeout", failed);
  document.addEventListener("htmx:beforeSwap", (event) => {
    if (event.detail.target.id === "tighten" && busy && typed()) begun = typed().value;
  });
  document.addEventListener("htmx:afterSwap", (event) => { // in the same breath as the swap: no key falls between
    const field = typed();
    if (event.target !== form() || !busy || !field || !begun) return;
    field.value = begun;
    begun = "";
  });
  const notKept = () => { // a pass is at its end: what was typed beyond it is of no fastener
    const beyond = lines.splice(0).concat(begun || []);
    begun = "";
    if (!beyond.length) return;
    const said = document.createElement("p");
    said.className = "said refused";
    said.textContent = `Typed and not kept: ${beyond.join(", ")}.`;
    document.querySelector("#came").append(said);
  };
  document.addEventListener("htmx:afterSettle", (event) => { // not before: until then the new form would leave the page
    if (!busy || event.target !== form()) return;
    busy = null;
    const field = typed(), refused = document.querySelector("#came .refused");
    if ((asked() || refused) && navigator.vibrate) navigator.vibrate(120);
    if (asked()) {
      askedAt = performance.now();
      asked().focus({ preventScroll: true });
      asked().scrollIntoView({ block: "nearest" });
    }
    if (!field) { notKept(); return; }
    ready();
    if (asked() || refused) { // what waits goes on once this is settled
      if (field.value === field.defaultValue) return;
      begun = field.value;
      field.value = field.defaultValue;
    } else if (lines.length) {
      begun = field.value;
      field.value = lines.shift();
      form().requestSubmit(form().querySelector("button[name=one]"));
    } else if (field.value) changed(field);
  });
  ready();
})();
