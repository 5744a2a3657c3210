// The unit beside the value follows the gauge.
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
  const silent = document.querySelector("#no-answer");
  const spoken = document.querySelector("#spoken");
  if (silent && spoken) spoken.textContent = silent.textContent;
});
// The form of a fit, once opened, comes into view, its field in reach of a thumb.
document.addEventListener("toggle", (event) => {
  if (event.target.id === "here" && event.target.open) event.target.scrollIntoView({ block: "nearest" });
}, true);
