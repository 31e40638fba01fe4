// Live figures: texts from the dials to Python; a drawing, its finding and its data back.  Nothing is computed here.
document.querySelectorAll("[data-live]").forEach((box) => {
  const QUIET_MS = 700; // a dial rests so long before its value and the finding are read out
  const name = box.dataset.live;
  const place = box.closest(".hb-live");
  const sources = [...box.querySelectorAll(".hb-source")];
  const told = box.querySelector(".hb-told");
  const refused = new Map(); // what a link asked for and cannot be drawn
  let next;
  let quiet;
  let moved;

  const figuresOf = (option) => Object.entries(JSON.parse(option.dataset.figures));

  const known = (source) => new Map(figuresOf(source.selectedOptions[0]).filter(([, text]) => text !== ""));

  // What a link asks for: Python reads it and says what each dial is to hold.  Else what was used last, and today.
  async function begin(linked) {
    if (!linked.size) {
      for (const source of sources) recall(source);
      fillToday();
      return;
    }
    const call = await handbookPython(box.dataset);
    const answer = JSON.parse(call("lpv.figures.run", "settled", name, JSON.stringify(Object.fromEntries(linked))));
    fill(new Map(Object.entries(answer.texts)));
    for (const [key, words] of Object.entries(answer.refused)) {
      refused.set(key, words);
      form.elements[key].closest("details").open = true;
    }
  }

  function recall(source) {
    const found = [...source.options].findIndex(({ text }) => text === lastUsed(source.dataset.kind));
    if (found < 0) return;
    source.selectedIndex = found;
    fill(known(source));
  }

  // Which approach and aircraft the numbers are of, or that they are the reader's own.
  function showSources() {
    for (const source of sources) {
      const held = figuresOf(source.selectedOptions[0]).every(([key, text]) => isHeld(form.elements[key], text));
      if (!held) source.selectedIndex = source.length - 1;
    }
  }

  // A slider holds the nearest of its steps.
  function isHeld(field, text) {
    const other = field.cloneNode();
    put(other, text);
    return text === "" || textOf(other) === textOf(field);
  }

  function ask(call, entries) {
    showSources();
    return call("lpv.figures.run", "run", name, entries);
  }

  function show({ values, finding, brief, svg, headers, rows, jumps }) {
    box.querySelectorAll(".hb-jump").forEach((button, way) => {
      button.dataset.to = jumps[way];
      button.disabled = jumps[way] === "" && document.activeElement !== button; // the hand that steps keeps its place
    });
    for (const [key, text] of Object.entries(values)) {
      place.querySelectorAll(`[data-value="${key}"]`).forEach((each) => { each.textContent = text; });
      if (form.elements[key].type === "range") form.elements[key].setAttribute("aria-valuetext", text);
    }
    place.querySelector(".hb-finding").textContent = finding;
    place.querySelector(".hb-brief").textContent = brief;
    const drawing = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    place.querySelector(".hb-drawn").replaceChildren(document.adoptNode(drawing));
    write(place.querySelector(".hb-data table"), headers, rows);
  }

  // The table as it stands, with other texts where they differ: the browser has least to work out anew.
  function write(table, headers, rows) {
    const wanted = [headers, ...rows];
    const same = table.rows.length === wanted.length && wanted.every((cells, at) => table.rows[at].cells.length === cells.length);
    if (!same) {
      table.tHead.replaceChildren(rowOf(headers, "th"));
      table.tBodies[0].replaceChildren(...rows.map((cells) => rowOf(cells, "td")));
      return;
    }
    wanted.forEach((cells, at) => cells.forEach((text, column) => {
      const cell = table.rows[at].cells[column];
      if (cell.textContent !== text) cell.textContent = text;
    }));
  }

  function rowOf(cells, kind) {
    const row = document.createElement("tr");
    row.append(...cells.map((text) => Object.assign(document.createElement(kind), { textContent: text })));
    if (kind === "th") for (const cell of row.cells) cell.scope = "col";
    return row;
  }

  const { form, fill, fillToday, lastUsed, use, put, typed, say, textOf } = handbookForm(box, name, {
    ask, show, begin, keep: () => {}, errors: (words, field) => refused.get(field.name) ?? words,
  });

  // The newest numbers are drawn with the next picture of the screen: none is left out, and none waits in a line.
  function redraw() {
    refused.clear();
    next ??= requestAnimationFrame(() => {
      next = undefined;
      typed();
      clearTimeout(quiet);
      quiet = setTimeout(tell, QUIET_MS);
    });
  }

  function tell() {
    const value = moved ? `${moved.labels[0].textContent}: ${moved.getAttribute("aria-valuetext") ?? moved.selectedOptions[0].textContent}. ` : "";
    told.textContent = value + place.querySelector(".hb-finding").textContent;
  }

  form.addEventListener("input", ({ target }) => {
    if (target.name) pause();
    moved = target.name ? target : undefined;
    if (sources.includes(target)) {
      fill(known(target));
      use(target.dataset.kind, target.selectedOptions[0]);
    }
    redraw();
  });

  form.addEventListener("click", ({ target }) => {
    const { step } = target.dataset;
    if (step) {
      moved = target.parentElement.querySelector("input");
      moved.stepUp(Number(step));
      redraw();
    }
    if (target.classList.contains("hb-wide-screen")) widen();
  });

  form.addEventListener("reset", () => {
    refused.clear();
    pause();
    moved = undefined;
    for (const source of sources) source.selectedIndex = 0;
    clearTimeout(quiet);
    quiet = setTimeout(tell, QUIET_MS);
  });

  // A figure that plays: its dial goes on by itself, a few steps at a time.
  const TICK_MS = 500;
  const playing = box.querySelector(".hb-playing");
  const playButton = box.querySelector(".hb-play");
  let ticking;

  function pause() {
    clearInterval(ticking);
    ticking = undefined;
    if (playButton) playButton.textContent = "Play";
  }

  function play(field) {
    if (field.value === field.max) field.value = field.min;
    playButton.textContent = "Pause";
    moved = field;
    ticking = setInterval(() => {
      const before = field.value;
      field.stepUp(Number(playing.querySelector("select").value));
      if (field.value === before || document.hidden) pause();
      redraw();
    }, TICK_MS);
  }

  playing?.addEventListener("click", ({ target }) => {
    const field = form.elements[playing.dataset.plays];
    const goesOn = target === playButton && !ticking;
    if (target.tagName !== "BUTTON") return;
    pause();
    if (goesOn) play(field);
    if (target.dataset.to) {
      put(field, target.dataset.to);
      moved = field;
      redraw();
    }
  });

  // The whole screen for one figure: for an instructor in front of a class.
  const button = box.querySelector(".hb-wide-screen");
  const isWide = () => place.classList.contains("hb-wide");

  function widen() {
    if (isWide()) {
      leave();
      return;
    }
    set(true);
    place.requestFullscreen?.().catch(() => {}); // where it is refused the figure fills the window
  }

  function leave() {
    if (document.fullscreenElement) document.exitFullscreen();
    set(false);
  }

  function set(wide) {
    place.classList.toggle("hb-wide", wide);
    document.documentElement.classList.toggle("hb-one-figure", wide);
    button.textContent = wide ? "Back to the page" : "Full screen";
    if (!wide) place.scrollIntoView();
  }

  document.addEventListener("fullscreenchange", () => { if (!document.fullscreenElement && isWide()) set(false); });
  place.addEventListener("keydown", (event) => { if (event.key === "Escape" && isWide()) leave(); });

  box.addEventListener("toggle", () => {
    place.classList.toggle("hb-open", box.open); // and not `:has()`, which the browser asks again at each redraw
    if (!box.open) { say(""); pause(); }
  });
  if (box.open) {
    place.classList.add("hb-open");
    place.scrollIntoView();
  }
});
