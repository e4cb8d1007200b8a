// The working mode: one row at a time, ticked off; the place is kept in the browser's own storage.
// No network, no libraries. All words and rows are in the page; here they are only shown.
"use strict";
(() => {
  const byId = (id) => document.getElementById(id);
  const data = JSON.parse(byId("hook-data").textContent);
  const sheet = byId("sheet");
  const hook = byId("hook");
  const setup = byId("hook-setup");
  const row = byId("hook-row");
  const HASH = "#at-the-hook";
  const KEY = "loopwright: " + data.title;

  // ---- where things stand: steps are kept in runs, as [what, how often] pairs

  const lengths = new Map();
  function lengthOf(runs) {
    if (!Array.isArray(runs)) return 1;
    if (!lengths.has(runs)) {
      lengths.set(runs, runs.reduce((sum, [node, times]) => sum + lengthOf(node) * times, 0));
    }
    return lengths.get(runs);
  }
  function stepAt(runs, at) {
    for (const [node, times] of runs) {
      const each = lengthOf(node);
      if (at < each * times) return Array.isArray(node) ? stepAt(node, at % each) : node;
      at -= each * times;
    }
    return -1;
  }
  const once = (part) => part.stretches.reduce((sum, one) => sum + lengthOf(one.steps), 0);
  const parts = () => data.sizes[sizeNow()].parts;
  const total = () => parts().reduce((sum, part) => sum + once(part) * part.copies, 0);

  // What stands at a place: its part, which copy of it, its stretch, and how far into each.
  function found(place) {
    for (const part of parts()) {
      const each = once(part);
      if (place < each * part.copies) {
        let within = place % each;
        const done = { part, copy: Math.floor(place / each) + 1, within, each };
        for (const stretch of part.stretches) {
          const length = lengthOf(stretch.steps);
          if (within < length) {
            return { ...done, stretch, into: within, step: data.steps[stepAt(stretch.steps, within)] };
          }
          within -= length;
        }
      }
      place -= each * part.copies;
    }
    return null;
  }

  // ---- what is kept

  let kept = { size: "", terms: "", places: {}, stitches: 0, print: data.print };
  function recall() {
    try {
      const told = JSON.parse(localStorage.getItem(KEY) || "null");
      if (told && typeof told.places === "object" && told.places) kept = { ...kept, ...told };
    } catch (error) {
      byId("hook-unkept").hidden = false;
    }
    if (!data.sizes.some((size) => size.name === kept.size)) kept.size = "";
    if (!(kept.terms in data.lang)) kept.terms = "";
    byId("hook-changed").hidden = kept.print === data.print;
  }
  function keep() {
    try {
      localStorage.setItem(KEY, JSON.stringify(kept));
    } catch (error) {
      byId("hook-unkept").hidden = false;
    }
  }
  const sizeNow = () => Math.max(data.sizes.findIndex((size) => size.name === kept.size), 0);
  function placeNow() {
    const place = Number(kept.places[kept.size]);
    return Number.isSafeInteger(place) ? Math.min(Math.max(place, 0), total()) : 0;
  }

  // ---- what is shown

  function say(id, text) {
    byId(id).textContent = text;
    byId(id).hidden = !text;
  }
  function show() {
    const place = placeNow();
    const here = found(place);
    const told = here ? here.step.told[kept.terms] : null;
    const number = here && here.stretch.first ? here.stretch.first + here.into : 0;
    const part = here ? here.part : parts()[parts().length - 1];
    const which = here && part.copies > 1 ? ` ${here.copy} / ${part.copies}` : "";
    byId("hook-now").lang = data.lang[kept.terms];
    const terms = Object.keys(data.lang).length > 1 ? byId("hook-terms-" + kept.terms).textContent : "";
    say("hook-mine", [data.sizes.length > 1 ? kept.size : "", terms].filter(Boolean).join(", "));
    say("hook-part", (here ? part.name : hook.dataset.finished) + which);
    say("hook-label", told ? told.label.replace("{}", number) : hook.dataset.finished);
    say("hook-text", told ? told.text : hook.dataset.finishedText);
    say("hook-count", told ? told.count : "");
    say("hook-why", here && here.stretch.why ? here.stretch.why[kept.terms] : "");
    byId("hook-about").replaceChildren(...(told ? told.about : []).map((line) => {
      const item = document.createElement("li");
      item.textContent = line;
      return item;
    }));
    const bar = byId("hook-progress");
    bar.max = here ? here.each : 1;
    bar.value = here ? here.within : 1;
    say("hook-far", here ? `${here.within + 1} / ${here.each}` : "");
    byId("hook-enough").hidden = !(here && here.stretch.measured);
    byId("hook-done").disabled = !here;
    byId("hook-back").disabled = place === 0;
    showStitches(here);
    light(here, number);
  }
  function showStitches(here) {
    const goal = here ? here.step.stitches : 0;
    byId("hook-counter").hidden = !(here && here.stretch.first);
    byId("hook-stitches").textContent = kept.stitches;
    say("hook-goal", goal ? `/ ${goal}` : "");
    byId("hook-counter").classList.toggle("full", goal > 0 && kept.stitches >= goal);
  }
  // The row's own group in the drawing; where it is not drawn, that of the row worked the same.
  function light(here, number) {
    const chart = here && number ? here.part.chart : -1;
    byId("hook-charts").hidden = chart < 0;
    for (const one of document.querySelectorAll(".hook-chart")) {
      one.hidden = one.id !== "hook-chart-" + chart;
      for (const group of one.querySelectorAll(".lit")) group.classList.remove("lit");
      if (one.hidden) continue;
      const group = [number, here.step.like]
        .map((row) => one.querySelector(`[data-row="${row}"]`)).find(Boolean);
      byId("hook-like").hidden = !group || group.dataset.row === String(number);
      byId("hook-undrawn").hidden = Boolean(group);
      if (!group) continue;
      group.classList.add("lit");
      const like = byId("hook-like");
      like.textContent = like.dataset.text.replace("{row}", group.dataset.row);
      // The row begins where its number stands.
      const begin = group.querySelector("text") || group;
      const [box, at] = [one.getBoundingClientRect(), begin.getBoundingClientRect()];
      one.scrollTop += at.top + at.height / 2 - box.top - box.height / 2;
      one.scrollLeft += at.left + at.width / 2 - box.left - box.width / 2;
    }
  }

  // ---- what is done

  function go(place) {
    kept.places[kept.size] = Math.min(Math.max(place, 0), total());
    kept.stitches = 0;
    kept.print = data.print;
    byId("hook-changed").hidden = true;
    keep();
    show();
  }
  const done = () => placeNow() < total() && go(placeNow() + 1);
  const back = () => placeNow() > 0 && go(placeNow() - 1);
  function enough() {
    const here = found(placeNow());
    if (here) go(placeNow() + lengthOf(here.stretch.steps) - here.into);
    byId("hook-done").focus();
  }
  function stitch(by) {
    kept.stitches = by === 0 ? 0 : Math.max((Number(kept.stitches) || 0) + by, 0);
    keep();
    showStitches(found(placeNow()));
  }
  // The place of a row by its number, in a part and a copy of it; the beginning of it without one.
  function placeOf(part, copy, number) {
    let place = 0;
    for (const one of parts()) {
      if (one === part) break;
      place += once(one) * one.copies;
    }
    place += once(part) * (Math.min(Math.max(copy, 1), part.copies) - 1);
    let within = 0;
    for (const stretch of part.stretches) {
      const length = lengthOf(stretch.steps);
      const into = number - stretch.first;
      if (stretch.first && into >= 0 && into < length) return place + within + into;
      within += length;
    }
    return place;
  }

  // ---- getting about

  function choose() {
    setup.hidden = false;
    row.hidden = true;
    const size = setup.querySelector(`input[name="size"][value="${sizeNow()}"]`);
    if (size) size.checked = true;
    const terms = byId("hook-choose-" + (kept.terms || hook.dataset.terms));
    if (terms) terms.checked = true;
    byId("hook-setup-title").focus();
  }
  function work() {
    setup.hidden = true;
    row.hidden = false;
    const select = byId("hook-to-part");
    select.replaceChildren(...parts().map((part, index) => new Option(part.name, index)));
    copies();
    show();
    byId("hook-label").focus();
  }
  function copies() {
    const part = parts()[byId("hook-to-part").value];
    byId("hook-to-copies").hidden = part.copies < 2;
    byId("hook-to-copy").max = part.copies;
  }
  function turn() {
    const at = location.hash === HASH;
    const was = !hook.hidden;
    sheet.hidden = at;
    hook.hidden = !at;
    document.documentElement.classList.toggle("at-hook", at);
    if (at && kept.size && kept.terms) work();
    else if (at) choose();
    else if (was) byId("hook-open").focus();
  }

  byId("hook-open").addEventListener("click", () => { location.hash = HASH; });
  byId("hook-close").addEventListener("click", () => {
    history.replaceState(null, "", location.href.split("#")[0]);
    turn();
  });
  byId("hook-choose").addEventListener("click", choose);
  byId("hook-done").addEventListener("click", done);
  byId("hook-back").addEventListener("click", back);
  byId("hook-enough").addEventListener("click", enough);
  byId("hook-stitch").addEventListener("click", () => stitch(1));
  byId("hook-less").addEventListener("click", () => stitch(-1));
  byId("hook-none").addEventListener("click", () => stitch(0));
  byId("hook-to-part").addEventListener("change", copies);
  byId("hook-to").addEventListener("submit", (event) => {
    event.preventDefault();
    const part = parts()[byId("hook-to-part").value];
    go(placeOf(part, Number(byId("hook-to-copy").value), Number(byId("hook-to-row").value)));
    byId("hook-label").focus();
  });
  setup.addEventListener("submit", (event) => {
    event.preventDefault();
    const size = setup.querySelector('input[name="size"]:checked');
    kept.size = data.sizes[size ? Number(size.value) : 0].name;
    kept.terms = setup.querySelector('input[name="terms"]:checked').value;
    kept.stitches = 0;
    keep();
    work();
  });
  document.addEventListener("keydown", (event) => {
    if (hook.hidden || row.hidden || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.target.closest("input, select, summary, .hook-chart")) return;
    const counting = event.target.id === "hook-stitch";
    const act = { ArrowRight: done, ArrowLeft: back }[event.key]
      || (counting && { ArrowUp: () => stitch(1), ArrowDown: () => stitch(-1) }[event.key]);
    if (!act) return;
    event.preventDefault();
    act();
  });
  window.addEventListener("hashchange", turn);

  recall();
  byId("hook-way-in").hidden = false;
  turn();
})();
