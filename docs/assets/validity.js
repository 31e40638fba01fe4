// Data expire: a page and its card say so in words, first of all, by this device's clock, online or not.  Dates that
// are none, and a clock that stands before the day the page was built, give the caution instead of nothing.
// Runs from the head of the page, on each notice as it arrives: nothing moves after it was painted.  A page may stay
// open over the end of a cycle: it is looked at again when it comes back to the screen, and by a timer.
(() => {
  const AGAIN_MS = 60 * 1000;
  const LONG_OPEN_MS = 24 * 60 * 60 * 1000;
  const opened = Date.now();
  const dayOf = (time) => (Number.isNaN(time.getTime()) ? "" : time.toISOString().slice(0, 10));
  const isDay = (text) => text !== "" && dayOf(new Date(`${text}T00:00:00Z`)) === text;

  function warningOf({ from, until }) {
    const builtOn = (document.querySelector('meta[name="hb-built"]')?.content ?? "").slice(0, 10);
    const today = dayOf(new Date());
    if (![from, until, today].every(isDay) || from >= until) {
      return "Check the dates yourself: this device cannot tell whether these data are in force.";
    }
    if (today < builtOn) {
      return "Check the dates yourself: the clock of this device is wrong, or stands before the day this page was built.";
    }
    if (today >= until) return "Out of date: these data ended. Do not use them; take the current cycle.";
    return today < from ? "Not yet in force: these data begin later." : "";
  }

  // A notice in a form stays where its data are, and may be shown only when it warns; the others come first on the page or card.
  function check(notice) {
    const warning = warningOf(notice.dataset);
    const stands = notice.querySelector(":scope > .hb-warning");
    if ((stands?.textContent ?? "") === (warning && `${warning} `)) return;
    stands?.remove();
    delete notice.dataset.stale;
    notice.removeAttribute("role");
    if (!warning) return;
    const words = document.createElement("strong");
    words.className = "hb-warning";
    words.textContent = `${warning} `;
    notice.prepend(words);
    notice.dataset.stale = "";
    notice.setAttribute("role", "note");
    if (!("quiet" in notice.dataset || "here" in notice.dataset)) notice.closest(".hb-card, article")?.prepend(notice);
  }

  // What was opened days ago cannot know of a correction.
  function checkOpened() {
    const article = document.querySelector("article");
    if (!article || !(Date.now() - opened >= LONG_OPEN_MS) || article.querySelector(":scope > .hb-long-open")) return;
    const note = document.createElement("p");
    note.className = "hb-copy hb-long-open";
    note.dataset.shown = "";
    note.setAttribute("role", "note");
    const words = document.createElement("strong");
    words.textContent = `Opened on ${dayOf(new Date(opened))}, and open since.`;
    const link = document.createElement("a");
    link.href = location.href;
    link.textContent = "Load it again";
    link.addEventListener("click", (event) => {
      event.preventDefault();
      location.reload();
    });
    note.append(words, " A correction since then does not show here. ", link, ".");
    article.prepend(note);
  }

  const checkAll = () => document.querySelectorAll(".hb-validity").forEach(check);
  function again() {
    checkAll();
    checkOpened();
  }

  const arriving = new MutationObserver(checkAll);
  arriving.observe(document, { childList: true, subtree: true });
  document.addEventListener("DOMContentLoaded", () => {
    arriving.disconnect();
    checkAll();
  });
  addEventListener("pageshow", again);
  document.addEventListener("visibilitychange", again);
  addEventListener("hb-notice", checkAll); // a form has put a notice on the page
  setInterval(again, AGAIN_MS);
})();
