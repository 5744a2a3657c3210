// Paper: a button that prints; what is kept is forgotten as typed; Enter goes to the next box.
"use strict";
(() => {
  document.querySelectorAll("[data-print]").forEach((button) => {
    button.hidden = false;
    button.addEventListener("click", () => window.print());
  });
  const form = document.querySelector(".paper-form");
  if (!form) return;
  document.querySelectorAll("[data-kept]").forEach((kept) => {
    const name = "typed " + location.pathname + " " + form.dataset.keep + " " + kept.dataset.kept;
    try { sessionStorage.removeItem(name); } catch (none) { /* nothing was remembered */ }
  });
  form.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.target.tagName !== "INPUT" || event.target.type === "submit") return;
    event.preventDefault();
    const boxes = Array.from(form.querySelectorAll(".box input[type=text]"));
    const next = boxes[boxes.indexOf(event.target) + 1];
    if (next) next.focus(); else form.querySelector(".take").focus();
  });
})();
