// Keep the whole handbook on this device: download aside, check every file, switch only when complete.
const handbookCopies = (() => {
  const root = new URL("..", document.currentScript.src);
  const ours = `handbook ${root.pathname} `;
  const seen = `${ours}seen`;
  const kept = `${ours}kept `;
  const at = (address) => new URL(address, root).href;
  const WHOLE = at("offline/whole"); // what a complete cache holds, and of which edition
  const PART = at("offline/part"); // what an unfinished one is to hold
  const AT_ONCE = 6;

  // A reason in words, for the reader.
  class Refused extends Error {}

  const possible = () => "serviceWorker" in navigator && "caches" in window && Boolean(crypto.subtle);

  // What this device holds: {whole, part, pages}, the first two null where there is none.
  async function state() {
    const found = { whole: null, part: null, pages: 0 };
    for (const name of await keptNames()) {
      const cache = await caches.open(name);
      const whole = await read(cache, WHOLE);
      const part = await read(cache, PART);
      if (isCount(whole?.files) && (!found.whole || whole.built >= found.whole.built)) found.whole = whole;
      if (isCount(part?.total)) found.part = { ...part, done: await countFiles(cache) };
    }
    const pages = (await caches.has(seen)) ? await (await caches.open(seen)).keys() : [];
    found.pages = pages.filter(({ url }) => /\/$|\.html$/.test(url)).length;
    return found;
  }

  const isCount = (value) => Number.isInteger(value) && value > 0;

  // The list for a choice: "" without briefings, "*" with all, else those with one of the words in their address.
  async function list(choice) {
    const handbook = await json("offline/handbook.json");
    if (!choice) return handbook;
    const briefings = await json("offline/briefings.json");
    if (briefings.version !== handbook.version) throw new Refused("The site is being published just now. Try again in a minute.");
    const words = choice.toLowerCase().split(/[\s,;]+/).filter(Boolean);
    const wanted = ([address]) => choice === "*" || words.some((word) => address.toLowerCase().includes(word));
    return { ...handbook, files: [...handbook.files, ...briefings.files.filter(wanted)] };
  }

  const sum = (files) => files.reduce((total, [, , bytes]) => total + bytes, 0);

  // Bring everything of a choice here; tell(done, total) counts the files.  Until the end nothing that was kept changes.
  async function keep(choice, tell, signal) {
    const wanted = await list(choice);
    const name = kept + wanted.version;
    await drop((await unfinished()).filter((other) => other !== name));
    const cache = await caches.open(name);
    const here = new Set((await cache.keys()).map(({ url }) => url));
    const missing = wanted.files.filter(([address]) => !here.has(at(address)));
    await makeSureOfRoom(sum(missing));
    await write(cache, PART, { choice, total: wanted.files.length });
    await fetchAll(cache, missing, (done) => tell(wanted.files.length - missing.length + done, wanted.files.length), signal);
    await complete(cache, name, choice, wanted);
  }

  async function fetchAll(cache, missing, tell, signal) {
    const queue = [...missing];
    const stop = new AbortController();
    signal?.addEventListener("abort", () => stop.abort());
    let done = 0;
    const line = async () => {
      while (queue.length && !stop.signal.aborted) {
        await fetchOne(cache, queue.shift(), stop.signal);
        tell(++done);
      }
    };
    try {
      await Promise.all(Array.from({ length: AT_ONCE }, line));
    } catch (error) {
      stop.abort();
      throw signal?.aborted ? new Refused("Stopped. What has come so far waits here.") : error;
    }
    if (signal?.aborted) throw new Refused("Stopped. What has come so far waits here.");
  }

  async function fetchOne(cache, [address, hash, size], signal) {
    const response = await fetch(at(address), { cache: "no-store", signal }).catch(() => {
      throw new Refused("The connection broke off. What has come so far waits here; go on when there is a connection.");
    });
    if (!response.ok) throw new Refused(`The site did not give ${address || "its start page"} (${response.status}). Try again later.`);
    const body = await response.arrayBuffer().catch(() => {
      throw new Refused("The connection broke off. What has come so far waits here; go on when there is a connection.");
    });
    if (body.byteLength !== size || !(await digest(body)).startsWith(hash)) {
      throw new Refused(`${address || "The start page"} arrived damaged, or the site is being published just now. Try again in a minute.`);
    }
    const headers = { "content-type": response.headers.get("content-type") ?? "" };
    await put(cache, at(address), new Response(body, { headers }));
  }

  // The switch: from here on the new copy counts; then the old ones go.
  async function complete(cache, name, choice, { version, built, files }) {
    await write(cache, WHOLE, { choice, version, built, files: files.length, bytes: sum(files) });
    const listed = new Set([WHOLE, ...files.map(([address]) => at(address))]);
    const opened = await caches.open(seen);
    for (const request of await cache.keys()) if (!listed.has(request.url)) await cache.delete(request);
    for (const request of await opened.keys()) if (listed.has(request.url)) await opened.delete(request);
    await drop((await keptNames()).filter((other) => other !== name));
  }

  async function makeSureOfRoom(bytes) {
    await navigator.storage?.persist?.();
    const { quota = Infinity, usage = 0 } = (await navigator.storage?.estimate?.()) ?? {};
    if (quota - usage < bytes * 1.1) {
      throw new Refused(`Not enough room: ${amount(bytes)} are needed, and this device gives the site ${amount(Math.max(0, quota - usage))} more. Nothing was changed.`);
    }
  }

  async function put(cache, address, response) {
    try {
      await cache.put(address, response);
    } catch {
      await drop(await unfinished());
      throw new Refused("This device refused the room for it. What had come was given back; what was kept before is as it was.");
    }
  }

  // Everything that was opened or kept.
  const remove = async () => drop([seen, ...(await keptNames())]);

  async function unfinished() {
    const names = await keptNames();
    const whole = await Promise.all(names.map(async (name) => read(await caches.open(name), WHOLE)));
    return names.filter((_, index) => !whole[index]);
  }

  async function keptNames() {
    return (await caches.keys()).filter((name) => name.startsWith(kept));
  }

  const drop = (names) => Promise.all(names.map((name) => caches.delete(name)));

  async function countFiles(cache) {
    return (await cache.keys()).filter(({ url }) => url !== WHOLE && url !== PART).length;
  }

  async function read(cache, address) {
    return (await cache.match(address))?.json().catch(() => null) ?? null; // what cannot be read is not there
  }

  const write = (cache, address, content) => put(cache, address, new Response(JSON.stringify(content)));

  async function json(address) {
    const response = await fetch(at(address), { cache: "no-store" }).catch(() => null);
    if (!response?.ok) throw new Refused("The list of files cannot be read now: no connection, or this copy of the site has none.");
    return response.json().catch(() => {
      throw new Refused("Something else came in the place of the list of files: the site asks you to sign in, or the connection broke off. Open a page of the handbook with network, then try again.");
    });
  }

  async function digest(body) {
    const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  const amount = (bytes) => (bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`);
  const day = (built) => built.replace("T", " ").replace("Z", " UTC");
  const words = (error) => (error instanceof Refused ? error.message : "It did not work on this device. Try again, or open the handbook in another browser.");

  return { root, at, possible, state, list, sum, keep, remove, json, amount, day, words };
})();
