// The list of approaches, narrowed while the reader types: every word must stand in the airport or in the approach.
// A long list is not on the page: it is fetched when the box is used.  Without this script all approaches are reached
// by the links of the page.
(() => {
  const place = document.querySelector(".hb-index .hb-filter");
  if (!place) return;
  const MOST = 60;
  const here = [...document.querySelectorAll(".hb-index > section, .hb-index > h2")];
  const address = place.dataset.list;
  let airports = address ? undefined : readAirports();
  let coming;

  const label = document.createElement("label");
  label.textContent = "Airport, runway, channel or identifier";
  const box = document.createElement("input");
  box.type = "search";
  box.autocomplete = "off";
  box.spellcheck = false;
  label.append(box);
  const said = document.createElement("p");
  said.setAttribute("role", "status");
  const found = document.createElement("div");
  place.append(label, said, found);

  function readAirports() {
    return here.filter((part) => part.matches("section")).map((section) => {
      const head = section.querySelector("h2").textContent;
      const rows = [...section.querySelectorAll("li")].map((row) => ({
        row, text: `${head} ${row.textContent}`.toLowerCase(),
      }));
      return { section, rows };
    });
  }

  // The list as fetched: airport, name, rows of [folder, title, what the crew compares].
  function fetchAirports() {
    coming ??= fetch(address).then((answer) => (answer.ok ? answer.json() : Promise.reject(new Error(answer.status))))
      .then((list) => {
        airports = list.map(([airport, name, rows]) => ({
          head: `${airport} ${name}`,
          rows: rows.map(([slug, title, told]) => ({
            slug, title, told, text: `${airport} ${name} ${title} ${told}`.toLowerCase(),
          })),
        }));
        narrow();
      }, () => {
        coming = undefined;
        said.textContent = "The list could not be fetched. Take the links below.";
      });
  }

  const wordsOf = (text) => text.toLowerCase().split(/\s+/).filter(Boolean);
  const fits = (words) => ({ text }) => words.every((word) => text.includes(word));
  const inSum = (lists) => lists.reduce((sum, { rows }) => sum + rows.length, 0);

  function narrow() {
    const words = wordsOf(box.value);
    if (address) showFetched(words);
    else hideOthers(words);
  }

  function hideOthers(words) {
    let shown = 0;
    for (const { section, rows } of airports) {
      const fitting = rows.filter(fits(words));
      rows.forEach(({ row }) => { row.hidden = true; });
      fitting.forEach(({ row }) => { row.hidden = false; });
      section.hidden = fitting.length === 0;
      shown += fitting.length;
    }
    const all = inSum(airports);
    said.textContent = words.length ? `${shown} of ${all} approaches` : `${all} approaches`;
  }

  function showFetched(words) {
    const narrowed = words.length > 0 && airports !== undefined;
    here.forEach((part) => { part.hidden = narrowed; });
    const fitting = narrowed ? airports.map((airport) => ({ ...airport, rows: airport.rows.filter(fits(words)) })) : [];
    const count = inSum(fitting);
    const all = place.dataset.count;
    said.textContent = !narrowed ? `${all} approaches` : count > MOST
      ? `${count} of ${all} approaches; the first ${MOST} are shown, type more` : `${count} of ${all} approaches`;
    let room = MOST;
    found.replaceChildren(...fitting.filter(({ rows }) => rows.length && room > 0).flatMap((airport) => {
      const rows = airport.rows.slice(0, room);
      room -= rows.length;
      return rows.length ? [section({ ...airport, rows })] : [];
    }));
    if (words.length && airports === undefined) fetchAirports();
  }

  function section({ head, rows }) {
    const part = document.createElement("section");
    const title = document.createElement("h2");
    title.textContent = head;
    const list = document.createElement("ul");
    list.append(...rows.map(({ slug, title: name, told }) => {
      const row = document.createElement("li");
      const link = document.createElement("a");
      link.href = `${slug}/`;
      link.textContent = name;
      row.append(link, ` ${told}`);
      return row;
    }));
    part.append(title, list);
    return part;
  }

  box.addEventListener("focus", () => { if (address && !airports) fetchAirports(); }, { once: true });
  box.addEventListener("input", narrow);
  narrow();
})();
