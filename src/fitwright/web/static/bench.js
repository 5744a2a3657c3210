// The unit beside the value follows the gauge; a bench that does not answer is said in place.
"use strict";
document.addEventListener("change", (event) => {
  const form = event.target.closest("form.reading");
  const unit = form && form.querySelector("#unit");
  if (!unit) return;
  const chosen = (name) => form.querySelector(`select[name=${name}]`)?.selectedOptions[0]?.dataset.unit || "";
  unit.textContent = chosen("instrument") || chosen("place");
  const again = form.querySelector("#unit-again");
  if (again) again.textContent = unit.textContent;
});
document.addEventListener("htmx:sendError", () => {
  const words = "Not kept, as far as is known here: the bench did not answer. What you typed stands in the form; take it again when the bench is back. It never counts twice.";
  const said = document.createElement("div");
  said.className = "said refused";
  said.textContent = words;
  document.querySelector("#answer")?.replaceChildren(said);
  const spoken = document.querySelector("#spoken");
  if (spoken) spoken.textContent = words;
});
