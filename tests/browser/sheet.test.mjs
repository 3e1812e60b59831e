// The printed sheet: every built-in cut on at most two pages of A4 and of Letter, nothing wider than the
// paper, no text smaller than 8 pt, in ink only; on the screen it can be read, and by a screen reader.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { newExample, toPlan } from "./flow.mjs";
import { open, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const CUTS = readdirSync(new URL("../../src/plan/cuts/", import.meta.url)).map((f) => f.replace(".json", ""));
// The papers, and how wide they are in CSS pixels within margins of 10 mm.
const PAPERS = { A4: 718, Letter: 740 };
const SMALLEST = (8 * 96) / 72;

// What a cut's document is changed by; the page is loaded anew afterwards.
async function put(page, id, change) {
  await page.evaluate(([id, change]) => {
    const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
    const { own, walk, ...cut } = JSON.parse(localStorage[key]);
    localStorage[key] = JSON.stringify({ ...cut, choices: {}, ...change });
  }, [id, change]);
  await open(app, page, `/cut/${id}/sheet`);
  await page.locator(".sheet-check").waitFor();
}

async function example(options) {
  const phone = await app.newPhone(options);
  await newExample(app, phone.page);
  await toPlan(phone.page);
  return { ...phone, id: phone.page.url().split("/cut/")[1].split("/")[0] };
}

const pages = (pdf) => pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;

// What of the sheet would print wrongly, a line each.
const faults = (page, wide) => page.evaluate(([wide, smallest]) => {
  const found = [];
  const sheet = document.querySelector(".on-paper");
  const shown = (e) => e.getClientRects().length > 0;
  const name = (e) => `${e.tagName} ${e.getAttribute("class") ?? ""} “${e.textContent.trim().slice(0, 30)}”`;
  const grey = (colour) => {
    const [r, g, b] = (colour.match(/[\d.]+/g) ?? [0, 0, 0]).map(Number);
    return Math.max(r, g, b) - Math.min(r, g, b) < 2;
  };
  for (const e of sheet.querySelectorAll("*")) {
    if (!shown(e)) continue;
    // A map drawn from near runs on past its frame, which cuts it off.
    if (e.tagName === "path" && e.closest("svg.near")) continue;
    const { left, right } = e.getBoundingClientRect();
    if (left < -0.5 || right > wide + 0.5) found.push(`wide: ${name(e)} ${left} to ${right}`);
    const style = getComputedStyle(e);
    if (e.scrollWidth > e.clientWidth + 1 && style.overflowX !== "visible") found.push(`cut off: ${name(e)}`);
    for (const colour of [style.color, style.stroke, style.fill]) {
      if (!grey(colour)) found.push(`colour: ${name(e)} ${colour}`);
    }
    const own = [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent.trim() !== "");
    if (!own) continue;
    const scale = e instanceof SVGElement ? e.getScreenCTM().a : 1;
    const size = Number.parseFloat(style.fontSize) * scale;
    if (size < smallest - 0.01) found.push(`small: ${name(e)} ${(size * 0.75).toFixed(2)} pt`);
  }
  return found;
}, [wide, SMALLEST]);

test("every built-in cut is on at most two pages, nothing cut off, nothing too small", async () => {
  // The dark look must not reach the paper.
  const { context, page, id, seen } = await example({ colorScheme: "dark", isMobile: false });
  const bad = [];
  for (const plan of CUTS) {
    await page.emulateMedia({ media: "screen" });
    await put(page, id, { plan });
    await page.emulateMedia({ media: "print" });
    for (const [format, wide] of Object.entries(PAPERS)) {
      await page.setViewportSize({ width: wide, height: 1000 });
      for (const fault of await faults(page, wide)) bad.push(`${plan}, ${format}: ${fault}`);
      const count = pages(await page.pdf({ format }));
      if (count > 2) bad.push(`${plan}: ${count} pages of ${format}`);
    }
  }
  assert.deepEqual(bad, []);
  // The checks themselves can fail.
  await page.locator(".sheet-head p").evaluate((p) => {
    p.style.cssText = "font-size: 7.9pt; color: #a00; width: 900px; display: block";
  });
  const kinds = (await faults(page, PAPERS.A4)).map((fault) => fault.split(":")[0]);
  assert.deepEqual([...new Set(kinds)].sort(), ["colour", "small", "wide"]);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("with a long name, a parting aside and much that was agreed it still fits", async () => {
  const { context, page, id } = await example({ isMobile: false });
  const title = "A long name, invented, that somebody typed for a cut that is done every sixth week or so";
  const answers = {
    shortest: "12 cm", "no_shorter/front": "chin", "ends_at/front": "cheekbone", "ends_at/back": "shoulder",
    weight_at: "chin", ears: "on", curls: "on", curl: "curly", parting: "left",
  };
  for (const plan of ["graduated-bob", "soft-layers-face-frame", "one-length-bob", "trim"]) {
    await put(page, id, { plan, title, consultation: { answers } });
    for (const format of Object.keys(PAPERS)) {
      const count = pages(await page.pdf({ format }));
      assert.ok(count <= 2, `${plan}: ${count} pages of ${format}`);
    }
  }
  await context.close();
});

test("it says whose it is, what was agreed and every section that the plan has", async () => {
  const { context, page, id, seen } = await example();
  const title = await page.evaluate((id) => {
    const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
    return JSON.parse(localStorage[key]).title;
  }, id);
  // The places of the scalp map are told in a table that is folded away.
  const told = await page.locator("table:visible tbody th[scope=row]").count();
  const first = await page.locator("table tbody tr:not(.group) td").first().innerText();
  const typed = `<img src=x onerror=throw(1)> & "${title}"`;
  await put(page, id, { title: typed });
  assert.equal(await page.getByRole("heading", { level: 1 }).innerText(), typed);
  await put(page, id, { title, consultation: { answers: { shortest: "12 cm", "no_shorter/front": "chin" } } });
  assert.equal(await page.getByRole("heading", { level: 1 }).innerText(), title);
  const text = await page.locator(".on-paper").innerText();
  for (const words of ["12 cm", "never shorter than the chin", String(new Date().getFullYear()), "computed guidance"]) {
    assert.ok(text.includes(words), `${words} in ${text}`);
  }
  assert.equal(await page.locator("table tbody th[scope=row]").count(), told);
  assert.ok(text.includes(first), first);
  // Numbers in cutting order: on the map and in the tables, each once.
  const numbers = (all) => all.flatMap((n) => n.split("·")).map(Number).sort((a, b) => a - b);
  const listed = numbers(await page.locator(".sheet-table td.number:first-child").allInnerTexts());
  assert.deepEqual(listed, listed.map((_, i) => i + 1));
  const mapped = numbers(await page.locator(".m-label").allTextContents());
  const cutting = numbers(await page.locator(".sheet-step:not(.sheet-check) td.number:first-child").allInnerTexts());
  assert.deepEqual(mapped, cutting);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("on the screen it is read at 320 px, light and dark, in inches and before the client", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const { context, page, id, seen } = await example({ colorScheme, viewport: { width: 320, height: 640 } });
    await page.getByRole("link", { name: "Sheet to print" }).click();
    await page.locator(".sheet-check").waitFor();
    await put(page, id, { plan: "graduated-bob" });
    assert.deepEqual(await violations(page), []);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= 320));
    const { height } = await page.getByRole("button", { name: "Print" }).boundingBox();
    assert.ok(height >= 48, `${height}`);
    // Print asks the browser.
    await page.evaluate(() => { globalThis.print = () => { globalThis.asked = true; }; });
    await page.getByRole("button", { name: "Print" }).click();
    assert.ok(await page.evaluate(() => globalThis.asked));
    // Before the client it has no name; in inches there is no centimetre on it.
    await page.evaluate(() => {
      localStorage["tautline.settings"] = JSON.stringify({ unit: "inches", seen: true });
    });
    await open(app, page, `/cut/${id}/sheet`);
    await page.locator(".sheet-check").waitFor();
    assert.equal(await page.getByRole("heading", { level: 1 }).innerText(), "Graduated bob");
    const text = await page.locator(".on-paper").innerText();
    assert.doesNotMatch(text, /\bcm\b|title/);
    assert.match(text, /\d\/8/);
    assert.deepEqual(seen.errors, []);
    await context.close();
  }
});
