// The list of fits: answers while one types, and takes in what others write, without losing one's place.
"use strict";
(() => {
  const form = document.querySelector("form.search");
  const hits = document.querySelector("#hits");
  const now = () => document.querySelector("#now");
  const REST = 220;
  if (!form || !now()) return;
  form.classList.add("live");

  const address = () => {
    const asked = new URLSearchParams();
    new FormData(form).forEach((value, name) => {
      if (value && !(name === "sort" && value === "sheet")) asked.set(name, value);
    });
    return form.getAttribute("action") + "?" + asked;
  };
  const fetched = (from, signal) =>
    fetch(from, { signal, headers: { accept: "text/html" } })
      .then((answer) => { if (!answer.ok) throw new Error(answer.status); return answer.text(); })
      .then((text) => new DOMParser().parseFromString(text, "text/html"));

  // What one looks at, and what has the focus, stay where they are.
  const keeping = (change) => {
    const anchor = [...document.querySelectorAll("#now .fit")].find((each) => each.getBoundingClientRect().bottom > 0);
    const top = anchor && anchor.getBoundingClientRect().top;
    const active = document.activeElement, fit = active && active.closest("#now .fit");
    const href = active && active.getAttribute("href");
    change();
    const same = anchor && document.getElementById(anchor.id);
    if (same && scrollY) scrollBy(0, same.getBoundingClientRect().top - top);
    if (document.activeElement && document.activeElement !== document.body) return;
    const again = fit ? document.querySelector("#" + CSS.escape(fit.id) + " a")
      : href && [...now().querySelectorAll("a")].find((each) => each.getAttribute("href") === href);
    if (again) again.focus({ preventScroll: true });
  };

  // The same fits in the same order: only what differs is replaced, so that nothing moves.
  const ids = (root) => [...root.querySelectorAll(".fit")].map((each) => each.id).join(" ");
  const PARTS = ".summary, .narrowing, .jumps > *, .station > h2, .station > .list";
  const patched = (fresh) => {
    const here = now(), old = [...here.querySelectorAll(PARTS)], young = [...fresh.querySelectorAll(PARTS)];
    if (ids(here) !== ids(fresh) || old.length !== young.length) return false;
    fresh.querySelectorAll(".fit:not([data-same])").forEach((each) => document.getElementById(each.id).replaceWith(document.importNode(each, true)));
    old.forEach((each, index) => { if (each.outerHTML !== young[index].outerHTML) each.replaceWith(document.importNode(young[index], true)); });
    here.dataset.position = fresh.dataset.position || "";
    return true;
  };
  // Other fits: lines that the bench did not draw anew are those that are here already.
  const replaced = (fresh) => {
    const jumps = document.querySelector(".jumps");
    for (const each of fresh.querySelectorAll(".fit[data-same]")) {
      const here = document.getElementById(each.id);
      if (!here) return false;
      each.replaceWith(document.importNode(here, true));
    }
    if (jumps && jumps.open && fresh.querySelector(".jumps")) fresh.querySelector(".jumps").open = true;
    now().replaceWith(document.adoptNode(fresh));
    return true;
  };
  const takeIn = (page) => {
    const fresh = page.querySelector("#now"), said = page.querySelector("#hits");
    let done = false;
    keeping(() => { done = patched(fresh) || replaced(fresh); });
    if (done && hits.textContent !== said.textContent) hits.textContent = said.textContent;
    if (done) hits.className = said.className;
    return done;
  };
  const takeInForm = (page, all) => {
    const other = page.querySelector("form.search");
    form.querySelectorAll("input[type=hidden]").forEach((each) => each.remove());
    other.querySelectorAll("input[type=hidden]").forEach((each) => form.prepend(document.importNode(each, true)));
    [...form.querySelectorAll("select")].forEach((each) => {
      const same = other.elements[each.name];
      if (same && (all || document.activeElement !== each)) each.innerHTML = same.innerHTML;
    });
    if (all) form.elements.q.value = other.elements.q.value;
  };

  // One asks at a time; a later question makes an earlier one pointless.
  let asking = null, waiting = 0, shown = location.pathname + location.search;
  const ask = (from, all) => {
    if (asking) asking.abort();
    const mine = asking = new AbortController();
    fetched(from, mine.signal)
      .then((page) => (takeIn(page) ? page : fetched(location.href, mine.signal).then((whole) => { takeIn(whole); return whole; })))
      .then((page) => { takeInForm(page, all); if (asking === mine) asking = null; })
      .catch(() => { if (asking === mine) asking = null; });
  };
  const search = (keep) => {
    clearTimeout(waiting);
    shown = address();
    history[keep ? "pushState" : "replaceState"](null, "", shown);
    ask(shown, false);
  };
  form.addEventListener("submit", (event) => { event.preventDefault(); search(true); });
  form.addEventListener("change", (event) => { if (event.target.matches("select")) search(true); });
  form.elements.q.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(search, REST, false);
  });
  window.addEventListener("popstate", () => {
    if (shown === location.pathname + location.search) return; // only another place of the same page
    shown = location.pathname + location.search;
    ask(location.href, true);
  });

  // New entries: only the lines that changed are sent.
  document.body.addEventListener("written", () => {
    const at = now().dataset.position;
    if (!at || asking) return;
    const from = new URL(location.href);
    from.searchParams.set("after", at);
    ask(from.href, false);
  });
})();
