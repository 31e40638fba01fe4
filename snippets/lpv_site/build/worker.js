"use strict";
// Copies of the handbook on the reader's device.
// A page comes from the network first, so that a correction is never hidden; its copy is shown when the network
// gives no whole page in time, and is marked so that the page says it.  Nothing is kept that does not agree with its
// hash: a page with its seal, a file with its name or with the edition's list.  The build fills in the edition.
const EDITION = null;

const SCOPE = self.registration.scope;
const OURS = `handbook ${new URL(SCOPE).pathname} `; // several sites can share one host
const FRAME = `${OURS}frame ${EDITION.version}`; // what every page needs, of this edition
const SEEN = `${OURS}seen`; // what was opened; always newer than the others
const KEPT = `${OURS}kept `; // the handbook kept on request, one cache for each edition
const at = (address) => new URL(address, SCOPE).href;
const WHOLE = at("offline/whole"); // in a kept cache that is complete
const SHORT = at("assets/short.json");
const WITHDRAWN = at("withdrawn.json");
const OFFLINE_PAGE = at("reference/offline/");
const LISTED = new Map([...EDITION.frame, ...EDITION.files].map(([address, hash]) => [at(address), hash]));
const PATIENCE_MS = 4000;
const SILENCE_MS = 10000;
const ASKED_AGAIN_MS = 60000; // so long the list of withdrawals is not asked for again
const PAGES_SEEN = 50;
const FILES_SEEN = 100;
const NAMED_BY_CONTENT = /\.([0-9a-f]{8})\.|\?v=([0-9a-f]{8})$/;
const SEAL = /(?:<!-- at (\S+) -->\n)?(<!-- sha256 ([0-9a-f]{32}) -->\n)$/;
const TO_THE_SITE = "answer"; // a link with this shows what the site answers, whatever it is
const WHY = {
  silence: "The network gave no answer in time.",
  "sign-in": "The site asks you to sign in:",
  busy: "The site takes no more requests for now:",
  broken: "The site's answer was not this page, or not the whole of it:",
};
let silentUntil = 0; // after a page was shown as a copy, its files do not wait for the network again
let askedAt = 0;
const proven = new Set(); // addresses of copies that were compared with their hash since the worker started

self.addEventListener("install", (event) => event.waitUntil(prepare()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("message", (event) => {
  if (event.data.see) event.waitUntil(see(event.data.see));
  if (event.data.take) event.waitUntil(self.skipWaiting().then(refresh));
  if (event.data.which) event.ports[0].postMessage({ version: EDITION.version, built: EDITION.built, edition: EDITION.edition });
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  // A download that checks every file itself asks with no-store and is left alone.
  if (request.method !== "GET" || request.cache === "no-store" || request.headers.has("range")) return;
  if (!request.url.startsWith(SCOPE)) return;
  if (request.mode === "navigate" && isPage(request.url)) event.respondWith(answerPage(event));
  else if (NAMED_BY_CONTENT.test(request.url)) event.respondWith(answerNamed(event));
  else event.respondWith(answerFile(event));
});

// All files of the frame, each as listed, or none: a broken one stops this edition and the last one stays.
async function prepare() {
  const frame = await caches.open(FRAME);
  try {
    await Promise.all(EDITION.frame.map(async ([address, hash]) => {
      const found = await fetchListed(at(address), hash);
      if (!found) throw new Error(`not as listed: ${address}`);
      await frame.put(at(address), again(found.body, found.response));
    }));
  } catch (error) {
    await caches.delete(FRAME);
    throw error;
  }
}

// A file with this hash; what lies between the site and the device may hold another one, so it is passed by once.
async function fetchListed(address, hash) {
  for (const cache of ["no-cache", "reload"]) {
    const found = await whole(fetch(address, { cache }));
    if (found?.response.ok && (await digest(found.body)).startsWith(hash)) return found;
  }
  return undefined;
}

async function takeOver() {
  const old = (name) => name.startsWith(`${OURS}frame `) && name !== FRAME;
  await Promise.all((await caches.keys()).filter(old).map((name) => caches.delete(name)));
  const seen = await caches.open(SEEN);
  await Promise.all(EDITION.frame.map(([address]) => seen.delete(at(address))));
  await heal(seen);
  await self.clients.claim();
}

// What was kept wrong before every file was compared goes.
async function heal(seen) {
  for (const request of await seen.keys()) {
    const body = await (await seen.match(request)).arrayBuffer();
    const good = isPage(request.url) ? await isSealed(body, request.url) : request.url === WITHDRAWN || (await isNamed(request.url, body));
    if (!good) await seen.delete(request);
  }
}

async function answerPage(event) {
  const { request } = event;
  const address = pageAddress(request.url);
  const copy = await copyOf(address);
  const coming = judged(request, copy);
  const fresh = await (copy ? Promise.race([coming, pause(PATIENCE_MS)]) : coming);
  if (fresh && (!copy || fresh.why === "" || new URL(request.url).searchParams.get(TO_THE_SITE) === "site")) {
    event.waitUntil(remember(address, fresh, event.resultingClientId));
    if (fresh.why === "") event.waitUntil(learnWithdrawals());
    return fresh.response;
  }
  if (!copy) return address === OFFLINE_PAGE ? Response.error() : (await shortened(address)) ?? missing(address);
  silentUntil = Date.now() + SILENCE_MS;
  const text = await copy.text();
  if (!fresh) event.waitUntil(coming.then((late) => late?.sealed && arrivedLate(address, late, text, event.resultingClientId)));
  return again(await marked(text, address, fresh?.why ?? "silence"), copy);
}

// The network's answer, once the whole of it has come: {response, body, sealed, why}; why is "" for what may stand in
// the place of a copy, which is a whole page of the handbook or the site's word that there is none.  Undefined: silence.
async function judged(request, copy) {
  const found = await whole(fetch(request, { cache: "no-cache" }));
  if (!found) return undefined;
  const { response, body } = found;
  if (response.type === "opaqueredirect") {
    // Within the handbook it leads to a page of it; a way to sign in leads elsewhere.
    const end = copy && (await whole(fetch(request.url, { cache: "no-cache", credentials: "include" })));
    const ours = !copy || (end && (await isSealed(end.body, end.response.url)));
    return { response, body, sealed: false, why: ours ? "" : "sign-in" };
  }
  const sealed = response.ok && (await isSealed(body, request.url));
  return { response: again(body, response), body, sealed, why: sealed ? "" : reason(response.status, body) };
}

function reason(status, body) {
  if (status === 404 || status === 410) return "";
  if (status === 429) return "busy";
  if ([401, 403, 407, 511].includes(status)) return "sign-in";
  const foreign = body.byteLength > 0 && !new TextDecoder().decode(body).includes('name="hb-built"');
  return status < 300 && foreign ? "sign-in" : "broken";
}

// A copy on the screen: that it is one, why, and since when it must not be used any more.
async function marked(text, address, why) {
  const link = `<a href="${escaped(address)}?${TO_THE_SITE}=site">Show what the site answers</a>.`;
  const words = why === "silence" ? WHY[why] : `${WHY[why]} ${link}`;
  const [day, reason] = (await withdrawn(address)) ?? [];
  const stop = day ? `<p class="hb-withdrawn" role="note"><strong>Withdrawn on ${escaped(day)}.</strong> Do not use it. ${escaped(reason)}</p>` : "";
  return text
    .replace("<html", `<html data-copy="${why}"`)
    .replace(/(<p class="hb-copy"[^]*?)(<\/p>)/, (_, copy, end) => `${stop}${copy} ${words}${end}`);
}

// A copy is on the screen already: say that a newer page has come.
async function arrivedLate(address, late, shown, client) {
  const same = new TextDecoder().decode(late.body) === shown;
  if ((await remember(address, late, client)) && !same) await tell(client, "newer");
}

// What the site has withdrawn, as last learned: [day, why] for an address, else undefined.
async function withdrawn(address) {
  const list = await (await copyOf(WITHDRAWN))?.json().catch(() => undefined);
  return list?.withdrawn?.find(([page]) => at(page) === address)?.slice(1);
}

async function learnWithdrawals() {
  if (Date.now() < askedAt + ASKED_AGAIN_MS) return;
  askedAt = Date.now();
  const found = await whole(fetch(WITHDRAWN, { cache: "no-cache" }));
  const isList = found?.response.ok && Array.isArray(parsed(found.body)?.withdrawn);
  if (isList) await (await caches.open(SEEN)).put(WITHDRAWN, again(found.body, found.response)).catch(() => undefined);
}

// A short address, r/<code>/, without network: the list of codes says where it leads.
async function shortened(address) {
  const code = /^r\/([a-z0-9-]+)\/$/.exec(address.slice(SCOPE.length))?.[1];
  const list = code && (await copyOf(SHORT));
  const places = list ? await list.json() : {};
  return Object.hasOwn(places, code) ? Response.redirect(at(places[code])) : undefined;
}

function missing(address) {
  return Response.redirect(`${OFFLINE_PAGE}?missing=${encodeURIComponent(address.slice(SCOPE.length))}`);
}

// Files whose name changes with their content: the copy is as good as the network's, once it was compared.
async function answerNamed(event) {
  const { url } = event.request;
  const copy = await goodCopy(url);
  if (copy) return copy;
  let other;
  for (const cache of ["default", "reload"]) { // what lies in between may hold a wrong one: the second time it is passed by
    const found = await whole(fetch(event.request, { cache }));
    if (found?.response.ok && (await isNamed(url, found.body))) {
      event.waitUntil(store(url, found));
      return again(found.body, found.response);
    }
    other = found ?? other;
  }
  // Not what this edition calls by that name.  An older page may mean another one; this edition's own is never taken on trust.
  if (other && !LISTED.has(url) && plausible(url, other)) return again(other.body, other.response);
  return (await standIn(url)) ?? refused(other);
}

// Other files, the search index among them: network first.
async function answerFile(event) {
  const { url } = event.request;
  const copy = await copyOf(url);
  if (copy && Date.now() < silentUntil) return copy;
  const coming = whole(fetch(event.request, { cache: "no-cache" }));
  const fresh = await (copy ? Promise.race([coming, pause(PATIENCE_MS)]) : coming);
  if (!fresh) return copy ?? Response.error();
  if (fresh.response.type === "opaqueredirect") return copy ?? fresh.response;
  if (copy && !plausible(url, fresh)) return copy;
  if (fresh.response.ok && (await isListed(url, fresh.body))) event.waitUntil(store(url, fresh));
  return again(fresh.body, fresh.response);
}

// An answer with its body, when all of it has come, else undefined.
async function whole(coming) {
  try {
    const response = await coming;
    return { response, body: response.type === "opaqueredirect" ? undefined : await response.arrayBuffer() };
  } catch {
    return undefined;
  }
}

// Whether an answer can be the file of that name, of whatever edition: no page, and where it is JSON, whole.
function plausible(url, { response, body }) {
  const isPageText = (response.headers.get("content-type") ?? "").includes("text/html");
  return response.ok && !isPageText && (!/\.(json|webmanifest)(\?|$)/.test(url) || parsed(body) !== undefined);
}

function parsed(body) {
  try {
    return JSON.parse(new TextDecoder().decode(body));
  } catch {
    return undefined;
  }
}

// Whether this is a whole page of the handbook, and the one of this address: a server may answer with another.
async function isSealed(body, url) {
  const seal = SEAL.exec(new TextDecoder().decode(body.slice(-400)));
  if (!seal || (seal[1] && at(seal[1]) !== pageAddress(url))) return false;
  return (await digest(body.slice(0, -seal[2].length))).startsWith(seal[3]);
}

async function isListed(url, body) {
  return LISTED.has(url) && (await digest(body)).startsWith(LISTED.get(url));
}

// Whether a file agrees with this edition's list, or else with the hash in its name.
async function isNamed(url, body) {
  const named = NAMED_BY_CONTENT.exec(url);
  const hash = LISTED.get(url) ?? named?.[1] ?? named?.[2];
  return hash !== undefined && (await digest(body)).startsWith(hash);
}

function refused(other) {
  return other && !other.response.ok && other.response.status
    ? again(other.body, other.response) : new Response(null, { status: 502, statusText: "Not the file of that name" });
}

// Keep a page that was opened: only a whole page of the handbook replaces a copy.
async function remember(address, { response, body, sealed }, client) {
  if (!sealed) return false;
  const seen = await caches.open(SEEN);
  try {
    await seen.put(address, again(body, response));
  } catch {
    await tell(client, "no room");
    return false;
  }
  await trim(seen);
  return true;
}

async function see(address) {
  const found = await judged(new Request(address));
  if (found) await remember(pageAddress(address), found);
}

// After a new edition was taken: the pages opened earlier follow it as far as the network allows.
async function refresh() {
  const pages = (await (await caches.open(SEEN)).keys()).filter(({ url }) => isPage(url));
  for (const { url } of pages) await see(url);
}

// Keep a file that was compared.
async function store(address, { response, body }) {
  const seen = await caches.open(SEEN);
  await seen.put(address, again(body, response)).catch(() => undefined); // no room: the network has it
  await trim(seen);
}

async function trim(seen) {
  const all = (await seen.keys()).filter(({ url }) => url !== WITHDRAWN);
  const pages = all.filter(({ url }) => isPage(url));
  const files = all.filter(({ url }) => !isPage(url));
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

// The copy of a file that is named by its content; one that does not agree with its name is deleted.
async function goodCopy(url) {
  for (const cacheName of [SEEN, ...(await editions())]) {
    const found = await caches.match(url, { cacheName, ignoreVary: true });
    if (!found) continue;
    if (proven.has(`${cacheName} ${url}`) || (await isNamed(url, await found.clone().arrayBuffer()))) {
      proven.add(`${cacheName} ${url}`);
      return found;
    }
    if (cacheName === SEEN) await (await caches.open(SEEN)).delete(url);
    else if (!LISTED.has(url) && cacheName !== FRAME) return found; // an older edition's, compared with its own list
  }
  return undefined;
}

async function editions() {
  const dated = [{ name: FRAME, built: EDITION.built }];
  for (const name of (await caches.keys()).filter((found) => found.startsWith(KEPT))) {
    const state = await caches.match(WHOLE, { cacheName: name });
    const built = (await state?.json().catch(() => undefined))?.built;
    if (typeof built === "string") dated.push({ name, built });
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

// Pages end in a slash, in .html, or in a name without an ending; what else is opened, a picture or a PDF, is a file.
function isPage(url) {
  return /\/[^/.]*$|\.html$/.test(new URL(url).pathname);
}

// The same answer with another body.
function again(body, { headers, status, statusText }) {
  const kept = new Headers(headers);
  for (const name of ["content-encoding", "content-length", "vary"]) kept.delete(name);
  return new Response([101, 204, 205, 304].includes(status) ? null : body, { headers: kept, status, statusText });
}

function escaped(text) {
  const signs = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
  return String(text).replace(/[&<>"]/g, (sign) => signs[sign]);
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
