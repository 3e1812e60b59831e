// The app as an installed, offline page: it loads, keeps working without a server, stays on its own
// origin, has its manifest and icons, and after a crash still hands over what was saved.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { open, shot, start, violations, workerReady } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app?.close());

async function firstVisit() {
  const phone = await app.newPhone();
  await open(app, phone.page);
  await workerReady(phone.page);
  return phone;
}

test("the first visit loads without a complaint and its worker takes over", async () => {
  const { context, page, seen } = await firstVisit();
  assert.equal(await page.title(), "Your cuts · Tautline");
  assert.deepEqual(seen.errors, []);
  assert.deepEqual(seen.failed, []);
  assert.deepEqual(await violations(page), []);
  await context.close();
});

test("a deep link is answered with the page itself", async () => {
  const { context, page } = await app.newPhone();
  const response = await open(app, page, "/cut/none");
  assert.equal(response.status(), 200);
  assert.match(response.headers()["content-type"], /^text\/html/);
  await context.close();
});

test("every file is cached under one version, and none is missing", async () => {
  const { context, page } = await firstVisit();
  const { names, paths } = await page.evaluate(async () => {
    const names = (await caches.keys()).filter((name) => !name.startsWith("tautline-state"));
    const kept = await (await caches.open(names[0])).keys();
    return { names, paths: kept.map((request) => new URL(request.url).pathname) };
  });
  assert.equal(names.length, 1);
  assert.match(names[0], /^tautline \/ [0-9a-f]{16}$/);
  assert.ok(paths.includes("/"));
  assert.ok(paths.some((path) => path.endsWith(".wasm")));
  assert.ok(!paths.includes("/sw.js"));
  assert.ok(!paths.includes("/404.html"), "that is for the host");
  await context.close();
});

test("the manifest and the icons load and have the sizes they claim", async () => {
  const { context, page, seen } = await firstVisit();
  const manifest = await page.evaluate(() =>
    fetch(document.querySelector("link[rel=manifest]").href).then((answer) => answer.json()));
  assert.equal(manifest.name, "Tautline");
  const icons = manifest.icons.map(({ src, sizes }) => ({ src: `/${src}`, sizes }));
  icons.push({ src: "/icons/apple-180.png", sizes: "180x180" });
  for (const { src, sizes } of icons) {
    const size = await page.evaluate(async (src) => {
      const image = Object.assign(new Image(), { src });
      await image.decode();
      return `${image.naturalWidth}x${image.naturalHeight}`;
    }, src);
    if (sizes !== "any") assert.equal(size, sizes, src);
  }
  assert.deepEqual(seen.failed, []);
  await context.close();
});

test("a crash is said plainly and the saved data can be taken away", async () => {
  const { context, page } = await firstVisit();
  await page.evaluate(() => {
    localStorage.setItem("tautline.test", '{"kept":"yes"}');
    localStorage.setItem("other", "not ours");
    const error = new WebAssembly.RuntimeError("unreachable");
    dispatchEvent(new ErrorEvent("error", { error, message: error.message }));
  });
  const alert = page.getByRole("alert");
  await alert.getByText("Tautline stopped. Nothing you saved is lost. Reload to go on.").waitFor();
  await shot(page, "stopped");

  const [download] = await Promise.all([
    page.waitForEvent("download"),
    alert.getByRole("button", { name: "Save all data as a file" }).tap(),
  ]);
  const rescued = JSON.parse(await readFile(await download.path(), "utf8"));
  assert.equal(download.suggestedFilename(), "tautline-rescue.json");
  assert.equal(rescued.kind, "tautline-rescue");
  assert.equal(rescued.keys["tautline.test"], '{"kept":"yes"}');
  assert.equal(rescued.keys.other, undefined);

  await Promise.all([
    page.waitForEvent("load"),
    alert.getByRole("button", { name: "Reload" }).tap(),
  ]);
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  assert.equal(await page.getByRole("alert").count(), 0);
  await context.close();
});

// Last: from here on there is no server.
test("without a server a reload and a deep link still show the app", async () => {
  const { context, page, seen } = await firstVisit();
  await app.stopServer();
  await page.reload();
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  await open(app, page, "/cut/none?from=test");
  assert.deepEqual(seen.errors, []);
  const elsewhere = seen.requests.filter((url) => !url.startsWith(`${app.url}/`));
  assert.deepEqual(elsewhere, [], "no request leaves the app's own origin");
  await context.close();
});
