// Forms that compute: texts from the fields to Python, texts from Python to the page.  Nothing is computed here.
// What the reader typed of today on this device, for the forms and figures that ask for it again.
const handbookToday = (() => {
  const root = new URL("..", document.currentScript.src);
  const place = (key) => `handbook ${root.pathname} today ${key}`; // several sites can share one host
  const today = () => new Date().toISOString().slice(0, 10);
  const keep = (key, text) => {
    try {
      localStorage.setItem(place(key), `${today()} ${text}`);
    } catch {
      // nothing can be stored here
    }
  };
  const of = (key) => {
    try {
      const [day, text] = (localStorage.getItem(place(key)) ?? "").split(" ");
      return day === today() ? text : "";
    } catch {
      return "";
    }
  };
  return { keep, of };
})();

// What all of them share.  `ask(call, entries)` puts the question to Python, the texts of the fields as JSON, and gives
// an answer as JSON; `show(answer)` puts it into the page; `begin(texts)` fills the fields.
const handbookForm = (() => {
  const root = new URL("..", document.currentScript.src);
  const asked = new URLSearchParams(location.search);
  const ifAnswered = (answered, remember) => { if (answered) remember(); };

  return (box, name, { ask, show, begin, prepare, linked, keep = ifAnswered, errors = (words) => words }) => {
    const form = box.querySelector("form");
    const state = box.querySelector(".hb-state");
    const fields = [...form.elements].filter((element) => element.name);
    const store = `handbook ${root.pathname} calculator ${name}`; // several sites can share one host
    let call;
    let opened;

    const say = (words) => { state.textContent = words; };
    // A figure with more digits than its field shows counts with all of them, as long as nobody changes it.
    const EXACT = "~";
    const shownOf = (text) => text.split(EXACT)[0];
    const textOf = ({ value, dataset }) => (dataset.exact && shownOf(dataset.exact) === value ? dataset.exact : value.replace(/\s+/g, " "));
    const put = (field, text) => {
      field.value = shownOf(text);
      if (text.includes(EXACT)) field.dataset.exact = field.value + text.slice(text.indexOf(EXACT)); // a slider holds a step
      else delete field.dataset.exact;
    };
    const texts = (which = () => true) => fields.filter(which).map((field) => [field.name, textOf(field)]);
    const entries = () => JSON.stringify(Object.fromEntries(texts()));
    const isLinked = () => (linked ? linked(asked) : asked.get("own") === name);

    async function open() {
      say(box.dataset.bringing ?? "Bringing the calculator here: about 300 kB, once.");
      try {
        call = await handbookPython(box.dataset);
        await prepare?.();
        say("");
        // Figures from a link, as they stand in it: what Python makes of them stands beside the fields.
        await (begin ?? fill)(isLinked() ? new Map(asked) : new Map(), remembered() ?? new Map());
        form.querySelector("fieldset").disabled = false;
        compute();
      } catch (error) {
        opened = undefined;
        say(`This form cannot compute here: ${error.message}. ${box.dataset.instead}`);
      }
    }

    function remembered() {
      try {
        const isText = (text) => typeof text === "string";
        return new Map(JSON.parse(localStorage.getItem(store)).filter((pair) => pair.length === 2 && pair.every(isText)));
      } catch {
        return undefined; // nothing is stored, or something else than entries
      }
    }

    function remember(...more) {
      try {
        localStorage.setItem(store, JSON.stringify([...texts(), ...more]));
      } catch {
        // nothing can be stored here
      }
    }

    function fill(first, otherwise = new Map()) {
      const from = first.size ? first : otherwise;
      for (const field of fields) if (from.has(field.name)) put(field, from.get(field.name));
    }

    function compute() {
      const answer = JSON.parse(ask(call, entries()));
      fields.forEach((field) => showError(field, errors(answer.errors?.[field.name] ?? "", field)));
      return show(answer);
    }

    function showError(field, words) {
      document.getElementById(`${field.id}-error`).textContent = words;
      if (words) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }

    function typed() {
      say("");
      keep(compute(), remember);
    }

    form.addEventListener("click", ({ target }) => {
      if (target.classList.contains("hb-sign")) {
        const field = target.parentElement.querySelector("input");
        const text = field.value.trim();
        field.value = /^[-−]/.test(text) ? text.slice(1) : `-${text}`;
        typed();
      }
      if (target.classList.contains("hb-send")) send();
    });

    // What of today is typed in one form is what the others begin with.
    form.addEventListener("change", ({ target }) => {
      if (target.dataset.day && target.type !== "range") handbookToday.keep(target.dataset.day, textOf(target));
    });

    // Fields of today; a dial that cannot hold it stays as it is.
    function fillToday() {
      for (const field of fields.filter(({ dataset }) => dataset.day && handbookToday.of(dataset.day))) {
        const before = textOf(field);
        put(field, handbookToday.of(field.dataset.day));
        if (textOf(field) !== handbookToday.of(field.dataset.day)) put(field, before);
      }
    }

    form.addEventListener("reset", () => {
      try {
        localStorage.removeItem(store);
      } catch {
        // nothing was stored here
      }
      say("");
      setTimeout(() => { // when the fields hold their first figures again
        for (const field of fields) put(field, field.dataset.first ?? field.value);
        compute();
      });
    });

    // A link to this page with these figures.
    async function send() {
      const link = new URL(location.href);
      link.search = new URLSearchParams([["own", name], ...texts((field) => !("ofPage" in field.dataset))]);
      link.hash = box.id;
      try {
        await navigator.clipboard.writeText(link.href);
        say("Link copied.");
      } catch {
        const field = Object.assign(document.createElement("input"), { readOnly: true, value: link.href });
        field.setAttribute("aria-label", "Link to copy");
        state.replaceChildren(field);
        field.select();
      }
    }

    for (const field of fields) {
      if (!field.dataset.exact) continue;
      put(field, field.dataset.exact);
      field.dataset.first = field.dataset.exact;
    }
    const start = () => { if (box.open && !matchMedia("print").matches) opened ??= open(); };
    box.addEventListener("toggle", start);
    if (isLinked() || location.hash === `#${box.id}`) {
      box.open = true;
      box.scrollIntoView();
    }
    setTimeout(start); // the page may have opened it before this script came
    // The approach and the aircraft last used on this device, in any form, by the words of their choice.
    const lastKey = (kind) => `handbook ${root.pathname} last ${kind}`;
    function lastUsed(kind) {
      try {
        return localStorage.getItem(lastKey(kind)) ?? "";
      } catch {
        return ""; // nothing can be stored here
      }
    }

    function use(kind, option) {
      try {
        if (option?.value || option?.dataset.figures) localStorage.setItem(lastKey(kind), option.text);
      } catch {
        // nothing can be stored here
      }
    }

    return { root, form, fields, fill, put, compute, typed, say, textOf, lastUsed, use, fillToday };
  };
})();

// Calculators: figures in, answers and a table out.
document.querySelectorAll("[data-calculator]").forEach((box) => {
  const NO_ANSWER = "–";
  const name = box.dataset.calculator;
  const sources = [...box.querySelectorAll(".hb-source")];
  const figuresOf = (option) => Object.entries(JSON.parse(option.dataset.figures));

  // Which approach and aircraft the figures are of, or that they are the reader's own.
  function showSources() {
    for (const source of sources) {
      const held = figuresOf(source.selectedOptions[0]).every(([key, text]) => textOf(form.elements[key]) === text);
      if (!held) source.selectedIndex = source.length - 1;
    }
  }

  function ask(call, entries) {
    showSources();
    return call("lpv.calculators.run", "run", name, entries);
  }

  function show({ outputs = {}, sentence, problem, rows = [], own }) {
    box.querySelectorAll("[data-output]").forEach((place) => {
      const [text, words] = outputs[place.dataset.output] ?? [NO_ANSWER, ""];
      place.querySelector("dd").textContent = text;
      place.querySelector(".hb-words").textContent = words;
    });
    box.querySelector(".hb-sentence").textContent = sentence ?? problem ?? "Correct the figures that are marked.";
    box.querySelector(".hb-neighbours tbody")?.replaceChildren(...rows.map((cells, place) => makeRow(cells, place === own)));
    return sentence !== undefined;
  }

  function makeRow(cells, own) {
    const row = document.createElement("tr");
    if (own) {
      row.className = "hb-own";
      row.setAttribute("aria-current", "true");
    }
    row.append(...cells.map((text) => Object.assign(document.createElement("td"), { textContent: text })));
    return row;
  }

  // Figures from a link hold; else those kept, else the approach and aircraft last used here; a day is always today.
  function begin(link, kept) {
    fill(link, kept);
    if (link.size) return;
    if (!kept.size) for (const source of sources) recall(source);
    today();
    fillToday();
  }

  function recall(source) {
    const found = [...source.options].findIndex((option) => option.text === lastUsed(source.dataset.kind));
    if (found < 0) return;
    source.selectedIndex = found;
    fill(new Map(figuresOf(source.options[found])));
  }

  function today() {
    for (const field of form.elements) if (field.type === "date") field.value = new Date().toISOString().slice(0, 10);
  }

  const { form, fill, compute, typed, textOf, lastUsed, use, fillToday } = handbookForm(box, name, { ask, show, begin });
  form.addEventListener("reset", () => setTimeout(() => { // after the fields hold their first figures again
    today();
    compute();
  }));
  form.addEventListener("input", ({ target }) => {
    if (sources.includes(target)) {
      fill(new Map(figuresOf(target.selectedOptions[0])));
      use(target.dataset.kind, target.selectedOptions[0]);
    }
    typed();
  });
});

// Scripts that few pages need are brought by the element that needs them.
{
  const root = new URL("..", document.currentScript.src);
  const wanted = new Set([...document.querySelectorAll("[data-script]")].flatMap((place) => place.dataset.script.split(" ")));
  for (const address of wanted) {
    document.head.append(Object.assign(document.createElement("script"), { src: new URL(address, root), async: false }));
  }
}
