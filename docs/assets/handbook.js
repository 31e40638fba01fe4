// Tables too wide for the screen can be scrolled with the keyboard; the theme puts the boxes around them late.
addEventListener("load", () => {
  document.querySelectorAll(".md-typeset__scrollwrap").forEach((box) => {
    if (box.scrollWidth <= box.clientWidth) return;
    box.tabIndex = 0;
    box.setAttribute("role", "region");
    box.setAttribute("aria-label", "Table, wider than the screen");
  });
});

// The search box is a dialog; say which.
document.querySelector(".md-search")?.setAttribute("aria-label", "Search");

// The link above a card brings the address to #card, and with that address only the card is printed.
document.querySelectorAll(".hb-print a").forEach((link) => {
  link.addEventListener("click", () => setTimeout(() => window.print()));
});

// To print, the theme opens whatever is folded; a form is printed only where the reader has opened it.
document.querySelectorAll("details.hb-calculator").forEach((box) => {
  const note = () => box.toggleAttribute("data-used", box.open && !matchMedia("print").matches);
  box.addEventListener("toggle", note);
  note();
});

// What stands beside a heading copies the link to it: its short address on a server, the whole one elsewhere.  Where
// the browser does not let a page copy, the link stands there selected.
const root = JSON.parse(document.getElementById("__config")?.textContent ?? "{}").base;
const linkOf = (code, whole) =>
  code && root && location.protocol.startsWith("http") ? new URL(`${root}/r/${code.toLowerCase()}/`, location).href : whole;
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
const copyLink = (place, text) => {
  place.after(said);
  const copied = navigator.clipboard ? navigator.clipboard.writeText(text) : Promise.reject(new Error("none"));
  copied.then(() => { said.textContent = "Link copied."; }, () => showToCopy(text));
};
document.querySelectorAll(".hb-code").forEach((code) => {
  const link = code.parentElement.querySelector("a[href]");
  if (!link) return;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "hb-code";
  button.textContent = code.textContent;
  button.setAttribute("aria-label", `${code.textContent}: copy the link`);
  button.addEventListener("click", () => copyLink(button.closest("h3") ?? button, linkOf(code.textContent, link.href)));
  code.replaceWith(button);
});
document.querySelectorAll(".headerlink").forEach((link) => {
  const heading = link.parentElement;
  link.addEventListener("click", () => copyLink(heading, linkOf(heading.dataset.r, link.href)));
});

// A code may be typed as it is printed; its address is in small letters.
if (document.querySelector("[data-wrong-address]") && /\/r\/[^/]*[A-Z]/.test(location.pathname)) {
  location.replace(location.pathname.replace(/\/r\/.*/, (end) => end.toLowerCase()));
}

// A section of the menu is named by its link: its own label holds nothing but a sign.
document.querySelectorAll(".md-nav__item--nested > .md-nav[aria-labelledby]").forEach((menu) => {
  const name = menu.parentElement.querySelector(":scope > .md-nav__container .md-ellipsis, :scope > .md-nav__link .md-ellipsis");
  if (name) {
    menu.removeAttribute("aria-labelledby");
    menu.setAttribute("aria-label", `Pages of ${name.textContent.trim()}`);
  }
});

// Today's data cycle, picked from rows that the build worked out; a clock that none of them fits leaves the line as it is.
document.querySelectorAll(".hb-today[data-cycles]").forEach((line) => {
  const now = new Date();
  const day = Number.isNaN(now.getTime()) ? "" : now.toISOString().slice(0, 10);
  const builtOn = (document.querySelector('meta[name="hb-built"]')?.content ?? "").slice(0, 10);
  const found = line.dataset.cycles.split(" ").map((row) => row.split("/")).find(([, from, until]) => from <= day && day <= until);
  if (!found || day < builtOn) return;
  const [cycle, , until] = found;
  const words = document.createElement("strong");
  words.textContent = `Today, ${day}: cycle ${cycle}, until ${until}.`;
  line.replaceChildren(words, " By this device's clock, in UTC.");
});

// Type for a projector: begun by a button on a lesson's page, for all pages in this tab until Escape takes it back.
{
  const KEY = "handbook projector";
  const whole = document.documentElement;
  const button = Object.assign(document.createElement("button"), { type: "button" });
  const show = (on) => {
    if (on) whole.dataset.projector = "on";
    else delete whole.dataset.projector;
    button.textContent = on ? "Type for reading again" : "Type for a projector";
  };
  const set = (on) => {
    try {
      sessionStorage.setItem(KEY, on ? "on" : "off");
    } catch {
      // It then holds for this page alone.
    }
    show(on);
  };
  document.querySelector(".hb-projector")?.replaceChildren(button);
  button.addEventListener("click", () => set(!whole.dataset.projector));
  addEventListener("keydown", ({ key }) => { if (key === "Escape" && whole.dataset.projector) set(false); });
  try {
    show(sessionStorage.getItem(KEY) === "on");
  } catch {
    show(false);
  }
}
