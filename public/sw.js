// Tautline's offline worker. This is a template: `precache` fills in the two constants below after
// a build and writes the result into dist/.
"use strict";

// A fingerprint of every file below. Any change to one makes a new worker with a cache of its own.
const VERSION = "{{version}}";
// Every file of the app, relative to this worker's scope. "./" is the page itself: asking for it by
// the name index.html would be redirected by some hosts, and a redirect can't answer a navigation.
const FILES = ["{{files}}"];

const PREFIX = "tautline-";
const CACHE = PREFIX + VERSION;
const PAGE = new URL("./", self.registration.scope).href;

// All or nothing: if one file fails the install fails, and the version in use goes on undisturbed.
// "reload" goes past the browser's own cache, which might mix an older file into this version.
async function install() {
  const cache = await caches.open(CACHE);
  try {
    await cache.addAll(FILES.map((file) => new Request(new URL(file, PAGE), { cache: "reload" })));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

// Older versions go only now, when no page can be using them any more.
async function activate() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  // So that the very first visit is already safe without a network, not only the second.
  await self.clients.claim();
}

// The cache comes first for all that is in it: the app must open as fast in a cellar as on a desk,
// and a page must never get parts of two versions. Every path of the app is the same one page.
async function answer(request) {
  const cache = await caches.open(CACHE);
  const wanted = request.mode === "navigate" ? PAGE : request;
  const kept = await cache.match(wanted, { ignoreVary: true });
  return kept ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method !== "GET" || new URL(url).origin !== self.location.origin) return;
  event.respondWith(answer(event.request));
});

// A new version waits until the person chooses it: nothing may change in the middle of a haircut.
// The page then sends this message, and reloads when its controller has changed.
self.addEventListener("message", (event) => {
  if (event.data?.type === "switch") self.skipWaiting();
});
