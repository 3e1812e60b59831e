// A picture leaves the page: saved as a drawing that stands alone, shared as an image, or saved where a
// browser can't share.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { atChair, done, longer } from "./flow.mjs";
import { open, start } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

// The end of a cut of which one section came out longer, on a phone that is dark.
async function atEnd(options) {
  const phone = await app.newPhone({ colorScheme: "dark", acceptDownloads: true, ...options });
  const { page } = phone;
  await atChair(app, page);
  await longer(page);
  await done(page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await open(app, page, `/cut/${id}/end`);
  return phone;
}

const doings = (page) => page.locator(".keep-picture").last();

async function saved(page, button) {
  const download = page.waitForEvent("download");
  await doings(page).getByRole("button", { name: button }).click();
  const file = await download;
  return { name: file.suggestedFilename(), bytes: await readFile(await file.path()) };
}

test("a saved drawing stands alone, on light paper, and says what it is", { timeout: 90_000 }, async () => {
  const { context, page, seen } = await atEnd();
  const { name, bytes } = await saved(page, "Save drawing");
  assert.match(name, /^[a-z-]+\.svg$/);
  const text = bytes.toString("utf8");
  const needs = text.match(/var\(|class=|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  assert.equal(needs, null, "needs nothing of the page");
  assert.ok(/<title>[^<]+<\/title><desc>[^<]+<\/desc>/.test(text), "says what it is");
  // By itself it is drawn as on a light page: dark ink on light paper, all within its frame.
  const looked = await page.evaluate((text) => {
    const read = new DOMParser().parseFromString(text, "image/svg+xml");
    const root = document.importNode(read.documentElement, true);
    const holder = document.createElement("div");
    holder.attachShadow({ mode: "open" }).append(root);
    document.body.append(holder);
    const light = (colour) => {
      const [r, g, b] = colour.match(/[\d.]+/g).map(Number);
      return (r + g + b) / 765;
    };
    const [, , width, height] = root.getAttribute("viewBox").split(" ").map(Number);
    const words = [...root.querySelectorAll("text")];
    const inks = words.map((e) => light(getComputedStyle(e).fill));
    const paper = light(root.querySelector("rect").getAttribute("fill").replace("#fffdf8", "rgb(255,253,248)"));
    const result = {
      broken: read.querySelector("parsererror") !== null, width, height, words: words.length,
      darkest: Math.min(...inks), palest: Math.max(...inks), paper,
    };
    holder.remove();
    return result;
  }, text);
  assert.ok(!looked.broken && looked.words > 5 && looked.width > 100 && looked.height > 100, JSON.stringify(looked));
  assert.ok(looked.paper > 0.9 && looked.palest < 0.5, JSON.stringify(looked));
  // And the page has its own look back.
  const ink = await page.evaluate(() => getComputedStyle(document.body).color);
  assert.match(ink, /rgb\(241, 237, 228\)/);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

// The bytes of a PNG, and how many colours its pixels have, by the browser's own reader.
const colours = (page, bytes) => page.evaluate(async (base64) => {
  // Not fetched: the page may fetch nothing but its own.
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
  const canvas = new OffscreenCanvas(image.width, image.height);
  const ground = canvas.getContext("2d");
  ground.drawImage(image, 0, 0);
  const { data } = ground.getImageData(0, 0, image.width, image.height);
  const found = new Set();
  for (let i = 0; i < data.length; i += 4) found.add((data[i] << 16) | (data[i + 1] << 8) | data[i + 2]);
  return { width: image.width, height: image.height, count: found.size, corner: [data[0], data[1], data[2], data[3]] };
}, bytes.toString("base64"));

test("where a browser can't share, the image is saved, and it says so", { timeout: 90_000 }, async () => {
  const { context, page, seen } = await atEnd();
  const { name, bytes } = await saved(page, "Share picture");
  assert.match(name, /^[a-z-]+\.png$/);
  const image = await colours(page, bytes);
  assert.ok(image.width >= 1600 && image.count > 50, JSON.stringify(image));
  assert.deepEqual(image.corner, [255, 253, 248, 255], "on paper, not see-through");
  await doings(page).getByText(/can.t share/).waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a phone's share sheet gets the image; closing it is no fault", { timeout: 90_000 }, async () => {
  const { context, page, seen } = await atEnd();
  await page.evaluate(() => {
    navigator.canShare = ({ files }) => files.length === 1 && files[0].type === "image/png";
    navigator.share = async ({ files }) => { globalThis.got = { name: files[0].name, size: files[0].size }; };
  });
  await doings(page).getByRole("button", { name: "Share picture" }).click();
  await doings(page).getByText("Shared.", { exact: true }).waitFor();
  const got = await page.evaluate(() => globalThis.got);
  assert.ok(got.name.endsWith(".png") && got.size > 5_000, JSON.stringify(got));
  await page.evaluate(() => {
    navigator.share = async () => { throw new DOMException("closed", "AbortError"); };
  });
  await doings(page).getByRole("button", { name: "Share picture" }).click();
  await doings(page).getByText("Not shared.").waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});
