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

  // ---- the keypad on screen; the tablet's own keyboard stays away ----
  const coarse = window.matchMedia && matchMedia("(pointer: coarse)").matches;
  const typed = () => document.querySelector("#typed");
  const ready = () => {
    const field = typed();
    if (!field) return;
    if (coarse) field.setAttribute("inputmode", "none");
    else if (!document.querySelector("#tighten .question")) field.focus();
  };
  document.addEventListener("click", (event) => {
    const key = event.target.closest && event.target.closest("#tighten button[data-key]"), field = typed();
    if (!key || !field) return;
    field.value = key.dataset.key === "back" ? field.value.slice(0, -1) : field.value + key.dataset.key;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  });

  // ---- after a fastener was taken: the eye goes to a question or to the next field ----
  document.addEventListener("htmx:afterSwap", (event) => {
    if (event.detail.target.id !== "tighten") return;
    const asked = document.querySelector("#tighten .question");
    if (asked) { asked.focus({ preventScroll: true }); asked.scrollIntoView({ block: "nearest" }); if (navigator.vibrate) navigator.vibrate(120); }
    else ready();
    if (document.querySelector("#came .refused") && navigator.vibrate) navigator.vibrate(120);
  });
  ready();
})();
