"use strict";
// Copies of the handbook on the reader's device.
// A page comes from the network first, so that a correction is never hidden; its copy is shown when the network
// gives no whole answer in time, and is marked so that the page says it.  The build fills in the edition.
const EDITION = null;

const SCOPE = self.registration.scope;
const OURS = `handbook ${new URL(SCOPE).pathname} `; // several sites can share one host
const FRAME = `${OURS}frame ${EDITION.version}`; // what every page needs, of this edition
const SEEN = `${OURS}seen`; // what was opened; always newer than the others
const KEPT = `${OURS}kept `; // the handbook kept on request, one cache for each edition
const WHOLE = new URL("offline/whole", SCOPE).href; // in a kept cache that is complete
const SHORT = new URL("assets/short.json", SCOPE).href;
const OFFLINE_PAGE = new URL("reference/offline/", SCOPE).href;
const PATIENCE_MS = 4000;
const SILENCE_MS = 10000;
const PAGES_SEEN = 50;
const FILES_SEEN = 100;
const NAMED_BY_CONTENT = /\.[0-9a-f]{8}\.|\?v=[0-9a-f]{8}$/;
let silentUntil = 0; // after a page was shown as a copy, its files do not wait for the network again

self.addEventListener("install", (event) => event.waitUntil(prepare()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("message", (event) => {
  if (event.data.see) event.waitUntil(see(event.data.see));
  if (event.data.take) event.waitUntil(self.skipWaiting().then(refresh));
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  // A download that checks every file itself asks with no-store and is left alone.
  if (request.method !== "GET" || request.cache === "no-store" || request.headers.has("range")) return;
  if (!request.url.startsWith(SCOPE)) return;
  if (request.mode === "navigate") event.respondWith(answerPage(event));
  else if (NAMED_BY_CONTENT.test(request.url)) event.respondWith(answerNamed(event));
  else event.respondWith(answerFile(event));
});

// All files of the frame, each as listed, or none: a broken one stops this edition and the last one stays.
async function prepare() {
  const frame = await caches.open(FRAME);
  try {
    await Promise.all(EDITION.frame.map(async ([address, hash]) => {
      const response = await fetch(new URL(address, SCOPE), { cache: "no-cache" });
      const body = await response.arrayBuffer();
      if (!response.ok || !(await digest(body)).startsWith(hash)) throw new Error(`not as listed: ${address}`);
      await frame.put(new URL(address, SCOPE), again(body, response));
    }));
  } catch (error) {
    await caches.delete(FRAME);
    throw error;
  }
}

async function takeOver() {
  const old = (name) => name.startsWith(`${OURS}frame `) && name !== FRAME;
  await Promise.all((await caches.keys()).filter(old).map((name) => caches.delete(name)));
  const seen = await caches.open(SEEN);
  await Promise.all(EDITION.frame.map(([address]) => seen.delete(new URL(address, SCOPE))));
  await self.clients.claim();
}

async function answerPage(event) {
  const address = pageAddress(event.request.url);
  const copy = await copyOf(address);
  const coming = wholePage(event.request);
  const fresh = await (copy ? Promise.race([coming, pause(PATIENCE_MS)]) : coming);
  if (fresh && !(copy && fresh.status >= 500)) {
    event.waitUntil(remember(address, fresh.clone(), event.resultingClientId));
    return fresh;
  }
  if (!copy) return address === OFFLINE_PAGE ? Response.error() : (await shortened(address)) ?? missing(address);
  silentUntil = Date.now() + SILENCE_MS;
  const text = await copy.text();
  if (!fresh) event.waitUntil(coming.then((late) => late && arrivedLate(address, late, text, event.resultingClientId)));
  return again(text.replace("<html", "<html data-copy"), copy);
}

// A copy is on the screen already: say that a newer page has come.
async function arrivedLate(address, late, shown, client) {
  const same = (await late.clone().text()) === shown;
  if ((await remember(address, late, client)) && !same) await tell(client, "newer");
}

// A short address, r/<code>/, without network: the list of codes says where it leads.
async function shortened(address) {
  const code = /^r\/([a-z0-9-]+)\/$/.exec(address.slice(SCOPE.length))?.[1];
  const list = code && (await copyOf(SHORT));
  const places = list ? await list.json() : {};
  return Object.hasOwn(places, code) ? Response.redirect(new URL(places[code], SCOPE)) : undefined;
}

function missing(address) {
  return Response.redirect(`${OFFLINE_PAGE}?missing=${encodeURIComponent(address.slice(SCOPE.length))}`);
}

// Files whose name changes with their content: the copy is as good as the network's.
async function answerNamed(event) {
  const copy = await copyOf(event.request.url);
  if (copy) return copy;
  try {
    const response = await fetch(event.request);
    if (response.ok) event.waitUntil(store(event.request.url, response.clone()));
    return response;
  } catch {
    return (await standIn(event.request.url)) ?? Response.error();
  }
}

// Other files, the search index among them: network first.
async function answerFile(event) {
  const copy = await copyOf(event.request.url);
  if (copy && Date.now() < silentUntil) return copy;
  const coming = fetch(event.request, { cache: "no-cache" }).catch(() => undefined);
  const fresh = await (copy ? Promise.race([coming, pause(PATIENCE_MS)]) : coming);
  if (!fresh || (copy && fresh.status >= 500)) return copy ?? fresh ?? Response.error();
  const isPage = (fresh.headers.get("content-type") ?? "").includes("text/html");
  if (fresh.ok && !isPage) event.waitUntil(store(event.request.url, fresh.clone()));
  return fresh;
}

// The network's answer when all of it has come, else undefined.
async function wholePage(request) {
  try {
    const response = await fetch(request, { cache: "no-cache" });
    return response.type === "opaqueredirect" ? response : again(await response.arrayBuffer(), response);
  } catch {
    return undefined;
  }
}

// Keep a page that was opened.  Only a whole page of the handbook replaces a copy; one that is gone is forgotten.
async function remember(address, response, client) {
  const seen = await caches.open(SEEN);
  if (response.status === 404 || response.status === 410) await seen.delete(address);
  if (!response.ok) return false;
  const text = await response.text();
  if (!text.includes('name="hb-built"') || !text.trimEnd().endsWith("</html>")) return false;
  try {
    await seen.put(address, again(text, response));
  } catch {
    await tell(client, "no room");
    return false;
  }
  await trim(seen);
  return true;
}

async function see(address) {
  const response = await wholePage(new Request(address));
  if (response) await remember(pageAddress(address), response);
}

// After a new edition was taken: the pages opened earlier follow it as far as the network allows.
async function refresh() {
  const pages = (await (await caches.open(SEEN)).keys()).filter(isPageAddress);
  for (const { url } of pages) await see(url);
}

async function store(address, response) {
  const body = await response.arrayBuffer();
  const named = /\?v=([0-9a-f]{8})$/.exec(address);
  if (named && !(await digest(body)).startsWith(named[1])) return;
  const seen = await caches.open(SEEN);
  await seen.put(address, again(body, response)).catch(() => undefined); // no room: the network has it
  await trim(seen);
}

async function trim(seen) {
  const all = await seen.keys();
  const pages = all.filter(isPageAddress);
  const files = all.filter((request) => !isPageAddress(request));
  const old = [...pages.slice(0, -PAGES_SEEN), ...files.slice(0, -FILES_SEEN)];
  await Promise.all(old.map((request) => seen.delete(request)));
}

// What was opened is the newest; then the frame and the complete kept editions, by their dates.
async function copyOf(address) {
  for (const cacheName of [SEEN, ...(await editions())]) {
    const found = await caches.match(address, { cacheName, ignoreVary: true });
    if (found) return found;
  }
  return undefined;
}

async function editions() {
  const dated = [{ name: FRAME, built: EDITION.built }];
  for (const name of (await caches.keys()).filter((found) => found.startsWith(KEPT))) {
    const whole = await caches.match(WHOLE, { cacheName: name });
    if (whole) dated.push({ name, built: (await whole.json()).built });
  }
  return dated.sort((one, other) => (one.built < other.built ? 1 : one.built > other.built ? -1 : 0)).map(({ name }) => name);
}

// An old page without network asks for an old style or script: this edition's of the same name.
async function standIn(address) {
  const bare = (url) => url.replace(/\?v=\w+$/, "").replace(/\.[0-9a-f]{8}\./, ".");
  const frame = await caches.open(FRAME);
  const same = (await frame.keys()).find(({ url }) => bare(url) === bare(address));
  return same && frame.match(same);
}

// One address for each page, however it was written.
function pageAddress(address) {
  const url = new URL(address);
  const path = url.pathname.replace(/\/index\.html$/, "/");
  return url.origin + (/\/[^/.]+$/.test(path) ? `${path}/` : path);
}

function isPageAddress({ url }) {
  return /\/$|\.html$/.test(url);
}

// The same answer with another body.
function again(body, { headers, status, statusText }) {
  const kept = new Headers(headers);
  for (const name of ["content-encoding", "content-length", "vary"]) kept.delete(name);
  return new Response(body, { headers: kept, status, statusText });
}

async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function tell(client, words) {
  (client ? await self.clients.get(client) : undefined)?.postMessage(words);
}

function pause(milliseconds) {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
