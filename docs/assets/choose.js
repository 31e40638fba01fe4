// An approach of the site, chosen in a form: the list of all of them, and the record of the one chosen, as JSON text.
// Python reads the record; nothing of it is read here.
const handbookApproaches = (box, chosen = () => {}) => {
  const MOST_OPTIONS = 200;
  const WORTH_NARROWING = 12;
  const root = new URL("..", handbookApproaches.here);
  const select = box.querySelector('[name="approach"]');
  const narrow = box.querySelector(".hb-narrow");
  const found = { approaches: [], figures: "", missing: "", wanted: "", hash: "" }; // [slug, airport, title, hash]; JSON; words; slug; hash

  // Lines of an answer as JSON: the errors by entry, everything else by its kind.
  const asJson = (text) => {
    const rows = text.split("\n").map((line) => line.split("\t"));
    const answer = {};
    for (const [kind, ...rest] of rows) {
      if (kind === "error") (answer.errors ??= {})[rest[0]] = rest[1];
      else (answer[kind] ??= []).push(rest);
    }
    return JSON.stringify(answer);
  };
  const choices = (rows) => [["", "choose"], ...rows].map(([value, words]) => new Option(words, value));

  async function fetched(address) {
    const response = await fetch(new URL(address, root)).catch(() => null);
    const kind = response?.headers.get("content-type") ?? "";
    if (!response?.ok || kind.includes("text/html")) throw new Error("they are not on this device, and the network does not give them");
    return response.text();
  }

  async function prepare() {
    const text = await fetched(box.dataset.list);
    try {
      found.approaches = JSON.parse(text);
    } catch {
      throw new Error("the list of approaches did not arrive whole; try again with network");
    }
    narrow.parentElement.hidden = found.approaches.length < WORTH_NARROWING;
    offer("");
  }

  // The approaches in whose airport or title every word stands; what is chosen stays among them.
  function offer(text) {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    const now = select.value;
    const rows = found.approaches
      .filter(([slug, airport, title]) => slug === now || words.every((word) => `${airport} ${title}`.toLowerCase().includes(word)))
      .slice(0, MOST_OPTIONS);
    select.replaceChildren(...choices(rows.map(([slug, airport, title]) => [slug, `${airport} ${title}`])));
    select.value = now;
  }

  // Choose an approach of the list, and bring its figures here.  What comes of it is there when all that was chosen is.
  let settled = Promise.resolve();
  function choose(slug) {
    settled = Promise.all([settled, bring(slug)]);
    return settled;
  }

  async function bring(slug) {
    const row = found.approaches.find((each) => each[0] === slug);
    if (row && ![...select.options].some(({ value }) => value === slug)) select.add(new Option(`${row[1]} ${row[2]}`, slug));
    select.value = row ? slug : "";
    found.figures = "";
    found.hash = row?.[3] ?? "";
    found.missing = "";
    found.wanted = select.value;
    chosen(row?.[1]);
    if (!row) return;
    try {
      const text = await fetched(`${box.dataset.figures.replace("{}", slug)}?v=${row[3]}`);
      if (found.wanted === slug) found.figures = text;
    } catch (error) {
      if (found.wanted === slug) found.missing = `The figures of this approach cannot be compared: ${error.message}.`;
    }
  }

  // Slug of the approach that a choice was worded so; "" for one that is not in the list.
  const slugOf = (words) => found.approaches.find(([, airport, title]) => `${airport} ${title}` === words)?.[0] ?? "";

  narrow.addEventListener("input", () => offer(narrow.value));
  return Object.assign(found, { prepare, choose, slugOf, settled: () => settled, choices, asJson });
};
handbookApproaches.here = document.currentScript.src;
