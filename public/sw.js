// Tautline's offline worker. This is a template: `precache` fills in the two constants below after
// a build and writes the result into dist/.
//
// A page is always of one version whole. The worker keeps its own version and the last one that a page
// said it had started with: a version that does not start gives way to that one, until the next comes.
"use strict";

// A fingerprint of every file below. Any change to one makes a new worker with a cache of its own.
const VERSION = "{{version}}";
// Every file of the app, relative to this worker's scope; as [file, "sha384-…"] where its content is to
// be checked. "./" is the page itself: asking for it by the name index.html would be redirected by some
// hosts, and a redirect can't answer a navigation.
const FILES = ["{{files}}"];

// What is for the host only: the page for addresses with no file (which some hosts never answer with "all
// is well"), and its own settings.
const KEPT = FILES.filter((entry) => !/^(?:404\.html$|[_.])/.test([entry].flat()[0]) || [entry].flat()[0] === "./");

// Where the app lies on its host. Several may lie on one host, which keeps all their caches in one place.
const SCOPE = new URL(self.registration.scope);
const PAGE = SCOPE.href;
const PREFIX = `tautline ${SCOPE.pathname} `;
const STATE = `tautline-state ${SCOPE.pathname}`;
const cacheOf = (version) => PREFIX + version;

// A new version that was opened so often and never said it had started gives way by itself: then not
// even the script that would have said so runs. Judgement.
const MOST_TRIES = 4;

// ---- What is remembered from one start of the worker to the next. ----
//   started   the versions that started, the latest first; two at most
//   refused   the version that is not taken any more, if it is this one
//   tries     how often this version was opened before it said it had started

let remembered;
let turn = Promise.resolve();

async function recall() {
  if (remembered) return remembered;
  const kept = await caches.match(PAGE, { cacheName: STATE }).catch(() => undefined);
  return (remembered ??= { started: [], tries: 0, ...(await kept?.json().catch(() => ({}))) });
}

// One change after the other. What can't be written is at least remembered while the worker runs.
function change(alter) {
  turn = turn.then(async () => {
    remembered = { ...await recall(), ...alter(await recall()) };
    const cache = await caches.open(STATE);
    await cache.put(PAGE, new Response(JSON.stringify(remembered)));
  }).catch(() => {});
  return turn;
}

// The version before this one, if it is still here whole.
async function before() {
  const { started } = await recall();
  const other = started.find((version) => version !== VERSION);
  return other && await caches.has(cacheOf(other)) ? other : undefined;
}

// The version that pages get.
async function served() {
  const { refused } = await recall();
  return (refused === VERSION && await before()) || VERSION;
}

// ---- Installing: all or nothing. If one file fails, the version in use goes on undisturbed. ----

// A name with a fingerprint in it can't mean another content: what the page fetched just now need not be
// fetched again. Any other goes past the browser's cache, which might mix an older file in.
const isNamedByContent = (file) => /-[0-9a-f]{12,}[./_]/.test(file);

async function fetched(entry, signal) {
  const [file, integrity] = [entry].flat();
  const address = new URL(file, PAGE);
  const asked = (cache) => fetch(new Request(address, { cache, signal, ...(integrity && { integrity }) }));
  const answer = isNamedByContent(file)
    ? await asked("default").catch(() => asked("reload"))
    : await asked("reload");
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  return { address, answer: file === "./" ? await page(answer) : answer };
}

// The page, which is told where it lies and which version it is. Some hosts change pages and some
// networks answer with one of their own: it must be ours, and ask for no file of another build.
async function page(answer) {
  const text = await answer.text();
  const known = new Set(FILES.map((entry) => [entry].flat()[0]));
  const asked = [...text.matchAll(/<(?:script|link)\s[^>]*?(?:src|href)="(?:\.\/)?([^":?#]+)"/g)].map(([, file]) => file);
  const strange = asked.filter((file) => !file.startsWith("../") && !known.has(file));
  if (asked.length === 0 || strange.length > 0) throw new Error(`This is no page of this build: ${strange}`);
  const folder = SCOPE.pathname.replaceAll("&", "&amp;").replaceAll('"', "&quot;");
  const made = text
    .replaceAll(/<script src="(?:\.\.\/)+climb\.js"[^>]*><\/script>\s*/g, "")
    .replace("<html ", () => `<html data-version="${VERSION}" `)
    .replace("<head>", () => `<head>\n  <base href="${folder}">`);
  const headers = new Headers(answer.headers);
  for (const name of ["content-encoding", "content-length"]) headers.delete(name);
  return new Response(made, { headers });
}

async function fill() {
  const cache = await caches.open(cacheOf(VERSION));
  const stop = new AbortController();
  // put() waits for the last byte, and refuses an answer that was cut.
  const all = KEPT.map(async (entry) => {
    const { address, answer } = await fetched(entry, stop.signal);
    await cache.put(address, answer);
  });
  try {
    await Promise.all(all);
  } catch (error) {
    // Nothing may still be on its way into the cache when it is thrown away.
    stop.abort();
    await Promise.allSettled(all);
    throw error;
  }
}

async function install() {
  const there = await caches.has(cacheOf(VERSION));
  try {
    await fill();
  } catch (error) {
    if (!there) await caches.delete(cacheOf(VERSION));
    throw error;
  }
}

// Older versions go only now, all but the last that started: a window may still show it, and its parts
// that are yet to be loaded lie there too.
async function activate() {
  await change(() => ({ tries: 0, refused: undefined }));
  const keep = [VERSION, await before()].map(cacheOf);
  const named = (name) => name.startsWith(PREFIX)
    // As they were called before an app could lie in a folder.
    || (SCOPE.pathname === "/" && /^tautline-[0-9a-f]{16}$/.test(name));
  const old = (await caches.keys()).filter((name) => named(name) && !keep.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
  // So that the very first visit is already safe without a network, not only the second.
  await self.clients.claim();
}

// ---- Answering. ----

// Every path of the app is the same one page.
async function answerPage(request) {
  const { started, refused } = await recall();
  if (refused !== VERSION && !started.includes(VERSION)) {
    await change(({ tries }) => ({ tries: tries + 1, ...(tries >= MOST_TRIES && { refused: VERSION }) }));
  }
  const version = await served();
  const kept = await caches.match(PAGE, { cacheName: cacheOf(version), ignoreVary: true });
  if (!kept) return fetch(request);
  if (version === VERSION) return kept;
  const older = (await kept.text()).replace("<html ", "<html data-older ");
  return new Response(older, { headers: kept.headers });
}

// The cache comes first for all that is in it: the app must open as fast in a cellar as on a desk.
async function answerPart(request) {
  const own = await caches.match(request, { cacheName: cacheOf(await served()), ignoreVary: true });
  // A window of the version before still loads its own parts, which have names of their own.
  return own ?? await caches.match(request, { ignoreVary: true }) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  if (method !== "GET" || !url.startsWith(PAGE)) return;
  event.respondWith(mode === "navigate" ? answerPage(event.request) : answerPart(event.request));
});

// ---- What pages say, each with the version they are of. ----

async function giveWay() {
  if (!await before()) return { back: false };
  await change(() => ({ refused: VERSION }));
  return { back: true };
}

const said = {
  started: (version) => change(({ started, refused }) => ({
    started: [version, ...started.filter((other) => other !== version)].slice(0, 2),
    tries: 0,
    refused: version === VERSION ? undefined : refused,
  })),
  // Of the version before there is nothing to go back to.
  failed: (version) => (version === VERSION ? giveWay() : { back: false }),
  back: (version) => (version === VERSION ? giveWay() : { back: false }),
  which: async (version) => ({ from: version, before: version === VERSION ? await before() : undefined }),
  retry: () => change(() => ({ refused: undefined, tries: 0 })),
  again: () => fill().then(() => ({ well: true }), () => ({ well: false })),
};

self.addEventListener("message", (event) => {
  const { type, version } = event.data ?? {};
  // A new version waits until the person chooses it: nothing may change in the middle of a haircut. In a
  // message that lasts until it is done, Chromium would wait for ever.
  if (type === "switch") self.skipWaiting();
  if (!Object.hasOwn(said, type)) return;
  event.waitUntil((async () => event.ports[0]?.postMessage(await said[type](version)))());
});
