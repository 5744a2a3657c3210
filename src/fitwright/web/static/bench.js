// After a reading has been kept, the next one is a new entry: give the form a fresh id and an empty field.
"use strict";
document.addEventListener("htmx:afterRequest", (event) => {
  const form = event.target;
  if (!(form instanceof HTMLFormElement) || !event.detail.successful) return;
  const kept = document.querySelector("#answer .said.kept");
  if (!kept) return;
  const main = document.querySelector("form.reading");
  const id = main && main.querySelector("input[name=entry_id]");
  if (id) id.value = Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
  const value = main && main.querySelector("input[name=value]");
  if (value) { value.value = ""; value.focus(); }
});
document.addEventListener("htmx:sendError", () => {
  const answer = document.querySelector("#answer");
  if (answer) answer.textContent = "Not kept: the bench did not answer. What you typed stands in the form; try again.";
});
