// The list of approaches, narrowed while the reader types: every word must stand in the airport or in the approach.
// Without this script the list is whole.
(() => {
  const place = document.querySelector(".hb-index .hb-filter");
  if (!place) return;
  const airports = [...document.querySelectorAll(".hb-index section")].map((section) => {
    const head = section.querySelector("h2").textContent;
    const rows = [...section.querySelectorAll("li")].map((row) => ({
      row, text: `${head} ${row.textContent}`.toLowerCase(),
    }));
    return { section, rows };
  });
  const all = airports.reduce((sum, { rows }) => sum + rows.length, 0);

  const label = document.createElement("label");
  label.textContent = "Airport, runway, channel or identifier";
  const box = document.createElement("input");
  box.type = "search";
  box.autocomplete = "off";
  box.spellcheck = false;
  label.append(box);
  const said = document.createElement("p");
  said.setAttribute("role", "status");
  place.append(label, said);

  const narrow = () => {
    const words = box.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const { section, rows } of airports) {
      let here = 0;
      for (const { row, text } of rows) {
        row.hidden = !words.every((word) => text.includes(word));
        if (!row.hidden) here += 1;
      }
      section.hidden = here === 0;
      shown += here;
    }
    said.textContent = words.length ? `${shown} of ${all} approaches` : `${all} approaches`;
  };
  box.addEventListener("input", narrow);
  narrow();
})();
