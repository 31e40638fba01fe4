// A recording picked on this device: its text to Python, what Python answers to the page.  Nothing is judged here, and
// nothing is sent.  Kept is only which column of a table is what.
document.querySelectorAll(".hb-own").forEach((box) => {
  const SVG = "http://www.w3.org/2000/svg";
  const HEAD = 100000; // bytes of a table in which its header is looked for
  const MOST_KEPT = 20; // files whose columns are kept
  const { moments, remarks, size } = JSON.parse(box.dataset.words);
  const of = handbookApproaches(box);
  const input = box.querySelector(".hb-file");
  const output = box.querySelector(".hb-sentence");
  const told = box.querySelector(".hb-told");
  const progress = box.querySelector(".hb-progress");
  const columns = box.querySelector(".hb-columns");
  const choices = [...columns.querySelectorAll(".hb-field")].map((row) => row.querySelectorAll("select"));
  const store = `handbook ${new URL("..", document.currentScript.src).pathname} columns`; // several sites can share one host
  let names = ""; // of the columns of the file, as one text
  let run = 0; // which reading is the last one
  let python;
  let checked = false;
  let text = "";

  const make = (tag, className, ...children) => {
    const element = document.createElement(tag);
    if (className) element.className = className;
    element.append(...children);
    return element;
  };
  const part = (name, ...children) => told.querySelector(`.hb-${name}`).replaceChildren(...children);
  const turn = () => new Promise((done) => setTimeout(done));

  function ask(call, entries) {
    python = call;
    return of.asJson(call("lpv.track.form", "check", of.figures, entries));
  }

  // An entry that changed makes what stands below another question's answer.
  function show({ sentence }) {
    clear();
    output.textContent = sentence[0][0];
    return true;
  }

  function clear() {
    run += 1;
    told.hidden = true;
    play();
    progress.textContent = "";
  }

  async function begin(link) {
    await of.choose(link.get("approach") ?? of.slugOf(lastUsed("approach")));
    const { options } = form.elements.aircraft;
    form.elements.aircraft.selectedIndex = Math.max(0, [...options].findIndex(({ text }) => text === lastUsed("aircraft")));
  }

  const errors = (words, field) => {
    if (field === form.elements.approach && of.missing) return of.missing;
    return checked || field.value.trim() ? words : "";
  };

  // Only so much of a file is read as Python takes; its whole size is told to it.
  async function read() {
    clear();
    const mine = run;
    const file = input.files[0];
    output.textContent = "Working.";
    const entries = JSON.stringify(Object.fromEntries([...fields].map(({ name, value }) => [name, value.replace(/\s+/g, " ")])));
    const type = form.elements.aircraft.selectedOptions[0]?.dataset.figures ?? "";
    const bytes = await bytesOf(file, Number(box.dataset.most) + 1);
    const head = [...bytes.slice(0, 8)].map((byte) => byte.toString(16).padStart(2, "0")).join(" ");
    keepColumns();
    let answer = python(
      "lpv.track.form", "begin", of.figures, type, entries, assigned(), file?.name ?? "", String(file?.size ?? 0), head, decoded(bytes), of.hash);
    while (answer.startsWith("working\t")) {
      progress.textContent = answer.split("\t")[1];
      await turn();
      if (mine !== run) return;
      answer = python("lpv.track.form", "step");
    }
    progress.textContent = "";
    tell(answer.split("\n").map((line) => line.split("\t")));
  }

  function decoded(bytes) {
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      return "";
    }
  }

  async function bytesOf(file, most) {
    return new Uint8Array(file ? await file.slice(0, most).arrayBuffer() : 0);
  }

  // A table whose columns have other names than ours: its reader says what they are.
  async function askColumns() {
    const file = input.files[0];
    columns.hidden = true;
    names = "";
    if (!file || !python) return;
    const whole = /\.json$/i.test(file.name);
    const bytes = await bytesOf(file, whole ? Number(box.dataset.most) : HEAD);
    const text = whole ? decoded(bytes) : new TextDecoder("utf-8").decode(bytes);
    const lines = python("lpv.track.form", "columns", file.name, text).split("\n").map((line) => line.split("\t"));
    const found = lines.filter(([kind]) => kind === "column").map(([, name]) => name);
    if (!found.length) return;
    names = found.join("\t");
    const guesses = lines.filter(([kind]) => kind === "guess").map(([, ...pair]) => pair);
    const chosen = new Map(keptColumns()[names] ?? guesses);
    for (const [column, kind] of choices) {
      column.replaceChildren(...[["", "none"], ...found.map((name) => [name, name])].map(([value, words]) => new Option(words, value)));
      const ours = [...kind.options].map(({ value }) => value).find((value) => found.includes(chosen.get(value)));
      if (!ours) continue;
      kind.value = ours;
      column.value = chosen.get(ours);
    }
    columns.hidden = false;
  }

  function pairs() {
    return columns.hidden ? [] : choices.filter(([column]) => column.value).map(([column, kind]) => [kind.value, column.value]);
  }

  const assigned = () => (columns.hidden ? "" : JSON.stringify(Object.fromEntries(pairs())));

  function keptColumns() {
    try {
      const isPair = (pair) => Array.isArray(pair) && pair.length === 2 && pair.every((text) => typeof text === "string");
      const kept = Object.entries(JSON.parse(localStorage.getItem(store)) ?? {});
      return Object.fromEntries(kept.filter(([, pairs]) => Array.isArray(pairs) && pairs.every(isPair)));
    } catch {
      return {}; // nothing is stored, or something else
    }
  }

  function keepColumns() {
    if (!names || columns.hidden) return;
    const others = Object.entries(keptColumns()).filter(([key]) => key !== names);
    try {
      localStorage.setItem(store, JSON.stringify(Object.fromEntries([...others.slice(1 - MOST_KEPT), [names, pairs()]])));
    } catch {
      // nothing can be stored here
    }
  }

  function tell(rows) {
    const all = (kind) => rows.filter(([first]) => first === kind).map(([, ...rest]) => rest);
    output.textContent = all("sentence")[0]?.[0] ?? "";
    all("error").forEach(([key, words]) => {
      const field = form.elements[key];
      field.setAttribute("aria-invalid", "true");
      document.getElementById(`${field.id}-error`).textContent = words;
    });
    part("faults", ...all("fault").map(makeFault));
    part("about", ...all("about").flat());
    part("remarks", ...all("unsure").map(([words]) => make("li", "", words)), ...all("remark").map(makeRemark));
    part("plots", ...makePlots(rows));
    part("verdicts", ...all("verdicts").flat());
    part("others", ...all("other").map(([words]) => make("li", "", words)));
    part("moments", ...makeMoments(rows));
    part("missing", ...all("missing").map(([words]) => `Not recorded, and not assumed met: ${words}.`));
    told.querySelector(".hb-whose").textContent = all("altimeter").flat().join("");
    play(...(all("flight")[0] ?? []));
    text = all("text").map((line) => line.join("\t")).join("\n");
    told.querySelector(".hb-all").hidden = !text;
    told.hidden = false;
  }

  // The player beside the form: it holds the flight that was read, and shows none before.
  function play(flight, end) {
    const player = box.parentElement.querySelector(".hb-live");
    player.hidden = !flight;
    if (!flight) return;
    const held = player.querySelector("[name=flight]");
    const time = player.querySelector("[name=time_s]");
    held.value = flight;
    held.dataset.first = flight;
    time.max = end;
    time.value = 0;
    const controls = player.querySelector("[data-live]");
    if (controls.open) time.dispatchEvent(new Event("input", { bubbles: true }));
    else controls.open = true; // its own script brings the figure and draws it
  }

  function makeFault([place, found, allowed, action]) {
    const list = make("dl", "", ...[["found", found], ["allowed", allowed]].map(([name, words]) => make("div", "", make("dt", "", name), make("dd", "", words))));
    return make("div", "hb-row hb-stop", make("p", "hb-row-head", place || "the file"), list, make("p", "", make("b", "", action)));
  }

  const linkTo = (target) => (target ? [Object.assign(make("a", "", target[1]), { href: new URL(target[0], root) })] : []);

  function makeRemark([key, words]) {
    return make("li", key === "reference" ? "hb-doubt" : "", `${words} `, ...linkTo(remarks[key]));
  }

  function makeMoments(lines) {
    const found = [];
    for (const [kind, ...rest] of lines) {
      if (kind === "moment") found.push(makeMoment(rest));
      if (kind === "item") found.at(-1).lastChild.lastChild.before(make("span", "hb-to", `${rest[0]} ${rest[1]}`));
    }
    return found;
  }

  function makeMoment([mark, distance, altimeter, clock, words, key]) {
    const where = make("td", "", make("b", "", distance), make("br"), ...(altimeter ? [altimeter, make("br")] : []), clock);
    const link = make("span", "hb-to", ...linkTo(moments[key]).flatMap((element) => ["→ ", element]));
    return make("tr", "", where, make("td", "", ...(mark ? [make("b", "", mark), " "] : []), words, " ", link));
  }

  function makePlots(rows) {
    const found = [];
    for (const [kind, look, ...rest] of rows) {
      if (kind === "panel") {
        const drawing = draw("svg", { viewBox: size, role: "img", "aria-label": `${rest[0]}; the moments below say the same in words` });
        found.push(make("figure", `hb-plot hb-plot-${look}`, make("figcaption", "", rest[0]), drawing));
      }
      if (kind === "path") found.at(-1).lastChild.append(draw("path", { d: rest[0], class: `hb-${look}` }));
      if (kind === "word") {
        found.at(-1).lastChild.append(draw("text", { x: rest[0], y: rest[1], class: `hb-${look}` }));
        found.at(-1).lastChild.lastChild.textContent = rest[2];
      }
    }
    return found;
  }

  function draw(tag, attributes) {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    return element;
  }

  const linked = (asked) => asked.has("approach");
  const { root, form, fields, typed, compute, say, lastUsed, use } = handbookForm(box, "flight", { ask, show, begin, prepare: of.prepare, linked, keep: () => {}, errors });

  form.addEventListener("input", async ({ target }) => {
    if (target === form.elements.approach) await of.choose(target.value);
    if (["approach", "aircraft"].includes(target.name)) use(target.name, target.selectedOptions[0]);
    if (columns.contains(target)) {
      clear();
      return;
    }
    if (target === input) {
      clear();
      await askColumns();
      output.textContent = "Press Read it.";
      return;
    }
    if (!target.classList.contains("hb-narrow")) typed();
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    output.textContent = "Working.";
    await of.settled();
    checked = true;
    compute();
    const wrong = fields.find((field) => field.getAttribute("aria-invalid"));
    wrong?.focus();
    if (!wrong) read().catch((error) => { output.textContent = `The file cannot be read: ${error.message}.`; });
  });
  form.addEventListener("reset", () => {
    checked = false;
    columns.hidden = true;
    of.choose("");
  });
  told.querySelector(".hb-copy-all").addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(text);
      say("Text copied.");
    } catch {
      say("This browser does not copy here: select the text below.");
    }
  });
});
