// Calculators: texts from the fields to Python, texts from Python to the page.  Nothing is computed here.
(() => {
  const root = new URL("..", document.currentScript.src);
  const NO_ANSWER = "–";
  const asked = new URLSearchParams(location.search);

  document.querySelectorAll(".hb-calculator").forEach((box) => {
    const name = box.dataset.calculator;
    const form = box.querySelector("form");
    const state = box.querySelector(".hb-state");
    const fields = [...form.elements].filter((element) => element.name);
    const sources = [...form.querySelectorAll(".hb-source")];
    const store = `handbook ${root.pathname} calculator ${name}`; // several sites can share one host
    let call;
    let opened;

    const say = (words) => { state.textContent = words; };
    const lines = () => fields.map((field) => `${field.name}\t${field.value.replace(/\s+/g, " ")}`).join("\n");

    async function open() {
      say("Bringing the calculator here: about 300 kB, once.");
      try {
        call = await handbookPython(box.dataset);
        fill(linked() ?? remembered() ?? new Map());
        form.querySelector("fieldset").disabled = false;
        say("");
        compute();
      } catch (error) {
        opened = undefined;
        say(`This form cannot compute here: ${error.message}. The answer below is for the figures shown; the tables of the pages hold as well.`);
      }
    }

    // Figures from a link, as they stand in it: what Python makes of them stands beside the fields.
    function linked() {
      return asked.get("own") === name ? new Map(asked) : null;
    }

    function remembered() {
      try {
        const text = localStorage.getItem(store);
        return text && new Map(text.split("\n").map((line) => line.split("\t")));
      } catch {
        return null; // nothing can be stored here
      }
    }

    function remember() {
      try {
        localStorage.setItem(store, lines());
      } catch {
        // nothing can be stored here
      }
    }

    function fill(texts) {
      for (const field of fields) if (texts.has(field.name)) field.value = texts.get(field.name);
    }

    // Which approach and aircraft the figures are of, or that they are the reader's own.
    const figuresOf = (option) => Object.entries(JSON.parse(option.dataset.figures));
    function showSources() {
      for (const source of sources) {
        const held = figuresOf(source.selectedOptions[0]).every(([key, text]) => form.elements[key].value === text);
        if (!held) source.selectedIndex = source.length - 1;
      }
    }

    function compute() {
      showSources();
      const found = call("lpv.calculators.run", "run", name, lines()).split("\n").map((line) => line.split("\t"));
      const of = (kind) => found.filter(([first]) => first === kind).map(([, ...rest]) => rest);
      const errors = new Map(of("error"));
      fields.forEach((field) => showError(field, errors.get(field.name) ?? ""));
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

    function showError(field, words) {
      document.getElementById(`${field.id}-error`).textContent = words;
      if (words) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
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

    function typed() {
      say("");
      if (compute()) remember();
    }

    form.addEventListener("input", ({ target }) => {
      if (sources.includes(target)) fill(new Map(figuresOf(target.selectedOptions[0])));
      typed();
    });

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

    box.addEventListener("toggle", () => {
      if (box.open) opened ??= open();
    });
    if (linked() || location.hash === `#${box.id}`) {
      box.open = true;
      box.scrollIntoView();
    }
  });
})();
