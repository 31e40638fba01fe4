// Drills: the reader's own answer first, then the right one; a score, what comes again, and a session, on this device.
// What is right stands in the page, worked out by the build; what an answer is worth is worked out in score.js.
(() => {
  const root = new URL("..", document.currentScript.src);
  const STORE = `handbook ${root.pathname} drills`; // several sites can share one host
  const SESSION = `handbook ${root.pathname} session`;
  const box = document.querySelector(".hb-score");
  const { words, points, kinds } = JSON.parse(box.dataset.drills); // kinds: [{page, words, numbers, minutes, here}]
  const score = window.handbookScore;
  const nothing = words.items.length - 1;
  const nameOf = (number) => `drill-${String(number).padStart(2, "0")}`;
  const numberOf = (name) => Number(name.slice(6));
  const today = () => Math.floor(Date.now() / 86_400_000);
  const SIGNS = { right: "✓", part: "◐", wrong: "✕", open: "·" };
  const WORDS = { right: "right", part: "partly right", wrong: "not right", open: "not done" };
  let keeps = true;

  const make = (tag, attributes = {}, ...children) => {
    const element = Object.assign(document.createElement(tag), attributes);
    element.append(...children);
    return element;
  };
  const resultOf = (earned) => (earned === points.full ? "right" : earned > 0 ? "part" : "wrong");

  // What is kept: number -> {points, step, due, day, own}.  What is not as written here is passed over.
  function read() {
    const found = new Map();
    try {
      for (const line of (localStorage.getItem(STORE) ?? "").split("\n")) {
        const [name, ...cells] = line.split("\t");
        const [earned, step, due, day] = cells.slice(0, 4).map(Number);
        if (!/^drill-\d+$/.test(name) || cells.length !== 5 || ![earned, step, due, day].every(Number.isInteger)) continue;
        found.set(numberOf(name), { points: earned, step, due, day, own: parsed(cells[4]) });
      }
    } catch {
      keeps = false;
      return held;
    }
    return found;
  }
  function parsed(text) {
    try {
      return JSON.parse(text);
    } catch {
      return null;
    }
  }
  let held = new Map();
  held = read();

  function write(change) {
    held = read(); // another tab may have written
    change(held);
    try {
      localStorage.setItem(STORE, [...held].map(([number, { points: earned, step, due, day, own }]) =>
        [nameOf(number), earned, step, due, day, JSON.stringify(own)].join("\t")).join("\n"));
    } catch {
      keeps = false;
    }
    showScore();
  }

  // The score
  const said = make("p");
  said.setAttribute("role", "status");
  const lists = make("div");
  const begin = make("button", { type: "button" });
  const show = make("a", { textContent: "Show the results to an instructor", href: "" });
  const clear = make("button", { type: "button" });
  const place = make("div", { className: "hb-score" }, make("p", {}, begin), lists, said, make("p", {}, show), make("p", {}, clear));
  box.replaceWith(place);

  const done = (numbers) => numbers.filter((number) => held.has(number));
  function counted(numbers) {
    const results = done(numbers).map((number) => held.get(number));
    const right = results.filter((each) => each.points === points.full).length;
    const mean = score.mean(results);
    return `${results.length} of ${numbers.length} done, ${right} right${mean === null ? "" : `, ${mean} of ${points.full} points on average`}`;
  }

  function showScore() {
    const all = kinds.flatMap((kind) => kind.numbers);
    said.textContent = `All drills: ${counted(all)}. ${keeps ? "It stays on this device." : "This device keeps no score."}`;
    lists.replaceChildren(...kinds.filter((kind) => kind.here && kind.numbers.length).flatMap((kind) => {
      const list = make("ol", {}, ...kind.numbers.map((number) => makeEntry(kind.page, number)));
      list.setAttribute("aria-label", `Drills: ${kind.words}`);
      return [make("p", {}, `${kind.words}: ${counted(kind.numbers)}`), list];
    }));
    clear.hidden = held.size === 0;
    clear.textContent = "Clear the score";
    const results = done(all).map((number) => ({ number, points: held.get(number).points, day: held.get(number).day }));
    show.hidden = results.length === 0;
    show.href = `${new URL("practice/result/", root).href}#${score.encode(results)}`;
    const chosen = score.session(points, kinds, held, today());
    begin.textContent = `Begin ${points.session} minutes: ${chosen.length} drills`;
    begin.hidden = chosen.length === 0;
    begin.dataset.session = chosen.join(" ");
  }

  const pageOf = (number) => kinds.find((kind) => kind.numbers.includes(number))?.page;
  const addressOf = (number) => {
    const name = nameOf(number);
    return document.getElementById(name) ? `#${name}` : `${new URL(`practice/${pageOf(number)}/`, root).href}#${name}`;
  };

  function makeEntry(page, number) {
    const result = held.has(number) ? resultOf(held.get(number).points) : "open";
    const sign = make("span", { textContent: ` ${SIGNS[result]}` });
    sign.setAttribute("aria-hidden", "true");
    const link = make("a", { href: addressOf(number) }, nameOf(number).slice(6), sign);
    link.setAttribute("aria-label", `Drill ${nameOf(number).slice(6)}, ${WORDS[result]}`);
    return make("li", { className: `hb-drill-${result}` }, link);
  }

  // A session: the drills that are still to do, in order, kept until this tab is closed.
  function left() {
    try {
      return (sessionStorage.getItem(SESSION) ?? "").split(" ").map(Number).filter((number) => pageOf(number));
    } catch {
      return [];
    }
  }
  function keepLeft(numbers) {
    try {
      sessionStorage.setItem(SESSION, numbers.join(" "));
    } catch {
      // Without it each drill stands alone.
    }
  }
  begin.addEventListener("click", () => {
    const numbers = begin.dataset.session.split(" ").map(Number);
    keepLeft(numbers);
    numbers.forEach((number) => drills.get(number)?.reset());
    write((all) => numbers.forEach((number) => { if (all.has(number)) all.get(number).own = null; }));
    location.href = addressOf(numbers[0]);
  });

  clear.addEventListener("click", () => {
    if (clear.textContent === "Clear the score") {
      clear.textContent = "Really clear it? Press again";
      return;
    }
    write((all) => all.clear());
    keepLeft([]);
    drills.forEach((drill) => drill.reset());
    said.tabIndex = -1;
    said.focus();
  });
  clear.addEventListener("blur", () => { clear.textContent = "Clear the score"; });

  // The parts of an answer
  const chooser = (name, label, options) => {
    const select = make("select", { name }, make("option", { value: "", textContent: `${label}?` }),
      ...options.map((text, index) => make("option", { value: index, textContent: text })));
    select.setAttribute("aria-label", label);
    return select;
  };
  const valueOf = (select) => (select.value === "" ? null : Number(select.value));
  const setTo = (select, value) => { select.value = value === null || value === undefined ? "" : String(value); };

  // Find the error: what is wrong; for each on which side, how serious, and what to do now.
  function findParts(name, answer) {
    const rows = words.items.map((text, index) => {
      const tick = make("input", { type: "checkbox", name: `${name}-${index}` });
      const judge = index === nothing ? null : {
        side: chooser(`${name}-${index}-side`, `${text}: which side`, words.sides),
        severity: chooser(`${name}-${index}-severity`, `${text}: how serious`, words.severities),
        action: chooser(`${name}-${index}-action`, `${text}: what now`, words.actions),
      };
      const more = make("div", { className: "hb-judge", hidden: true }, ...Object.values(judge ?? {}));
      return { tick, judge, more, label: make("label", { className: index === nothing ? "hb-nothing" : "" }, tick, ` ${text}`) };
    });
    const follow = () => rows.forEach(({ tick, more, judge }) => { more.hidden = !judge || !tick.checked; });
    const fields = make("div", { className: "hb-ticks" }, ...rows.flatMap(({ label, more }) => [label, more]));
    fields.addEventListener("change", ({ target }) => {
      // "Nothing is wrong" and a mistake cannot both be meant.
      const none = rows[nothing].tick;
      if (target.checked) rows.forEach(({ tick }) => { if ((tick === none) !== (target === none)) tick.checked = false; });
      follow();
    });
    const numbers = (judge) => Object.fromEntries(Object.entries(judge).map(([key, select]) => [key, valueOf(select)]));
    return {
      asks: "what is wrong?",
      missing: "First tick what is wrong, or that nothing is.",
      fields,
      own() {
        const said = rows.flatMap(({ tick, judge }, item) => (judge && tick.checked ? [{ item, ...numbers(judge) }] : []));
        return rows[nothing].tick.checked || said.length ? { nothing: rows[nothing].tick.checked, said } : null;
      },
      fill(own) {
        rows.forEach(({ tick, judge }, item) => {
          const mine = own?.said?.find?.((each) => each?.item === item);
          tick.checked = item === nothing ? Boolean(own?.nothing) : Boolean(mine);
          for (const [key, select] of Object.entries(judge ?? {})) setTo(select, mine?.[key]);
        });
        follow();
      },
      earned: (own) => score.find(points, answer.mistakes, own),
      explain: (own) => explainFind(answer.mistakes, own),
    };
  }

  const list = (texts, last = " or ") => texts.join(last);
  function explainFind(mistakes, own) {
    if (!mistakes.length) return own.nothing ? "" : "Nothing is wrong here.";
    const parts = mistakes.flatMap((mistake) => {
      const mine = own.said.filter(({ item }) => mistake.items.includes(item));
      const right = `${list(mistake.items.map((item) => words.items[item]))}: ${list(mistake.sides.map((side) => words.sides[side]))}, ` +
        `${words.severities[mistake.severity]}, ${words.actions[mistake.action]}`;
      const whole = mine.some((each) => score.find(points, [mistake], { nothing: false, said: [each] }) === points.full);
      return whole ? [] : [`${mine.length ? "Not judged right" : "Missed"}: ${right}.`];
    });
    const named = new Set(mistakes.flatMap(({ items }) => items));
    const extra = own.said.filter(({ item }) => !named.has(item)).map(({ item }) => words.items[item]);
    if (extra.length) parts.push(`As it should be: ${list(extra, ", ")}.`);
    return parts.join(" ");
  }

  // A number, or one of several choices.
  function numberParts(name, answer) {
    const input = make("input", { type: "text", name, inputMode: "decimal", autocomplete: "off" });
    input.setAttribute("aria-label", `Your answer, ${answer.unit}`);
    const number = () => Number(input.value.trim().replace(",", "."));
    return {
      asks: "your answer",
      missing: "First give a number.",
      fields: make("p", { className: "hb-number" }, input, ` ${answer.unit}`),
      own: () => (input.value.trim() === "" || !Number.isFinite(number()) ? null : { given: number() }),
      fill: (own) => { input.value = Number.isFinite(own?.given) ? String(own.given) : ""; },
      earned: (own) => score.number(points, answer, own.given),
      explain: () => `It is ${answer.text}.`,
    };
  }

  function choiceParts(name, answer) {
    const ticks = answer.choices.map((text, index) => make("input", { type: "radio", name, value: index }));
    return {
      asks: "your answer",
      missing: "First choose one.",
      fields: make("div", { className: "hb-ticks" }, ...ticks.map((tick, index) => make("label", { className: "hb-whole" }, tick, ` ${answer.choices[index]}`))),
      own: () => (ticks.some((tick) => tick.checked) ? { given: ticks.findIndex((tick) => tick.checked) } : null),
      fill: (own) => ticks.forEach((tick, index) => { tick.checked = index === own?.given; }),
      earned: (own) => answer.points[own.given] ?? 0,
      explain: () => `It is ${answer.text}.`,
    };
  }

  // A sequence: it runs, is stopped or ends, and what is wrong and what to do is said.
  const ROW_MS = 900;
  function sequenceParts(name, answer, spot) {
    const rows = [...spot.parentElement.querySelectorAll(`[data-of="${name}"] tbody tr`)];
    const now = make("dl", { className: "hb-shown-now" });
    const run = make("button", { type: "button", textContent: "Run" });
    const one = make("button", { type: "button", textContent: "One step" });
    const stop = make("button", { type: "button", textContent: "Something is wrong" });
    const sign = chooser(`${name}-sign`, "What is wrong", words.signs);
    const remedy = chooser(`${name}-remedy`, "What now", words.remedies);
    const judge = make("div", { className: "hb-judge" }, sign, remedy);
    let at = 0;
    let stopped = null;
    let ended = false;
    let timer = 0;
    const cell = (row, index) => row.cells[index].textContent;
    function draw() {
      rows.forEach((row, index) => { row.hidden = index > at; });
      // What is announced is given where it changes; the last of each is what stands there now.
      const shown = new Map([["NM", cell(rows[at], 0)], ["altimeter", cell(rows[at], 1)], ["course · glidepath", cell(rows[at], 3)]]);
      for (const row of rows.slice(0, at + 1)) {
        const lines = JSON.parse(row.dataset.words);
        if (lines.length) ["source", "level", "lateral", "vertical", "go-around", "clock", "position"].forEach((what) => shown.delete(what));
        for (const line of lines) shown.set(line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 2));
      }
      now.replaceChildren(...[...shown].map(([what, value]) => make("div", {}, make("dt", { textContent: what }), make("dd", { textContent: value }))));
      judge.hidden = stopped === null;
      run.disabled = one.disabled = ended || stopped !== null;
      stop.disabled = stopped !== null || ended;
      run.textContent = timer ? "Hold" : "Run";
    }
    function halt() {
      clearInterval(timer);
      timer = 0;
    }
    function step() {
      if (at < rows.length - 1) at += 1;
      else {
        halt();
        ended = true;
      }
      draw();
      rows[at].parentElement.parentElement.parentElement.scrollTop = 1e6;
    }
    run.addEventListener("click", () => {
      if (timer) halt();
      else timer = setInterval(step, ROW_MS);
      draw();
    });
    one.addEventListener("click", step);
    stop.addEventListener("click", () => {
      halt();
      stopped = at;
      draw();
      sign.focus();
    });
    return {
      asks: "say when something is wrong",
      missing: "First run it: stop it when something is wrong, or let it run to its end.",
      fields: make("div", {}, now, make("p", { className: "hb-keys" }, run, one, stop), judge),
      own: () => (stopped !== null || ended ? { stop: stopped, sign: valueOf(sign), remedy: valueOf(remedy) } : null),
      fill(own) {
        halt();
        const known = own && (own.stop === null || rows[own.stop]);
        stopped = known ? own.stop : null;
        ended = Boolean(known) && own.stop === null;
        at = known ? stopped ?? rows.length - 1 : 0;
        setTo(sign, own?.sign);
        setTo(remedy, own?.remedy);
        draw();
      },
      earned: (own) => score.sequence(points, answer, own),
      explain(own) {
        rows.forEach((row) => { row.hidden = false; });
        if (answer.at === null) return own.stop === null ? "" : "Nothing is wrong here.";
        rows[answer.at].classList.add("hb-first-sign");
        const when = own.stop === null ? "You let it go on." : own.stop < answer.at ? "Nothing was wrong yet." :
          `You stopped ${Math.round(answer.times[own.stop] - answer.times[answer.at])} s after the first sign.`;
        return `${when} From ${cell(rows[answer.at], 0)} NM: ${words.signs[answer.sign]}; ${words.remedies[answer.remedy]}.`;
      },
    };
  }
  const PARTS = { find: findParts, number: numberParts, choice: choiceParts, sequence: sequenceParts };

  // The drills
  const drills = new Map([...document.querySelectorAll(".hb-own-answer")].map((spot) => {
    const name = spot.dataset.drill;
    const number = numberOf(name);
    const right = JSON.parse(spot.dataset.answer);
    const answer = spot.nextElementSibling;
    const parts = PARTS[right.kind](name, right, spot);
    const group = make("fieldset", {}, make("legend", { textContent: `Drill ${name.slice(6)}: ${parts.asks}` }), parts.fields);
    const reveals = make("button", { type: "submit", textContent: "Show the answer" });
    const again = make("button", { type: "button", textContent: "Do it again" });
    const onward = make("a", { className: "hb-onward", hidden: true });
    const result = make("p", { className: "hb-result", tabIndex: -1 });
    result.setAttribute("role", "status");
    const form = make("form", { className: "hb-try", noValidate: true }, group, result, make("p", {}, reveals, again, " ", onward));

    function reveal(own) {
      const earned = parts.earned(own);
      const sign = resultOf(earned);
      const head = { right: "Right", part: "Partly right", wrong: "Not right" }[sign];
      result.textContent = `${SIGNS[sign]} ${head}: ${earned} of ${points.full} points. ${parts.explain(own)}`.trim();
      result.className = `hb-result hb-drill-${sign}`;
      group.disabled = true;
      reveals.hidden = true;
      again.hidden = false;
      answer.hidden = false;
    }

    function reset() {
      parts.fill(null);
      result.textContent = "";
      result.className = "hb-result";
      group.disabled = false;
      reveals.hidden = false;
      again.hidden = true;
      onward.hidden = true;
      answer.hidden = true;
      answer.open = false;
    }

    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const own = parts.own();
      if (!own) {
        result.textContent = parts.missing;
        return;
      }
      const earned = parts.earned(own);
      reveal(own);
      answer.open = true;
      write((all) => all.set(number, { points: earned, ...score.next(points, all.get(number), earned, today()), day: today(), own }));
      const rest = left().filter((each) => each !== number);
      const inSession = left().includes(number);
      keepLeft(rest);
      onward.hidden = !inSession;
      onward.href = rest.length ? addressOf(rest[0]) : new URL("practice/", root).href;
      onward.textContent = rest.length ? `Next: drill ${nameOf(rest[0]).slice(6)}` : "The session is done";
      result.focus();
    });
    again.addEventListener("click", () => {
      write((all) => all.delete(number));
      reset();
      group.querySelector("input, select, button")?.focus();
    });

    reset();
    const own = held.get(number)?.own;
    if (own) {
      try {
        parts.fill(own);
        const mine = parts.own();
        if (mine) reveal(mine);
        else reset();
      } catch {
        reset(); // what another edition kept
      }
    }
    spot.append(form);
    return [number, { reset }];
  }));

  showScore();
  // What was put in above it has moved the place that the address names.
  document.getElementById(location.hash.slice(1))?.scrollIntoView();
})();
