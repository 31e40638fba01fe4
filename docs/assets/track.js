// A recording picked on this device: its text to Python, what Python tells of it to the page.  Nothing is judged here,
// nothing is sent, nothing is kept.
document.querySelectorAll(".hb-own").forEach((box) => {
  const SVG = "http://www.w3.org/2000/svg";
  const LONGEST = 200; // characters of a cell that are handed on
  const { moments, remarks, size } = JSON.parse(box.dataset.words);
  const of = handbookApproaches(box);
  const input = box.querySelector(".hb-file");
  const output = box.querySelector(".hb-sentence");
  const told = box.querySelector(".hb-told");
  const progress = box.querySelector(".hb-progress");
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
    progress.textContent = "";
  }

  async function begin(link) {
    await of.choose(link.get("approach"));
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
    const bytes = new Uint8Array(file ? await file.slice(0, Number(box.dataset.most) + 1).arrayBuffer() : 0);
    const head = [...bytes.slice(0, 8)].map((byte) => byte.toString(16).padStart(2, "0")).join(" ");
    const content = decoded(bytes);
    let answer = python(
      "lpv.track.form", "begin", of.figures, type, entries, file?.name ?? "", String(file?.size ?? 0), head, content);
    if (answer === "parse") answer = python("lpv.track.form", "points", trackpoints(content));
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

  // GPX as lines: Python has refused document types and entities before.
  function trackpoints(content) {
    const xml = new DOMParser().parseFromString(content, "text/xml");
    const fault = xml.querySelector("parsererror");
    if (fault) return `xml\t${/line(?: number)? (\d+)/i.exec(fault.textContent)?.[1] ?? ""}`;
    if (xml.documentElement.localName !== "gpx") return `root\t${plain(xml.documentElement.localName)}`;
    const depths = new Map();
    const places = linesOfPoints(content);
    const others = new Map();
    const found = [];
    let count = 0;
    for (const element of xml.getElementsByTagName("*")) {
      const name = element.localName;
      const depth = (depths.get(element.parentNode) ?? 0) + 1;
      depths.set(element, depth);
      found.push(...(name === "trkseg" ? ["seg"] : []), ...(name === "trkpt" ? [point(element, places[count++] ?? 0)] : []));
      if (depth > Number(box.dataset.deepest)) return "deep";
      if (name === "wpt" || name === "rtept") others.set(name, (others.get(name) ?? 0) + 1);
    }
    return [...found, ...[...others].map((pair) => ["other", ...pair].join("\t"))].join("\n");
  }

  const plain = (words) => (words ?? "").replace(/[\t\r\n]/g, " ").slice(0, LONGEST);

  function point(element, line) {
    const child = (name) => [...element.children].filter((each) => each.localName === name).pop()?.textContent.trim();
    const texts = [element.getAttribute("lat"), element.getAttribute("lon"), child("ele"), child("time")];
    return ["pt", line, ...texts.map(plain)].join("\t");
  }

  // The parser does not say where an element stands: the lines with a point's tag, outside of comments.
  function linesOfPoints(content) {
    const blank = (words) => words.replace(/[^\n]/g, " ");
    const bare = content.replace(/<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>/g, blank);
    const places = [];
    bare.split("\n").forEach((row, place) => {
      for (const _ of row.matchAll(/<(?:[\w.-]+:)?trkpt(?=[\s/>]|$)/g)) places.push(place + 1);
    });
    return places;
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
    part("missing", ...all("missing").map(([words]) => `Not recorded, and not taken as met: ${words}.`));
    told.querySelector(".hb-whose").textContent = all("altimeter").flat().join("");
    text = all("text").map((line) => line.join("\t")).join("\n");
    told.querySelector(".hb-all").hidden = !text;
    told.hidden = false;
  }

  function makeFault([place, found, allowed, action]) {
    const list = make("dl", "", ...[["found", found], ["allowed", allowed]].map(([name, words]) => make("div", "", make("dt", "", name), make("dd", "", words))));
    return make("div", "hb-row hb-stop", make("p", "hb-row-head", place || "the file"), list, make("p", "", make("b", "", action)));
  }

  const linkTo = (target) => (target ? [Object.assign(make("a", "", target[1]), { href: new URL(target[0], root) })] : []);

  function makeRemark([key, words]) {
    return make("li", key === "reference" ? "hb-doubt" : "", `${words} `, ...linkTo(remarks[key]));
  }

  function makeMoments(rows) {
    const found = [];
    for (const [kind, ...rest] of rows) {
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
  const { root, form, fields, typed, compute, say } = handbookForm(box, "flight", { ask, show, begin, prepare: of.prepare, linked, keep: () => {}, errors });

  form.addEventListener("input", async ({ target }) => {
    if (target === form.elements.approach) await of.choose(target.value);
    if (target === input) {
      clear();
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
