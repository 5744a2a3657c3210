// Oil: ranges beside numbers, the address follows what is moved, new entries come in without disturbing the forms.
"use strict";
(() => {
  const ids = ["oil-now", "oil-rest", "oil-readings"];
  const form = () => document.querySelector("#what-if");

  // A range moves its number, a number its range; without script there is only the number.
  const pair = (slider) => [slider.querySelector("input[type=range]"), slider.querySelector("input.number")];
  const ready = (root) => {
    root.querySelectorAll("[data-slider]").forEach((slider) => { slider.querySelector(".oil-range").hidden = false; });
    if (!form()) return;
    form().classList.add("live");
    // On a narrow screen the answer is near: the sliders are folded until somebody moves one.
    const sliders = form().querySelector(".oil-move");
    if (window.matchMedia("(max-width: 44rem)").matches && !sliders.querySelector(".moved, .wrong")) sliders.open = false;
  };
  const written = (range) => Number(range.value).toFixed((range.step.split(".")[1] || "").length);
  const mark = (slider, number) => {
    if (slider.dataset.now !== undefined) slider.classList.toggle("moved", number.value.trim() !== slider.dataset.now);
  };
  let moving = false;
  const begin = () => { if (!moving) { history.pushState(null, "", location.href); moving = true; } };
  document.addEventListener("input", (event) => {
    const slider = event.target.closest("[data-slider]");
    if (!slider) return;
    const [range, number] = pair(slider);
    if (event.target === range) number.value = written(range);
    else if (number.value.trim() !== "" && !Number.isNaN(Number(number.value.replace(",", ".")))) range.value = number.value.replace(",", ".");
    mark(slider, number);
    if (slider.closest("#what-if")) begin();
  }, true);
  document.addEventListener("change", (event) => {
    if (!event.target.closest("#what-if")) return;
    if (event.target.matches("select")) begin();
  }, true);

  // The address always says what is answered: a bookmark, a reload and the way back show the same.
  let resting = 0;
  document.addEventListener("htmx:afterSettle", (event) => {
    if (event.detail.target.id !== "oil-now") return;
    const answer = document.querySelector("#oil-now .oil-answer");
    if (!answer) return;
    history.replaceState(history.state, "", answer.dataset.address);
    clearTimeout(resting);
    resting = setTimeout(() => { moving = false; }, 600);
  });
  window.addEventListener("popstate", () => location.reload());

  // Figures that somebody opened stay open when others come.
  const open = new Map();
  document.addEventListener("toggle", (event) => {
    if (event.target.matches && event.target.matches("#oil-now details[id]")) open.set(event.target.id, event.target.open);
  }, true);
  document.addEventListener("htmx:beforeSwap", (event) => {
    if (event.detail.target.id === "oil-now") document.querySelectorAll("#oil-now details[id]").forEach((each) => open.set(each.id, each.open));
  });
  const reopen = () => open.forEach((is, id) => { const each = document.getElementById(id); if (each) each.open = is; });
  document.addEventListener("htmx:afterSwap", (event) => { if (event.detail.target.id === "oil-now") reopen(); });

  // A bench that does not answer a slider: the figures shown are to what was moved before.
  const silent = document.querySelector("#no-answer");
  const lost = (event) => {
    if (event.target !== form()) return;
    silent.textContent = "The bench did not answer: the figures shown are to what was moved before.";
    silent.hidden = false;
  };
  document.addEventListener("htmx:sendError", lost);
  document.addEventListener("htmx:timeout", lost);

  // New entries: the parts that follow from them are asked for anew; what is typed and moved stays.
  let asking = null;
  document.body.addEventListener("written", () => {
    const all = document.querySelector("#oil-all");
    if (!all || all.dataset.state !== "ready") return;
    if (asking) asking.abort();
    asking = new AbortController();
    fetch(location.href, { signal: asking.signal, headers: { accept: "text/html" } })
      .then((answer) => { if (!answer.ok) throw new Error(answer.status); return answer.text(); })
      .then((text) => {
        const page = new DOMParser().parseFromString(text, "text/html");
        document.querySelectorAll("#oil-now details[id]").forEach((each) => open.set(each.id, each.open));
        ids.forEach((id) => {
          const here = document.getElementById(id), fresh = page.getElementById(id);
          if (!here || !fresh || here.innerHTML === fresh.innerHTML) return;
          here.replaceChildren(...document.importNode(fresh, true).childNodes);
          htmx.process(here);
        });
        reopen();
      })
      .catch(() => { /* asked again with the next entry */ });
  });

  // The rotors turn with their slider.
  document.addEventListener("htmx:afterSwap", (event) => { if (event.detail.target.id === "oil-all") ready(document); });
  ready(document);
})();
