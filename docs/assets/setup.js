// The set-up check: entries of both sides to Python, its findings to the page.  Nothing is judged here.
document.querySelectorAll(".hb-setup").forEach((box) => {
  const MOST_OPTIONS = 200;
  const WORTH_NARROWING = 12;
  const STAMP = "entered";
  const { marks, teaches } = JSON.parse(box.dataset.words);
  const narrow = box.querySelector(".hb-narrow");
  const agree = box.querySelector(".hb-agree");
  let approaches = []; // [slug, airport, title]
  let figures = ""; // of the approach that is chosen, as lines; "" without one
  let missing = ""; // why they are not here, in words
  let wanted = ""; // the approach whose figures were asked for last
  let checked = false; // whether empty entries are errors yet

  const linesOf = (texts) => Object.entries(texts).map((pair) => pair.join("\t")).join("\n");
  const make = (tag, className, ...children) => {
    const element = document.createElement(tag);
    if (className) element.className = className;
    element.append(...children);
    return element;
  };
  const choices = (rows) => [["", "choose"], ...rows].map(([value, words]) => new Option(words, value));

  async function fetched(address) {
    const response = await fetch(new URL(address, root)).catch(() => null);
    if (!response?.ok) throw new Error("they are not on this device, and the network does not give them");
    return response.json();
  }

  async function prepare() {
    approaches = await fetched(box.dataset.list);
    narrow.parentElement.hidden = approaches.length < WORTH_NARROWING;
    offerApproaches("");
  }

  // The approaches in whose airport or title every word stands; what is chosen stays among them.
  function offerApproaches(text) {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    const chosen = approach.value;
    const rows = approaches
      .filter(([slug, airport, title]) => slug === chosen || words.every((word) => `${airport} ${title}`.toLowerCase().includes(word)))
      .slice(0, MOST_OPTIONS);
    approach.replaceChildren(...choices(rows.map(([slug, airport, title]) => [slug, `${airport} ${title}`])));
    approach.value = chosen;
  }

  // Choose an approach of the list: its figures are brought here, and the titles of its airport can be chosen.
  async function choose(slug) {
    const found = approaches.find((row) => row[0] === slug);
    if (found && ![...approach.options].some(({ value }) => value === slug)) approach.add(new Option(`${found[1]} ${found[2]}`, slug));
    approach.value = found ? slug : "";
    figures = "";
    missing = "";
    wanted = approach.value;
    offerTitles(found?.[1]);
    if (!found) return;
    try {
      const texts = await fetched(box.dataset.figures.replace("{}", slug));
      if (wanted === slug) figures = linesOf(texts);
    } catch (error) {
      if (wanted === slug) missing = `The figures of this approach cannot be compared: ${error.message}.`;
    }
  }

  function offerTitles(airport) {
    const titles = approaches.filter((row) => row[1] === airport).map((row) => row[2]);
    for (const field of fields.filter((each) => each.classList.contains("hb-title"))) {
      const chosen = field.value;
      field.replaceChildren(...choices([...new Set(titles), "none of these"].map((title) => [title, title])));
      field.value = chosen;
      if (field.selectedIndex < 0) field.value = "";
    }
  }

  // A link with entries fills in all of them; a link with an approach alone begins anew, unless its entries are here.
  async function begin(link, kept) {
    const whole = link.get("own") === "set-up";
    const same = kept.get("approach") === link.get("approach");
    const from = whole ? link : new Map(link.has("approach") && !same ? onlyOf(kept, "aircraft", "altimeter_unit") : kept);
    if (!whole && link.has("approach")) from.set("approach", link.get("approach"));
    await choose(from.get("approach"));
    fill(from);
    approach.value = wanted;
    for (const field of fields) if (field.selectedIndex < 0) field.value = "";
    if (!whole) today();
    checked = whole;
    if (!whole && from.has(STAMP)) say(`What stands here was entered on ${from.get(STAMP)}. Reset empties it.`);
  }

  const today = () => { day.value = new Date().toISOString().slice(0, 10); };
  const onlyOf = (texts, ...keys) => [...texts].filter(([key]) => keys.includes(key));

  function ask(call, lines) {
    const type = aircraft.selectedOptions[0]?.dataset.figures;
    return call("lpv.setup_form", "run", figures, type ? linesOf(JSON.parse(type)) : "", lines);
  }

  // What is still empty is no error before the reader asks for the answer.
  function errors(words, field) {
    if (field === approach && missing) return missing;
    return checked || field.value.trim() ? words : "";
  }

  function show(of) {
    const [[words]] = of("sentence");
    const found = of("finding");
    const agreed = found.filter(([grave]) => grave === "ok");
    box.querySelector(".hb-sentence").textContent = words;
    box.querySelector(".hb-about").textContent = of("about").flat().join(" ");
    box.querySelector(".hb-found").replaceChildren(...found.filter(([grave]) => grave !== "ok").map(makeFinding));
    agree.hidden = agreed.length === 0;
    agree.querySelector("summary").textContent = "What agrees";
    agree.querySelector("ul").replaceChildren(...agreed.map(([, what, about]) => make("li", "", about ? `${what} · ${about}` : what)));
    return found.length > 0;
  }

  function makeFinding([grave, what, about, chart, computed, why, action, key]) {
    const mark = make("span", "", marks[grave]);
    mark.setAttribute("aria-hidden", "true");
    const head = make("p", "hb-row-head", make("span", "hb-grave", mark, ` ${grave}`), ` ${what}${about ? ` · ${about}` : ""}`);
    const pairs = [["chart", chart], ["computed", computed]].filter(([, text]) => text);
    const list = make("dl", "", ...pairs.map(([name, text]) => make("div", "", make("dt", "", name), make("dd", "", text))));
    const [address, words] = teaches[key] ?? [];
    const link = address ? [make("p", "", Object.assign(make("a", "", words), { href: new URL(address, root) }))] : [];
    const said = [...(why ? [make("p", "", why)] : []), ...(action ? [make("p", "", make("b", "", action))] : [])];
    return make("div", `hb-row hb-${grave}`, head, list, ...said, ...link);
  }

  const linked = (asked) => asked.get("own") === "set-up" || (!asked.has("own") && asked.has("approach"));
  const keep = (_, remember) => remember(`\n${STAMP}\t${new Date().toISOString().slice(0, 16).replace("T", " ")} UTC`);
  const { root, form, fields, fill, compute, typed, say } = handbookForm(box, "set-up", { ask, show, begin, prepare, linked, keep, errors });
  const { approach, aircraft, day } = form.elements;

  form.addEventListener("input", async ({ target }) => {
    if (target === narrow) {
      offerApproaches(narrow.value);
      return;
    }
    if (target === approach) await choose(approach.value);
    typed();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    checked = true;
    compute();
    const wrong = fields.find((field) => field.getAttribute("aria-invalid"));
    (wrong ?? box.querySelector(".hb-sentence")).scrollIntoView({ block: "center" });
    wrong?.focus();
  });
  form.addEventListener("reset", () => {
    checked = false;
    choose("");
    setTimeout(today);
  });
});
