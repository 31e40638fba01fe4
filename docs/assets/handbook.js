// Wide tables can be scrolled with the keyboard.
document.querySelectorAll(".md-typeset__table, .md-typeset__scrollwrap").forEach((box) => {
  box.tabIndex = 0;
});

// The search box is a dialog; say which.
document.querySelector(".md-search")?.setAttribute("aria-label", "Search");

// Data expire: a page says so in words, by this device's clock, online or not.
document.querySelectorAll(".hb-validity").forEach((notice) => {
  const day = /^\d{4}-\d{2}-\d{2}$/;
  const { from, until } = notice.dataset;
  const now = new Date();
  const today = Number.isNaN(now.getTime()) ? "" : now.toISOString().slice(0, 10);
  let warning = "";
  if (!day.test(from) || !day.test(until) || !day.test(today)) {
    warning = "Check the dates yourself: this device cannot tell whether these data are in force.";
  } else if (today >= until) {
    warning = "Out of date: these data ended. Do not use them; take the current cycle.";
  } else if (today < from) {
    warning = "Not yet in force: these data begin later.";
  }
  if (warning) {
    const words = document.createElement("strong");
    words.textContent = warning + " ";
    notice.prepend(words);
    notice.dataset.stale = "";
    notice.setAttribute("role", "note");
  }
});

// The link above a card brings the address to #card, and with that address only the card is printed.
document.querySelectorAll(".hb-print a").forEach((link) => {
  link.addEventListener("click", () => setTimeout(() => window.print()));
});
