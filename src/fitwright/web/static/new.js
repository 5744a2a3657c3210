// The questions of a new sheet: those that do not matter are put away, with what was typed in them.
"use strict";
(() => {
  const show = () => {
    const made = document.querySelector("#made");
    if (!made) return;
    const matter = made.dataset.matter.split(" ");
    document.querySelectorAll("[data-question]").forEach((question) => {
      const name = question.dataset.question;
      question.hidden = !matter.includes(name);
      const wrong = made.dataset.wrongAbout === name ? made.dataset.wrong : "";
      const field = question.querySelector("input, select");
      const words = question.querySelector(".wrong");
      const unasked = name === "name" && !field.value; // said when the build is started, not while one types
      if (words.textContent !== wrong && !unasked) words.textContent = wrong;
      if (wrong && !unasked) field.setAttribute("aria-invalid", "true"); else field.removeAttribute("aria-invalid");
    });
  };
  const form = document.querySelector("form[data-keep]");
  const nameOf = (field) => "chosen " + location.pathname + " " + field.name;
  document.addEventListener("change", (event) => {
    if (event.target.matches("form[data-keep] select")) try { sessionStorage.setItem(nameOf(event.target), event.target.value); } catch (full) { /* then it is not kept */ }
  });
  form.querySelectorAll("select").forEach((field) => {
    const before = sessionStorage.getItem(nameOf(field));
    if (before && !field.value) field.value = before;
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    const sent = event.detail;
    if (sent.successful && event.target.matches("form[data-keep]")) document.querySelectorAll("form[data-keep] select").forEach((field) => sessionStorage.removeItem(nameOf(field)));
  });
  document.addEventListener("htmx:afterSettle", show);
  show();
  // What was typed before a reload stands in the form again: look at that.
  document.addEventListener("DOMContentLoaded", () => form.dispatchEvent(new Event("change", { bubbles: true })));
})();
