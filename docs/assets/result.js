// Results of drills from the address of the page: a table to show or to print.  Nothing is sent or kept.
(() => {
  const box = document.querySelector(".hb-results");
  const { kinds, full } = JSON.parse(box.dataset.drills);
  const score = window.handbookScore;
  const kindOf = (number) => kinds.find((kind) => kind.numbers.includes(number));
  const cell = (tag, text) => Object.assign(document.createElement(tag), { textContent: text });

  function show() {
    const results = (score.decode(location.hash.slice(1)) ?? []).filter(({ number }) => kindOf(number));
    box.querySelector("p").textContent = results.length
      ? `${results.length} drills, ${results.filter((each) => each.points === full).length} right, ${score.mean(results)} of ${full} points on average.`
      : "This address holds no results of drills of this handbook.";
    const body = box.querySelector("tbody");
    body.replaceChildren(...results.map(({ number, points, day }) => {
      const row = document.createElement("tr");
      row.append(cell("td", String(number).padStart(2, "0")), cell("td", kindOf(number).words), cell("td", points),
        cell("td", new Date(day * 86_400_000).toISOString().slice(0, 10)));
      return row;
    }));
    box.querySelector("table").hidden = results.length === 0;
  }
  addEventListener("hashchange", show);
  show();
})();
