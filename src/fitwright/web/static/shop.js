// The shop: a form that an address names is open, and what came of a form is where the eye is.
"use strict";
(() => {
  const openNamed = () => {
    const found = location.hash.startsWith("#form-") && document.getElementById(location.hash.slice(1));
    const part = found && found.querySelector("details");
    if (part) part.open = true;
  };
  window.addEventListener("hashchange", openNamed);
  openNamed();
  document.addEventListener("htmx:afterSettle", (event) => {
    const part = event.target.closest && event.target.closest(".enter");
    const said = part && part.querySelector(".said");
    if (said) said.scrollIntoView({ block: "nearest" });
  });
})();
