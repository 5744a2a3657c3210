// On every page: hears of new entries, says when the bench does not answer, keeps what is typed over a reload.
"use strict";
(() => {
  const body = document.body;

  // New entries: a part with hx-trigger="written from:body" asks for itself again. At most one call each REST ms.
  const REST = 700;
  let stream = null, last = 0, waiting = 0, seq = 0, address = body.dataset.live;
  const tell = () => {
    waiting = 0;
    last = Date.now();
    body.dispatchEvent(new CustomEvent("written", { detail: { seq } }));
  };
  const heard = (event) => {
    seq = JSON.parse(event.data).seq;
    address = body.dataset.live.replace(/after=\d+/, "after=" + seq);
    if (!waiting) waiting = setTimeout(tell, Math.max(0, last + REST - Date.now()));
  };
  const listen = () => {
    if (!address || stream || document.hidden || !window.EventSource) return;
    stream = new EventSource(address);
    stream.addEventListener("written", heard);
  };
  const rest = () => { if (stream) stream.close(); stream = null; };
  document.addEventListener("visibilitychange", () => (document.hidden ? rest() : listen()));
  window.addEventListener("pagehide", rest);
  window.addEventListener("pageshow", listen);

  // On a narrow screen the rows of pages scroll: the one that is open is brought into sight.
  document.querySelectorAll(".top nav").forEach((row) => {
    const here = row.querySelector("[aria-current]");
    if (here) row.scrollLeft = here.offsetLeft - row.offsetLeft - (row.clientWidth - here.offsetWidth) / 2;
  });

  // A bench that does not answer: said in place, and everything stays as it is.
  const WORDS = "Not kept, as far as is known here: the bench did not answer. What you typed stands in the form; send it again when the bench is back. It never counts twice.";
  const silent = document.querySelector("#no-answer");
  const failed = (event) => {
    const asked = event.detail && event.detail.requestConfig;
    if (asked && asked.verb === "get") return; // a part that asks for itself does so again
    silent.textContent = WORDS;
    silent.hidden = false;
    silent.scrollIntoView({ block: "nearest" });
  };
  document.addEventListener("htmx:sendError", failed);
  document.addEventListener("htmx:timeout", failed);
  document.addEventListener("htmx:afterRequest", (event) => { if (event.detail.xhr && event.detail.xhr.status) silent.hidden = true; });

  // What is typed into a form with data-keep outlives a reload or a way back; it goes when the form was kept.
  const nameOf = (field) => "typed " + location.pathname + " " + field.form.dataset.keep + " " + field.name;
  const typed = (form) => form.querySelectorAll("input[type=text], input:not([type]), textarea");
  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (form && form.dataset.keep && event.target.name) try { sessionStorage.setItem(nameOf(event.target), event.target.value); } catch (full) { /* then it is not kept */ }
  });
  document.querySelectorAll("form[data-keep]").forEach((form) => {
    typed(form).forEach((field) => {
      const before = field.name && sessionStorage.getItem(nameOf(field));
      if (before && !field.value) field.value = before;
    });
  });
  window.forgetTyped = (form) => typed(form).forEach((field) => field.name && sessionStorage.removeItem(nameOf(field)));
  document.addEventListener("htmx:afterRequest", (event) => {
    const asked = event.detail.requestConfig, form = asked && asked.elt; // what came may have taken the form's place
    if (form && form.dataset.keep && event.detail.xhr.status < 400) window.forgetTyped(form); // a refusal is swapped in too
  });
})();
