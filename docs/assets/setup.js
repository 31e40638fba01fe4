// The set-up check: entries of both sides to Python, its findings to the page.  Nothing is judged here.
document.querySelectorAll(".hb-setup").forEach((box) => {
  const STAMP = "entered";
  const { marks, teaches } = JSON.parse(box.dataset.words);
  const OPEN = "not compared";
  const [agree, open] = ["agree", "open"].map((name) => box.querySelector(`.hb-${name}`));
  const of = handbookApproaches(box, offerTitles);
  const { prepare, choose, choices } = of;
  const make = (tag, className, ...children) => {
    const element = document.createElement(tag);
    if (className) element.className = className;
    element.append(...children);
    return element;
  };
  function offerTitles(airport) {
    const titles = of.approaches.filter((row) => row[1] === airport).map((row) => row[2]);
    for (const field of fields.filter((each) => each.classList.contains("hb-title"))) {
      const chosen = field.value;
      field.replaceChildren(...choices([...new Set(titles), "none of these"].map((title) => [title, title])));
      field.value = chosen;
      if (field.selectedIndex < 0) field.value = "";
    }
  }

  // A link with entries fills in all of them; a link with an approach alone begins anew, unless its entries are here;
  // without either it begins with the approach and the aircraft last used on this device.
  async function begin(link, kept) {
    const whole = link.get("own") === "set-up";
    const same = kept.get("approach") === link.get("approach");
    const from = whole ? link : new Map(link.has("approach") && !same ? onlyOf(kept, "aircraft", "altimeter_unit") : kept);
    if (!whole && link.has("approach")) from.set("approach", link.get("approach"));
    await choose(from.get("approach") ?? of.slugOf(lastUsed("approach")));
    fill(from);
    approach.value = of.wanted;
    if (!from.has("aircraft")) aircraft.selectedIndex = [...aircraft.options].findIndex(({ text }) => text === lastUsed("aircraft"));
    use("approach", approach.selectedOptions[0]);
    for (const field of fields) if (field.selectedIndex < 0) field.value = "";
    if (!whole) today();
    if (!whole && from.has(STAMP)) say(`What stands here was entered on ${from.get(STAMP)}. Reset empties it.`);
  }

  const today = () => { day.value = new Date().toISOString().slice(0, 10); };
  const onlyOf = (texts, ...keys) => [...texts].filter(([key]) => keys.includes(key));

  function ask(call, entries) {
    return call("lpv.setup.form", "run", of.figures, aircraft.selectedOptions[0]?.dataset.figures ?? "", entries, of.hash);
  }

  function errors(words, field) {
    return field === approach ? of.missing : words;
  }

  // The notice of the approach's data, in which docs/assets/validity.js warns.
  function showHeld([from, until, words]) {
    const there = box.querySelector(".hb-validity");
    if (there?.dataset.from === from && there?.dataset.until === until) return;
    there?.remove();
    if (!from) return;
    const notice = make("p", "hb-validity", words);
    Object.assign(notice.dataset, { from, until, here: "" });
    box.querySelector(".hb-sentence").before(notice);
    dispatchEvent(new Event("hb-notice"));
  }

  function show({ sentence, about, held, findings }) {
    showHeld(held);
    const of = (grade) => findings.filter((finding) => finding.grade === grade);
    box.querySelector(".hb-sentence").textContent = sentence;
    box.querySelector(".hb-about").textContent = about;
    box.querySelector(".hb-found").replaceChildren(
      ...findings.filter(({ grade }) => grade !== "ok" && grade !== OPEN).map(makeFinding));
    list(agree, "What agrees", of("ok"), ({ what }) => what);
    list(open, "Not compared", of(OPEN), ({ what, why }) => `${what}: ${why}`);
    return findings.length > 0;
  }

  function list(place, title, findings, words) {
    place.hidden = findings.length === 0;
    place.querySelector("summary").textContent = `${title}: ${findings.length}`;
    place.querySelector("ul").replaceChildren(...findings.map((finding) =>
      make("li", "", finding.about ? `${words(finding)} · ${finding.about}` : words(finding))));
  }

  function makeFinding({ grade, what, about, chart, computed, why, action, key }) {
    const mark = make("span", "", marks[grade]);
    mark.setAttribute("aria-hidden", "true");
    const head = make("p", "hb-row-head", make("span", "hb-grade", mark, ` ${grade}`), ` ${what}${about ? ` · ${about}` : ""}`);
    const pairs = [["chart", chart], ["computed", computed]].filter(([, text]) => text);
    const sources = make("dl", "", ...pairs.map(([name, text]) => make("div", "", make("dt", "", name), make("dd", "", text))));
    const [address, words] = teaches[key] ?? [];
    const link = address ? [make("p", "", Object.assign(make("a", "", words), { href: new URL(address, root) }))] : [];
    const said = [...(why ? [make("p", "", why)] : []), ...(action ? [make("p", "", make("b", "", action))] : [])];
    return make("div", `hb-row hb-${grade.replace(" ", "-")}`, head, sources, ...said, ...link);
  }

  const linked = (asked) => asked.get("own") === "set-up" || (!asked.has("own") && asked.has("approach"));
  const keep = (_, remember) => remember([STAMP, `${new Date().toISOString().slice(0, 16).replace("T", " ")} UTC`]);
  const { root, form, fields, fill, compute, typed, say, lastUsed, use } = handbookForm(box, "set-up", { ask, show, begin, prepare, linked, keep, errors });
  const { approach, aircraft, day } = form.elements;

  form.addEventListener("input", async ({ target }) => {
    if (target.classList.contains("hb-narrow")) return;
    if (target === approach) await choose(approach.value);
    if (target === approach || target === aircraft) use(target.name, target.selectedOptions[0]);
    typed();
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    await of.settled();
    compute();
    const wrong = approach.value ? fields.find((field) => field.getAttribute("aria-invalid")) : approach;
    (wrong ?? box.querySelector(".hb-sentence")).scrollIntoView({ block: "center" });
    wrong?.focus();
  });
  form.addEventListener("reset", () => {
    choose("");
    setTimeout(today);
  });
});
