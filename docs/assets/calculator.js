// Forms that compute: texts from the fields to Python, texts from Python to the page.  Nothing is computed here.
// What all of them share.  `ask(call, lines)` puts the question to Python and gives lines of text; `show(of)` puts
// what came back into the page, of(kind) being the lines of one kind; `begin(texts)` fills the fields.
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
    const lines = () => fields.map((field) => `${field.name}\t${field.value.replace(/\s+/g, " ")}`).join("\n");
    const isLinked = () => (linked ? linked(asked) : asked.get("own") === name);

    async function open() {
      say("Bringing the calculator here: about 360 kB, once.");
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
        const text = localStorage.getItem(store);
        return text && new Map(text.split("\n").map((line) => line.split("\t")));
      } catch {
        return null; // nothing can be stored here
      }
    }

    function remember(more = "") {
      try {
        localStorage.setItem(store, lines() + more);
      } catch {
        // nothing can be stored here
      }
    }

    function fill(texts, otherwise = new Map()) {
      const from = texts.size ? texts : otherwise;
      for (const field of fields) if (from.has(field.name)) field.value = from.get(field.name);
    }

    function compute() {
      const found = ask(call, lines()).split("\n").map((line) => line.split("\t"));
      const of = (kind) => found.filter(([first]) => first === kind).map(([, ...rest]) => rest);
      const wrong = new Map(of("error"));
      fields.forEach((field) => showError(field, errors(wrong.get(field.name) ?? "", field)));
      return show(of);
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

    form.addEventListener("reset", () => {
      try {
        localStorage.removeItem(store);
      } catch {
        // nothing was stored here
      }
      say("");
      setTimeout(compute); // when the fields hold their first figures again
    });

    // A link to this page with these figures.
    async function send() {
      const link = new URL(location.href);
      link.search = new URLSearchParams([["own", name], ...fields.map((field) => [field.name, field.value.replace(/\s+/g, " ")])]);
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

    const start = () => { if (box.open) opened ??= open(); };
    box.addEventListener("toggle", start);
    if (isLinked() || location.hash === `#${box.id}`) {
      box.open = true;
      box.scrollIntoView();
    }
    setTimeout(start); // the page may have opened it before this script came
    return { root, form, fields, fill, compute, typed, say };
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
      const held = figuresOf(source.selectedOptions[0]).every(([key, text]) => form.elements[key].value === text);
      if (!held) source.selectedIndex = source.length - 1;
    }
  }

  function ask(call, lines) {
    showSources();
    return call("lpv.calculators.run", "run", name, lines);
  }

  function show(of) {
    const outputs = new Map(of("output").map(([key, ...texts]) => [key, texts]));
    box.querySelectorAll("[data-output]").forEach((place) => {
      const [text, words] = outputs.get(place.dataset.output) ?? [NO_ANSWER, ""];
      place.querySelector("dd").textContent = text;
      place.querySelector(".hb-words").textContent = words;
    });
    const [[words] = ["Correct the figures that are marked."]] = [...of("sentence"), ...of("problem")];
    box.querySelector(".hb-sentence").textContent = words;
    box.querySelector(".hb-neighbours tbody")?.replaceChildren(...of("row").map(makeRow));
    return outputs.size > 0;
  }

  function makeRow([mark, ...cells]) {
    const row = document.createElement("tr");
    if (mark) {
      row.className = "hb-own";
      row.setAttribute("aria-current", "true");
    }
    row.append(...cells.map((text) => Object.assign(document.createElement("td"), { textContent: text })));
    return row;
  }

  const { form, fill, typed } = handbookForm(box, name, { ask, show });
  form.addEventListener("input", ({ target }) => {
    if (sources.includes(target)) fill(new Map(figuresOf(target.selectedOptions[0])));
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
