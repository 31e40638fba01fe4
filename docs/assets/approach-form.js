// The form of an approach file: texts of its entries to Python, the file and the findings back.  Nothing is judged here.
document.querySelectorAll(".hb-write").forEach((box) => {
  const root = new URL("..", document.querySelector('script[src*="assets/python.js"]').src);
  const MODULE = "lpv.compose.form";
  const STORE = `handbook ${root.pathname} approach file`;
  const WAIT_MS = 400;
  const OPEN = "not compared";
  const { marks } = JSON.parse(box.dataset.words);
  const form = box.querySelector("form");
  const state = box.querySelector(".hb-state");
  const find = (name) => box.querySelector(`.hb-${name}`);
  const name = find("name");
  const of = handbookApproaches(box);
  let call;
  let opening;
  let carried = "";
  const NONE = { toml: "", file: "", faults: [], findings: [] };
  let answer = NONE;

  const say = (words) => { state.textContent = words; };
  const make = (tag, className, ...children) => {
    const element = document.createElement(tag);
    if (className) element.className = className;
    element.append(...children);
    return element;
  };

  // --- entries

  const places = () => [...form.querySelectorAll("[data-path]")];
  const ticksOf = (place) => [...place.querySelectorAll("input[type=checkbox]")];
  const controlOf = (place) => place.querySelector(".hb-entry :is(input, select, textarea)");

  function textOf(place) {
    const control = controlOf(place);
    return control ? control.value : ticksOf(place).filter(({ checked }) => checked).map(({ value }) => value).join("\n");
  }

  // A word that is no choice is shown among them, so that it is found wrong and not lost.
  function put(place, text) {
    const control = controlOf(place);
    if (!control) {
      const words = text.split("\n").filter(Boolean);
      for (const word of words.filter((each) => !ticksOf(place).some(({ value }) => value === each))) {
        const tick = Object.assign(document.createElement("input"), { type: "checkbox", value: word });
        place.querySelector(".hb-ticks").append(make("label", "hb-other", tick, word));
      }
      for (const tick of ticksOf(place)) tick.checked = words.includes(tick.value);
      return;
    }
    if (control.tagName === "SELECT" && ![...control.options].some(({ value }) => value === text)) control.add(new Option(text, text));
    control.value = text;
  }

  const listOf = (path) => form.querySelector(`.hb-rows[data-list="${CSS.escape(path)}"]`);

  function addRow(path) {
    const list = listOf(path);
    list.append(form.querySelector(`template[data-row="${CSS.escape(path)}"]`).content.cloneNode(true));
    return list.lastElementChild;
  }

  // Paths, ids and names of everything, by where it stands now.
  function number() {
    for (const list of form.querySelectorAll(".hb-rows")) {
      [...list.children].forEach((row, place) => {
        row.querySelector(".hb-number").textContent = place + 1;
        row.setAttribute("aria-label", `${list.dataset.one} ${place + 1}`);
        row.querySelector(".hb-up").disabled = place === 0;
        for (const each of row.querySelectorAll("[data-key]")) each.dataset.path = `${list.dataset.list}[${place + 1}].${each.dataset.key}`;
      });
    }
    for (const place of places()) {
      const id = `${box.id}-${place.dataset.path}`;
      const [label, hint, error] = [":scope > :is(label, b)", ".hb-hint", ".hb-error"].map((which) => place.querySelector(which));
      hint.id = `${id}-hint`;
      error.id = `${id}-error`;
      const control = controlOf(place) ?? place;
      control.setAttribute("aria-describedby", `${hint.id} ${error.id}`);
      if (control === place) {
        label.id = `${id}-label`;
        place.setAttribute("aria-labelledby", label.id);
      } else {
        control.id = id;
        label.htmlFor = id;
      }
    }
  }

  function empty() {
    for (const list of form.querySelectorAll(".hb-rows")) list.replaceChildren();
    for (const place of places()) put(place, "");
    for (const other of form.querySelectorAll(".hb-other")) other.remove();
  }

  // Entries as they come from Python or from the store: [path, text] each.
  function fill(entries) {
    empty();
    for (const [path] of entries) {
      const row = /^(.+)\[(\d{1,3})\]\./.exec(path);
      const list = row && listOf(row[1]);
      while (list && list.children.length < Number(row[2])) addRow(row[1]);
    }
    number();
    const there = new Map(places().map((place) => [place.dataset.path, place]));
    for (const [path, text] of entries) if (there.has(path)) put(there.get(path), text);
  }

  // --- the draft on this device

  function remembered() {
    try {
      const found = JSON.parse(localStorage.getItem(STORE));
      const isText = (text) => typeof text === "string";
      const whole = found.entries.every((pair) => pair.length === 2 && pair.every(isText)) && isText(found.carried) && isText(found.name);
      return whole ? found : undefined;
    } catch {
      return undefined; // nothing is stored, or something else than a draft
    }
  }

  function remember() {
    try {
      localStorage.setItem(STORE, JSON.stringify({ entries: texts(), carried, name: name.value }));
    } catch {
      // nothing can be stored here
    }
  }

  function forget() {
    try {
      localStorage.removeItem(STORE);
    } catch {
      // nothing was stored here
    }
  }

  const texts = () => places().map((place) => [place.dataset.path, textOf(place)]);

  // --- the answer

  function compute() {
    const today = new Date().toISOString().slice(0, 10);
    answer = JSON.parse(call(MODULE, "run", JSON.stringify(texts()), carried, name.value, today));
    show();
  }

  function show() {
    const { sentence, faults, findings, toml } = answer;
    const there = new Map(places().map((place) => [place.dataset.path, place]));
    const words = new Map();
    for (const [path, text] of faults) words.set(path, words.has(path) ? `${words.get(path)} ${text}` : text);
    const isEmpty = ([path]) => there.has(path) && !textOf(there.get(path));
    for (const [path, place] of there) showError(place, textOf(place) ? words.get(path) ?? "" : "");
    const named = answer.name && name.value ? answer.name : "";
    document.getElementById(`${name.id}-error`).textContent = named;
    name.toggleAttribute("aria-invalid", Boolean(named));
    if (named) name.setAttribute("aria-invalid", "true");
    const wrong = faults.filter((fault) => !isEmpty(fault));
    const missing = faults.filter(isEmpty);
    find("sentence").textContent = sentence;
    find("found").replaceChildren(
      ...wrong.map(([path, text]) => makeFault(path, text, there.get(path))),
      ...findings.filter(({ grade }) => grade !== "ok" && grade !== OPEN).map(makeFinding));
    list(find("missing"), "Still missing", missing.map(([path, text]) => [leadTo(path, there.get(path)), `: ${text}`]));
    const of = (grade, say) => findings.filter((finding) => finding.grade === grade).map((finding) => [finding.about ? `${say(finding)} · ${finding.about}` : say(finding)]);
    list(find("not-compared"), "Not compared", of(OPEN, ({ what, why }) => `${what}: ${why}`));
    list(find("agree"), "What agrees", of("ok", ({ what }) => what));
    for (const section of form.querySelectorAll("[data-section]")) {
      const path = section.dataset.section;
      const nested = [...form.querySelectorAll("[data-section]")].map((other) => other.dataset.section)
        .filter((other) => other.startsWith(`${path}.`));
      const within = (key, inner) => key === inner || key.startsWith(`${inner}.`) || key.startsWith(`${inner}[`);
      const count = faults.filter(([key]) => within(key, path) && !nested.some((inner) => within(key, inner))).length;
      section.querySelector(".hb-count").textContent = count ? `(${count})` : "";
    }
    find("whole-file").querySelector("code").textContent = toml;
  }

  function showError(place, words) {
    const control = controlOf(place) ?? place;
    place.querySelector(".hb-error").textContent = words;
    if (words) control.setAttribute("aria-invalid", "true");
    else control.removeAttribute("aria-invalid");
  }

  function leadTo(path, place) {
    const code = make("code", "", path || "the file");
    if (!place) return code;
    const link = Object.assign(make("a", "", code), { href: `#${box.id}` });
    link.addEventListener("click", (event) => {
      event.preventDefault();
      for (let around = place.parentElement; around && around !== box; around = around.parentElement) if (around.tagName === "DETAILS") around.open = true;
      const control = controlOf(place) ?? ticksOf(place)[0];
      control.scrollIntoView({ block: "center" });
      control.focus();
    });
    return link;
  }

  function list(place, title, rows) {
    place.hidden = rows.length === 0;
    place.querySelector("summary").textContent = `${title}: ${rows.length}`;
    place.querySelector("ul").replaceChildren(...rows.map((row) => make("li", "", ...row)));
  }

  function headOf(grade, ...words) {
    const mark = make("span", "", marks[grade]);
    mark.setAttribute("aria-hidden", "true");
    return make("p", "hb-row-head", make("span", "hb-grade", mark, ` ${grade}`), " ", ...words);
  }

  const makeFault = (path, text, place) => make("div", "hb-row hb-stop", headOf("stop", leadTo(path, place)), make("p", "", text));

  function makeFinding({ grade, what, about, chart, database, computed, why, action }) {
    const pairs = [["chart", chart], ["database", database], ["computed", computed]].filter(([, text]) => text);
    const sources = make("dl", "", ...pairs.map(([side, text]) => make("div", "", make("dt", "", side), make("dd", "", text))));
    const said = [...(why ? [make("p", "", why)] : []), ...(action ? [make("p", "", make("b", "", action))] : [])];
    return make("div", `hb-row hb-${grade}`, headOf(grade, `${what}${about ? ` · ${about}` : ""}`), sources, ...said);
  }

  // --- opening and saving

  function take(text, title, where) {
    const error = document.getElementById(`${box.id}-${where}-error`);
    for (const each of ["file", "paste", "approach"]) document.getElementById(`${box.id}-${each}-error`).textContent = "";
    const found = JSON.parse(call(MODULE, "opened", text));
    if (found.error) {
      error.textContent = found.error;
      return;
    }
    carried = found.carried;
    if (title) name.value = title;
    fill(found.entries);
    say(["Opened.", ...found.told].join(" "));
    remember();
    compute();
  }

  function begin() {
    form.querySelector("fieldset").disabled = false;
    const draft = remembered();
    try {
      if (draft) start(draft, "Your draft, as this device kept it.");
    } catch {
      forget(); // a draft that cannot be read
    }
    if (!answer.file) start({ ...JSON.parse(call(MODULE, "started")), name: "" }, "");
  }

  function start({ entries, carried: kept, name: named }, words) {
    carried = kept;
    name.value = named;
    fill(entries);
    say(words);
    compute();
  }

  function save() {
    compute();
    const link = Object.assign(document.createElement("a"), {
      href: URL.createObjectURL(new Blob([answer.toml], { type: "application/toml" })), download: answer.file });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href));
    say(answer.faults.length || answer.name
      ? `Saved as ${answer.file}, not finished: the handbook refuses it until what is listed below is done.`
      : `Saved as ${answer.file}. Put it into the folder of approaches, and run lpv crosscheck on it.`);
  }

  async function copy() {
    compute();
    try {
      await navigator.clipboard.writeText(answer.toml);
      say("Text copied.");
    } catch {
      find("whole-file").open = true;
      say("This browser copies nothing: mark the text below, and copy it.");
    }
  }

  async function open() {
    say(box.dataset.bringing);
    try {
      call = await handbookPython(box.dataset);
      await of.prepare().catch(() => {}); // without the list the form works all the same
      begin();
    } catch (error) {
      opening = undefined;
      say(`This form cannot work here: ${error.message}. ${box.dataset.instead}`);
    }
  }

  let waiting;
  form.addEventListener("input", async ({ target }) => {
    if (target.classList.contains("hb-narrow") || target.type === "file") return;
    clearTimeout(waiting);
    if (target.classList.contains("hb-paste")) {
      if (target.value.trim()) waiting = setTimeout(() => take(target.value, "", "paste"), WAIT_MS);
      return;
    }
    if (target === form.elements.approach) {
      await of.choose(target.value);
      const error = document.getElementById(`${box.id}-approach-error`);
      error.textContent = of.missing;
      if (of.figures) take(JSON.parse(of.figures).file, of.wanted, "approach");
      return;
    }
    say("");
    remember();
    waiting = setTimeout(compute, WAIT_MS);
  });
  form.addEventListener("change", async ({ target }) => {
    if (target.type !== "file" || !target.files[0]) return;
    take(await target.files[0].text(), target.files[0].name.replace(/\.toml$/i, ""), "file");
  });
  form.addEventListener("click", ({ target }) => {
    const row = target.closest(".hb-pair");
    if (target.classList.contains("hb-save")) save();
    else if (target.classList.contains("hb-copy")) copy();
    else if (target.dataset.add) {
      const added = addRow(target.dataset.add);
      number();
      added.querySelector(".hb-entry :is(input, select, textarea)").focus();
      remember();
      compute();
    } else if (row && target.matches(".hb-remove, .hb-up")) {
      if (target.classList.contains("hb-remove")) row.remove();
      else row.previousElementSibling?.before(row);
      number();
      remember();
      compute();
    }
  });
  form.addEventListener("reset", () => {
    forget();
    answer = NONE;
    setTimeout(begin); // when the browser has emptied its fields
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  const opens = () => { if (box.open) opening ??= open(); };
  box.addEventListener("toggle", opens);
  if (location.hash === `#${box.id}`) box.open = true;
  setTimeout(opens);
});
