// Drills: the reader's own answer first, then the right one, and a score that stays on this device.
// Which ticks are right stands in the page, worked out by the build; here they are compared, and nothing is sent.
(() => {
  const root = new URL("..", document.currentScript.src);
  const STORE = `handbook ${root.pathname} drills`; // several sites can share one host
  const box = document.querySelector(".hb-score");
  const choices = JSON.parse(box.dataset.choices);
  const nothing = choices.length - 1;
  const grades = JSON.parse(box.dataset.drills); // [name, words, numbers, whether it is of this page]
  const nameOf = (number) => `drill-${String(number).padStart(2, "0")}`;
  const SIGNS = { right: "✓", wrong: "✕", open: "·" };
  const WORDS = { right: "right", wrong: "not right", open: "not done" };
  let keeps = true;
  let held = new Map();

  const make = (tag, attributes = {}, ...children) => {
    const element = Object.assign(document.createElement(tag), attributes);
    element.append(...children);
    return element;
  };

  // name -> {result, ticks}; what is not as written here is passed over.
  function read() {
    const found = new Map();
    try {
      for (const line of (localStorage.getItem(STORE) ?? "").split("\n")) {
        const [name, result, ticks = ""] = line.split("\t");
        if (/^drill-\d+$/.test(name) && (result === "right" || result === "wrong")) found.set(name, { result, ticks: ticks.split(",") });
      }
    } catch {
      keeps = false;
      return held;
    }
    return found;
  }
  held = read();

  function write(change) {
    held = read(); // another tab may have written
    change(held);
    try {
      localStorage.setItem(STORE, [...held].map(([name, { result, ticks }]) => [name, result, ticks.join(",")].join("\t")).join("\n"));
    } catch {
      keeps = false;
    }
    showScore();
  }

  const resultOf = (number) => held.get(nameOf(number))?.result ?? "open";
  const counted = (numbers) => {
    const results = numbers.map(resultOf);
    const done = results.filter((result) => result !== "open").length;
    return `${done} of ${numbers.length} done, ${results.filter((result) => result === "right").length} right`;
  };

  // The score
  const said = make("p");
  said.setAttribute("role", "status");
  const lists = make("div");
  const clear = make("button", { type: "button" });
  const place = make("div", { className: "hb-score" }, lists, said, make("p", {}, clear));
  box.replaceWith(place);

  function showScore() {
    const all = grades.flatMap((grade) => grade[2]);
    said.textContent = `All drills: ${counted(all)}. ${keeps ? "It stays on this device." : "This device keeps no score."}`;
    lists.replaceChildren(...grades.filter((grade) => grade[3] && grade[2].length).flatMap(([name, words, numbers]) => {
      const list = make("ol", {}, ...numbers.map((number) => makeEntry(name, number)));
      list.setAttribute("aria-label", `Drills with ${words}`);
      return [make("p", {}, `${words}: ${counted(numbers)}`), list];
    }));
    clear.hidden = held.size === 0;
    clear.textContent = "Clear the score";
  }

  function makeEntry(grade, number) {
    const name = nameOf(number);
    const result = resultOf(number);
    const sign = make("span", { textContent: ` ${SIGNS[result]}` });
    sign.setAttribute("aria-hidden", "true");
    const here = document.getElementById(name) ? "" : new URL(`practice/${grade}/`, root).href;
    const link = make("a", { href: `${here}#${name}` }, name.slice(6), sign);
    link.setAttribute("aria-label", `Drill ${name.slice(6)}, ${WORDS[result]}`);
    return make("li", { className: `hb-drill-${result}` }, link);
  }

  clear.addEventListener("click", () => {
    if (clear.textContent === "Clear the score") {
      clear.textContent = "Really clear it? Press again";
      return;
    }
    write((all) => all.clear());
    drills.forEach((drill) => drill.reset());
    said.tabIndex = -1;
    said.focus();
  });
  clear.addEventListener("blur", () => { clear.textContent = "Clear the score"; });

  // The drills
  const drills = [...document.querySelectorAll(".hb-own-answer")].map((spot) => {
    const name = spot.dataset.drill;
    const right = JSON.parse(spot.dataset.right); // for each mistake the ticks that name it
    const answer = spot.nextElementSibling;
    const ticks = choices.map((words, index) => make("input", { type: "checkbox", name: `${name}-${index}` }));
    const labels = ticks.map((tick, index) => make("label", {}, tick, ` ${choices[index]}`));
    labels[nothing].className = "hb-nothing";
    const group = make("fieldset", {}, make("legend", { textContent: `Drill ${name.slice(6)}: what is wrong?` }), make("div", { className: "hb-ticks" }, ...labels));
    const show = make("button", { type: "submit", textContent: "Show the answer" });
    const again = make("button", { type: "button", textContent: "Do it again" });
    const result = make("p", { className: "hb-result", tabIndex: -1 });
    result.setAttribute("role", "status");
    const form = make("form", { className: "hb-try", noValidate: true }, group, result, make("p", {}, show, again));

    const ticked = () => ticks.flatMap((tick, index) => (tick.checked ? [index] : []));

    // What is missing, what is too much; nothing of both is right.
    function compare(own) {
      const named = new Set(right.flat());
      const missed = right.filter((items) => !items.some((item) => own.includes(item)));
      const extra = own.filter((item) => item !== nothing && !named.has(item));
      const few = own.length < Math.min(right.length, named.size);
      const empty = own.includes(nothing) !== (right.length === 0);
      return { missed, extra, isRight: !missed.length && !extra.length && !few && !empty };
    }

    function words(own) {
      const { missed, extra, isRight } = compare(own);
      const list = (items) => items.map((item) => choices[item]).join(", ");
      if (isRight) return `✓ Right: ${list(own)}.`;
      const parts = ["✕ Not right."];
      if (!right.length) parts.push("Nothing is wrong here.");
      else if (missed.length) parts.push(`Missed: ${missed.map((items) => items.map((item) => choices[item]).join(" or ")).join("; ")}.`);
      else if (!extra.length) parts.push("There is one more.");
      if (extra.length && right.length) parts.push(`As it should be: ${list(extra)}.`);
      return parts.join(" ");
    }

    function reveal(own) {
      result.textContent = words(own);
      result.className = `hb-result hb-drill-${compare(own).isRight ? "right" : "wrong"}`;
      group.disabled = true;
      show.hidden = true;
      again.hidden = false;
      answer.hidden = false;
    }

    function reset() {
      for (const tick of ticks) tick.checked = false;
      result.textContent = "";
      result.className = "hb-result";
      group.disabled = false;
      show.hidden = false;
      again.hidden = true;
      answer.hidden = true;
      answer.open = false;
    }

    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const own = ticked();
      if (!own.length) {
        result.textContent = "First tick what is wrong, or that nothing is.";
        return;
      }
      reveal(own);
      answer.open = true;
      write((all) => all.set(name, { result: compare(own).isRight ? "right" : "wrong", ticks: own.map((item) => choices[item]) }));
      result.focus();
    });
    again.addEventListener("click", () => {
      write((all) => all.delete(name));
      reset();
      ticks[0].focus();
    });
    // "Nothing is wrong" and a mistake cannot both be meant.
    group.addEventListener("change", ({ target }) => {
      if (target.checked) ticks.forEach((tick, index) => { if ((tick === ticks[nothing]) !== (target === ticks[nothing])) ticks[index].checked = false; });
    });

    reset();
    const before = held.get(name);
    const own = (before?.ticks ?? []).map((each) => choices.indexOf(each)).filter((index) => index >= 0);
    if (own.length) {
      for (const index of own) ticks[index].checked = true;
      reveal(own);
    }
    spot.append(form);
    return { reset };
  });

  showScore();
  // What was put in above it has moved the place that the address names.
  document.getElementById(location.hash.slice(1))?.scrollIntoView();
})();
