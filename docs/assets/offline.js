// Offline copies: start the worker, announce a newer edition, and run the page where the whole handbook is kept.
(() => {
  const copies = handbookCopies;
  const built = document.querySelector('meta[name="hb-built"]')?.content ?? "";
  const ANSWERS_MS = 2000; // a worker of before may not know the question
  const isCopy = "copy" in document.documentElement.dataset;

  function make(tag, properties = {}, ...children) {
    const element = Object.assign(document.createElement(tag), properties);
    element.append(...children);
    return element;
  }

  // One bar at the foot of the window: words, at most one action, and a way to put it off.
  function announce(words, action, act) {
    document.querySelector(".hb-bar")?.remove();
    const text = make("span", { textContent: words });
    const bar = make("div", { className: "hb-bar" }, text);
    bar.setAttribute("role", "status");
    if (action) {
      const button = make("button", { type: "button", textContent: action });
      button.addEventListener("click", () => {
        button.remove();
        act((said) => { text.textContent = said; });
      });
      bar.append(button);
    }
    const later = make("button", { type: "button", textContent: action ? "Later" : "Close" });
    later.addEventListener("click", () => bar.remove());
    bar.append(later);
    document.body.append(bar);
  }

  const LATER = `handbook ${copies.root.pathname} later`; // the edition that was put off; several sites can share one host
  const session = (act) => { try { return act(sessionStorage); } catch { return null; } }; // closed to some pages

  // Both editions by their numbers, where they are known.
  function ready(coming, here) {
    if (!coming) return "A newer edition of this handbook is ready for this device.";
    const before = here && here !== coming ? `, in place of ${here}` : "";
    return `Edition ${coming} of this handbook is ready for this device${before}.`;
  }

  // The edition that a worker is of: {version, built, edition}; null if it does not say.
  const which = (worker) => new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data);
    setTimeout(() => resolve(null), ANSWERS_MS);
    worker.postMessage({ which: true }, [port2]);
  });

  // One tap: what is kept is brought up to date first, then the new worker takes over.
  async function announceEdition(registration, worker) {
    const { active } = registration;
    const [other, here] = await Promise.all([which(worker), active && active !== worker ? which(active) : null]);
    const version = other?.version ?? built;
    if (isCopy || session((storage) => storage.getItem(LATER)) === version) return;
    announce(ready(other?.edition, here?.edition), "Take it now", async (say) => {
      const { whole } = await copies.state();
      try {
        if (whole) await copies.keep(whole.choice, (done, total) => say(`Taking it: ${done} of ${total} files.`));
        await registration.update();
      } catch (error) {
        say(`${copies.words(error)} What was kept stays as it was.`);
        return;
      }
      const coming = await installed(registration);
      if (!coming) {
        location.reload();
        return;
      }
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
      coming.postMessage({ take: true });
    });
    document.querySelector(".hb-bar button:last-child").addEventListener("click", () => {
      session((storage) => storage.setItem(LATER, version));
    });
  }

  // The worker of a newer edition, once it is ready; null when there is none.
  function installed({ installing, waiting }) {
    if (!installing) return waiting;
    return new Promise((resolve) => {
      installing.addEventListener("statechange", () => resolve(installing.state === "installed" ? installing : null));
    });
  }

  function watch(registration) {
    if (registration.waiting) announceEdition(registration, registration.waiting);
    registration.addEventListener("updatefound", async () => {
      const replaces = registration.active;
      const coming = await installed(registration);
      if (coming && replaces) announceEdition(registration, coming);
    });
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().catch(() => undefined);
    });
  }

  async function start() {
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      if (data === "newer") announce("A newer version of this page has just arrived.", "Show it", () => location.reload());
      if (data === "no room") announce("This device has no room left to keep the pages you open.");
    });
    const first = navigator.serviceWorker.controller?.scriptURL !== copies.at("sw.js");
    try {
      const registration = await navigator.serviceWorker.register(copies.at("sw.js"));
      watch(registration);
      if (first) (await navigator.serviceWorker.ready).active.postMessage({ see: location.href });
      const { whole } = await copies.state();
      if (whole && !registration.waiting) await compareKept(registration, whole);
    } catch {
      // Not served as a handbook with offline copies: every page works without.
    }
  }

  // What is kept and what answers here are of two editions, and what is kept is not the newer one.
  async function compareKept(registration, whole) {
    const { active } = registration;
    const here = active && (await which(active));
    if (here && here.version !== whole.version && here.built >= whole.built) announceEdition(registration, active);
  }

  function showMissing() {
    const address = new URLSearchParams(location.search).get("missing");
    const box = document.querySelector("#keep");
    if (!address || !box) return;
    const target = copies.at(address);
    if (!target.startsWith(copies.root.href)) return;
    const link = make("a", { href: target, textContent: "Try it again" });
    const note = make("p", { className: "hb-copy" }, make("strong", { textContent: "That page is not on this device" }),
      ` (${address}), and the network gave no answer. `, link);
    note.dataset.shown = "";
    box.closest("article, main").prepend(note);
  }

  // The page "Keep it on your phone".
  function runKeepPage(box) {
    const state = make("p", { className: "hb-keep-state" });
    state.setAttribute("role", "status");
    const choices = make("fieldset", {}, make("legend", { textContent: "What to keep" }));
    const some = make("input", { type: "text", autocomplete: "off", spellcheck: false, id: "keep-words" });
    const counted = make("p", { className: "hb-keep-count" });
    const bar = make("progress", { hidden: true, max: 1, value: 0 });
    bar.setAttribute("aria-label", "Download");
    const keep = button("Keep it on this device", download);
    const stop = button("Stop", () => stopper.abort());
    const remove = button("Remove all copies", removeAll);
    let stopper = new AbortController();
    stop.hidden = true;

    function button(words, act) {
      const made = make("button", { type: "button", className: "hb-button", textContent: words });
      made.addEventListener("click", act);
      return made;
    }

    function addChoice(value, words) {
      const radio = make("input", { type: "radio", name: "keep", value });
      radio.addEventListener("change", count);
      choices.append(make("label", {}, radio, ` ${words}`));
      return radio;
    }

    const chosen = () => {
      const value = choices.querySelector("input:checked")?.value ?? "*";
      return value === "some" ? some.value.trim() : value;
    };

    async function count() {
      some.disabled = choices.querySelector("input:checked").value !== "some";
      try {
        const { files } = await copies.list(chosen());
        counted.textContent = `${files.length} files, ${copies.amount(copies.sum(files))} on this device.`;
      } catch (error) {
        counted.textContent = copies.words(error);
      }
    }

    async function show(before = "") {
      const { whole, part, pages } = await copies.state();
      let words = whole
        ? `Kept on this device: ${whole.files} files, ${copies.amount(whole.bytes)}, built ${copies.day(whole.built)}.`
        : `Kept so far: the pages you opened, ${pages} of them.`;
      if (part) words += ` A download was cut short at ${part.done} of ${part.total} files.`;
      state.textContent = `${before} ${words}`.trim();
      keep.textContent = part ? "Go on" : whole ? "Bring it up to date" : "Keep it on this device";
      remove.hidden = !whole && !part && !pages;
      return whole ?? part;
    }

    async function download() {
      stopper = new AbortController();
      busy(true);
      let said = "Done.";
      try {
        await copies.keep(chosen(), (done, total) => {
          bar.value = done / total;
          counted.textContent = `${done} of ${total} files`;
        }, stopper.signal);
        const safe = await navigator.storage?.persisted?.();
        said += safe ? "" : " The browser may delete it when the device runs out of room.";
      } catch (error) {
        said = copies.words(error);
      }
      busy(false);
      await show(said);
      count();
    }

    function busy(now) {
      bar.hidden = stop.hidden = !now;
      keep.hidden = choices.disabled = now;
      remove.disabled = now;
    }

    async function removeAll() {
      await copies.remove();
      await show("Removed.");
      keep.focus();
    }

    async function open() {
      const had = await show();
      try {
        const sizes = await copies.json("offline/sizes.json");
        const both = sizes.handbook.bytes + sizes.briefings.bytes;
        const all = addChoice("*", `Everything: ${copies.amount(both)}`);
        const none = addChoice("", `Without briefings: ${copies.amount(sizes.handbook.bytes)}`);
        const few = addChoice("some", "With briefings of these airports:");
        choices.append(some);
        some.setAttribute("aria-label", "Airports, as in the address of their briefings, with spaces between");
        some.addEventListener("change", count);
        const choice = had?.choice ?? "*";
        (choice === "*" ? all : choice ? few : none).checked = true;
        some.value = choice && choice !== "*" ? choice : "";
        some.disabled = !few.checked;
        counted.textContent = "";
      } catch (error) {
        choices.hidden = keep.hidden = true;
        counted.textContent = copies.words(error);
      }
      // Shown when it is whole: nothing moves under a thumb.
      box.replaceChildren(state, choices, counted, bar, make("p", { className: "hb-keep-buttons" }, keep, stop, remove));
    }
    open();
  }

  const box = document.querySelector("#keep");
  if (location.protocol !== "file:" && copies.possible()) {
    showMissing();
    if (box) runKeepPage(box);
    if (document.readyState === "complete") start();
    else addEventListener("load", start);
  }
})();
