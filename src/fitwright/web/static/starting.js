// Once a form is sent nothing else is asked meanwhile: its answer may lead on to another page.
"use strict";
(() => {
  let sent = false;
  const isForm = (event) => event.target.matches("form");
  document.addEventListener("htmx:beforeRequest", (event) => {
    if (isForm(event)) sent = true;
    else if (sent) event.preventDefault();
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    const answer = event.detail.xhr;
    const asked = event.detail.requestConfig;
    if (asked && asked.elt.matches("form") && !(answer && answer.getResponseHeader("hx-redirect"))) sent = false;
  });
})();
