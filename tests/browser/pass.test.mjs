// A plan goes from one device to another that has no network: as a link, as a code that an independent
// decoder reads off the screen (jsQR), and as a file. It is shown before it is kept.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { createRequire } from "node:module";
import { newExample, toPlan } from "./flow.mjs";
import { open, shot, start, violations, workerReady } from "./harness.mjs";

const need = createRequire(import.meta.url);
const jsQR = need("jsqr");
const { PNG } = need("pngjs");

let app;
before(async () => { app = await start(); });
after(() => app.close());

// The numbers of the plan's table, as they stand.
const numbers = (page) => page.locator("table").first().locator("td.number").allInnerTexts();

async function planned(options) {
  const phone = await app.newPhone({ acceptDownloads: true, ...options });
  await newExample(app, phone.page);
  await toPlan(phone.page);
  return { ...phone, table: await numbers(phone.page) };
}

async function toPass(page) {
  await page.getByRole("link", { name: "Pass it on" }).click();
  await page.getByRole("heading", { level: 1, name: "Pass the plan on" }).waitFor();
}

// A second device, whose worker is ready and whose network is gone.
async function elsewhere(options) {
  const phone = await app.newPhone(options);
  await open(app, phone.page);
  await workerReady(phone.page);
  await phone.context.setOffline(true);
  return phone;
}

async function takenIn(page, table) {
  await page.getByText("Nothing is kept yet").waitFor();
  assert.equal(await page.evaluate(() => Object.keys(localStorage).filter((k) => k.includes(".cut.")).length), 0);
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("table").first().waitFor();
  assert.match(page.url(), /\/cut\/[^/#]+\/plan$/, "nothing of the plan stays in the address");
  assert.deepEqual(await numbers(page), table);
}

test("a link opened on another device without a network gives the same lengths", async () => {
  const from = await planned();
  await toPass(from.page);
  await shot(from.page, "pass");
  assert.deepEqual(await violations(from.page), []);
  const link = await from.page.getByLabel("The link").inputValue();
  assert.ok(link.startsWith(`${app.url}/take#p=`) && link.length < 1000, `${link.length}`);
  const { context, page, seen } = await elsewhere();
  await page.goto(link);
  await page.getByText("Nothing is kept yet").waitFor();
  await shot(page, "take");
  assert.deepEqual(await violations(page), []);
  await takenIn(page, from.table);
  // And what was left leaves nothing behind.
  await page.goto(link);
  await page.getByRole("button", { name: "Leave it" }).click();
  await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
  assert.equal(await page.locator(".cuts li").count(), 1);
  assert.deepEqual([...seen.errors, ...from.seen.errors], []);
  await context.close();
  await from.context.close();
});

for (const colorScheme of ["light", "dark"]) {
  test(`another decoder reads the code off the screen, ${colorScheme}`, async () => {
    const from = await planned({ colorScheme });
    await toPass(from.page);
    const { data, width, height } = PNG.sync.read(await from.page.screenshot({ fullPage: true }));
    const read = jsQR(new Uint8ClampedArray(data), width, height, { inversionAttempts: "dontInvert" });
    const link = await from.page.getByLabel("The link").inputValue();
    assert.equal(read?.data, link);
    const { context, page } = await elsewhere({ colorScheme });
    await page.goto(read.data);
    await takenIn(page, from.table);
    await context.close();
    await from.context.close();
  });
}

test("a changed plan goes by file, without its head, and under a name of its own", async () => {
  const from = await planned();
  await from.page.getByRole("link", { name: "Change it" }).click();
  await from.page.getByRole("button", { name: "New step" }).click();
  await from.page.goBack();
  await toPass(from.page);
  await from.page.getByLabel("It is called").fill("Mine <b>");
  await from.page.getByLabel("With the head and hair").uncheck();
  await from.page.getByText("worked out there, on another head").waitFor();
  const download = from.page.waitForEvent("download");
  await from.page.getByRole("button", { name: "Save as a file" }).click();
  const file = await (await download).path();
  const said = JSON.parse(await readFile(file, "utf8"));
  assert.deepEqual([said.kind, said.schema, said.name, said.head], ["tautline-plan", 1, "Mine <b>", undefined]);
  await from.page.getByText("Saved among the downloads").waitFor();
  const { context, page, seen } = await elsewhere();
  await page.evaluate(() => { history.pushState({}, "", "/take"); });
  await page.reload();
  await page.getByLabel("Or a file").setInputFiles(file);
  await page.getByRole("heading", { level: 2, name: "Mine <b>" }).waitFor();
  await page.getByText("None came along").waitFor();
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("table").first().waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
  await from.context.close();
});

test("the link is copied, and shared where there is a share sheet", async () => {
  const { context, page, seen } = await planned({ permissions: ["clipboard-read", "clipboard-write"] });
  await page.evaluate(() => { navigator.share = async (what) => { globalThis.got = what; }; });
  await toPass(page);
  await page.getByRole("button", { name: "Copy the link" }).click();
  await page.getByText("Copied.").waitFor();
  const link = await page.getByLabel("The link").inputValue();
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), link);
  await page.getByRole("button", { name: "Share the link" }).click();
  await page.getByText("Shared.").waitFor();
  assert.equal(await page.evaluate(() => globalThis.got.url), link);
  assert.deepEqual(seen.errors, []);
  await context.close();
});
