// The list of fits: answers while one types, and takes in what others write, without losing one's place.
"use strict";
(() => {
  const form = document.querySelector("form.search");
  const now = () => document.querySelector("#now");
  const hits = document.querySelector("#hits");
  const REST = 220;
  if (!form || !now()) return;
  form.classList.add("live");

  const address = () => {
    const asked = new URLSearchParams();
    new FormData(form).forEach((value, name) => { if (value) asked.set(name, value); });
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
    const focused = document.activeElement && document.activeElement.closest("#now .fit");
    const href = document.activeElement && document.activeElement.getAttribute("href");
    change();
    const same = anchor && document.getElementById(anchor.id);
    if (same && scrollY) scrollBy(0, same.getBoundingClientRect().top - top);
    if (document.activeElement && document.activeElement !== document.body) return;
    const again = focused ? document.querySelector("#" + CSS.escape(focused.id) + " a") : href && [...now().querySelectorAll("a")].find((each) => each.getAttribute("href") === href);
    if (again) again.focus({ preventScroll: true });
  };
  const say = (page) => {
    const words = page.querySelector("#hits").textContent;
    if (hits.textContent !== words) hits.textContent = words;
    hits.className = page.querySelector("#hits").className;
  };
  // Lines that the bench did not draw anew are those that are here already.
  const takeIn = (page) => {
    const jumps = document.querySelector(".jumps");
    const fresh = page.querySelector("#now");
    for (const each of fresh.querySelectorAll(".fit[data-same]")) {
      const here = document.getElementById(each.id);
      if (!here) return false;
      each.replaceWith(document.importNode(here, true));
    }
    if (jumps && jumps.open && fresh.querySelector(".jumps")) fresh.querySelector(".jumps").open = true;
    keeping(() => now().replaceWith(document.adoptNode(fresh)));
    say(page);
    return true;
  };

  // One asks at a time; a later question makes an earlier one pointless.
  let asking = null, waiting = 0;
  const ask = (from) => {
    if (asking) asking.abort();
    const mine = asking = new AbortController();
    return fetched(from, mine.signal)
      .then((page) => (takeIn(page) ? page : fetched(location.href, mine.signal).then((whole) => { takeIn(whole); return whole; })))
      .then((page) => {
        const carried = page.querySelectorAll("form.search input[type=hidden]");
        form.querySelectorAll("input[type=hidden]").forEach((each) => each.remove());
        carried.forEach((each) => form.prepend(document.adoptNode(each)));
        const stations = page.querySelector("form.search select[name=station]"), mineToo = form.elements.station;
        if (stations && mineToo && document.activeElement !== mineToo) mineToo.innerHTML = stations.innerHTML;
        if (asking === mine) asking = null;
      })
      .catch((error) => { if (error.name !== "AbortError" && asking === mine) asking = null; });
  };
  const search = (keep) => {
    clearTimeout(waiting);
    const wanted = address();
    history[keep ? "pushState" : "replaceState"](null, "", wanted);
    ask(wanted);
  };
  form.addEventListener("submit", (event) => { event.preventDefault(); search(true); });
  form.addEventListener("change", (event) => { if (event.target.matches("select")) search(true); });
  form.elements.q.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(search, REST, false);
  });
  window.addEventListener("popstate", () => location.reload());

  // New entries: only the lines that changed are sent.
  document.body.addEventListener("written", () => {
    const at = now().dataset.position;
    if (!at || asking) return;
    const from = new URL(location.href);
    from.searchParams.set("after", at);
    ask(from);
  });
})();
