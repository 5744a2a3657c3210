// Forms by which something is entered: after one was answered the eye and the reader's cursor go to what came of it.
"use strict";
(() => {
  const entry = document.querySelector("#entry");
  if (!entry) return;
  document.addEventListener("htmx:afterSwap", (event) => {
    if (event.detail.target !== entry) return;
    entry.focus({ preventScroll: true });
    entry.scrollIntoView({ block: "nearest" });
  });
  // A long list of sizes: Enter in a text field sends nothing half filled in, it goes to the next field.
  entry.addEventListener("keydown", (event) => {
    const field = event.target;
    if (event.key !== "Enter" || !field.closest(".serials") || field.tagName !== "INPUT") return;
    event.preventDefault();
    const fields = Array.from(entry.querySelectorAll(".serials input"));
    const next = fields[fields.indexOf(field) + 1];
    (next || entry.querySelector("button.take")).focus();
  });
})();
