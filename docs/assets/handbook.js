// Wide tables can be scrolled with the keyboard.
document.querySelectorAll(".md-typeset__table, .md-typeset__scrollwrap").forEach((box) => {
  box.tabIndex = 0;
});

// The search box is a dialog; say which.
document.querySelector(".md-search")?.setAttribute("aria-label", "Search");

// Data expire: a page and its card say so in words, first of all, by this device's clock, online or not.  Dates that
// are none, and a clock that stands before the day the page was built, give the caution instead of nothing.
const isDay = (text) => {
  const time = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(time.getTime()) && time.toISOString().slice(0, 10) === text;
};
const builtOn = (document.querySelector('meta[name="hb-built"]')?.content ?? "").slice(0, 10);
document.querySelectorAll(".hb-validity").forEach((notice) => {
  const { from, until } = notice.dataset;
  const now = new Date();
  const today = Number.isNaN(now.getTime()) ? "" : now.toISOString().slice(0, 10);
  let warning = "";
  if (![from, until, today].every(isDay) || from >= until) {
    warning = "Check the dates yourself: this device cannot tell whether these data are in force.";
  } else if (today < builtOn) {
    warning = "Check the dates yourself: the clock of this device is wrong, or stands before the day this page was built.";
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
    notice.closest(".hb-card, article")?.prepend(notice);
  }
});

// The link above a card brings the address to #card, and with that address only the card is printed.
document.querySelectorAll(".hb-print a").forEach((link) => {
  link.addEventListener("click", () => setTimeout(() => window.print()));
});

// A code of the debrief index is a button that copies the link to its place.  Where the browser does not let a page
// copy, the link stands there selected.
const said = document.createElement("p");
said.className = "hb-copied";
said.setAttribute("role", "status");
const showToCopy = (text) => {
  const box = document.createElement("input");
  box.readOnly = true;
  box.value = text;
  box.setAttribute("aria-label", "Link to copy");
  said.replaceChildren(box);
  box.focus();
  box.select();
  if (document.execCommand("copy")) said.textContent = "Link copied.";
};
document.querySelectorAll(".hb-code").forEach((code) => {
  const link = code.parentElement.querySelector("a[href]");
  if (!link) return;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "hb-code";
  button.textContent = code.textContent;
  button.setAttribute("aria-label", `${code.textContent}: copy the link`);
  button.addEventListener("click", () => {
    const heading = button.closest("h3");
    if (heading) heading.after(said); else button.after(said);
    const copied = navigator.clipboard ? navigator.clipboard.writeText(link.href) : Promise.reject(new Error("none"));
    copied.then(() => { said.textContent = "Link copied."; }, () => showToCopy(link.href));
  });
  code.replaceWith(button);
});
