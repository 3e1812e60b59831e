// What pictures are drawn with: every word in them at least 4.5 : 1 and every line that means something at
// least 3 : 1 on its ground (WCAG 2.2, 1.4.3 and 1.4.11), light and dark, and in the person's own forced
// colours; every picture has a title and a description. What need not be seen to understand a picture is
// named in QUIET, with why.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { atChair, done, longer } from "./flow.mjs";
import { open, start } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const QUIET = {
  "d-body": "the body below the head only says that it is one",
  "c-parcel": "edges of sections under contours; the sections have a picture of their own",
  "o-hair": "the wash of the hair, whose edge is a line of its own",
  "o-axis": "the frame of a scale, whose numbers stand beside it",
  "grid": "lines of a chart's grid, whose values stand at its edge and in the table",
};
const SCREENS = ["see/head", "see/outline", "see/lengths", "see/scalp", "compare", "plan", "edit", "end", "walk"];

// A cut of which two sections are done and one came out longer; → its id.
async function begun(page) {
  await atChair(app, page);
  await longer(page);
  await done(page);
  await done(page);
  return page.url().split("/cut/")[1].split("/")[0];
}

// What is drawn too pale, a line each; how many words and lines were looked at; pictures without words.
const pale = (page, quiet) => page.evaluate((quiet) => {
  const parse = (colour) => {
    const [r, g, b, a = 1] = (colour.match(/[\d.]+/g) ?? []).map(Number);
    return { r, g, b, a };
  };
  const over = (top, ground) => {
    const mix = (t, u) => t * top.a + u * (1 - top.a);
    return { r: mix(top.r, ground.r), g: mix(top.g, ground.g), b: mix(top.b, ground.b), a: 1 };
  };
  // Relative luminance and contrast as WCAG 2.2 defines them.
  const linear = (v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ({ r, g, b }) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const contrast = (one, two) => {
    const [low, high] = [luminance(one), luminance(two)].sort((a, b) => a - b);
    return (high + 0.05) / (low + 0.05);
  };
  const ground = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const colour = parse(getComputedStyle(at).backgroundColor);
      if (colour.a > 0.99) return colour;
    }
    return parse("rgb(255,255,255)");
  };
  // The colours that a picture fills large shapes with: words and lines may stand on any of them.
  const wash = (name) => {
    const probe = document.createElement("i");
    probe.style.color = `var(${name})`;
    document.body.append(probe);
    const colour = parse(getComputedStyle(probe).color);
    probe.remove();
    return colour;
  };
  const line = wash("--line");
  // A wash has an edge of its own, which is looked at as a line.
  const washes = [wash("--left-wash"), wash("--accent-wash")];
  const same = (one, two) => Math.abs(one.r - two.r) + Math.abs(one.g - two.g) + Math.abs(one.b - two.b) < 2;
  const found = new Map();
  const unsaid = [];
  let looked = 0;
  for (const svg of document.querySelectorAll("main svg")) {
    if (svg.getClientRects().length === 0) continue;
    const base = ground(svg);
    if (svg.getAttribute("aria-hidden") !== "true") {
      // A picture that follows a hand tells itself in one label.
      const label = svg.getAttribute("aria-label");
      const said = label ?? svg.querySelector(":scope > title")?.textContent;
      const told = svg.querySelector(":scope > desc")?.textContent;
      if (svg.getAttribute("role") !== "img" || !said || (!told && !label && !svg.closest("figure, .offer, label"))) {
        unsaid.push(`${svg.getAttribute("class")}: “${said}”`);
      }
    }
    for (const e of svg.querySelectorAll("path, line, polyline, polygon, circle, rect, text, ellipse")) {
      const style = getComputedStyle(e);
      if (style.display === "none" || style.visibility === "hidden") continue;
      const names = (e.getAttribute("class") ?? "").split(" ");
      const text = e.tagName === "text";
      let opacity = 1;
      for (let at = e; at !== svg.parentElement; at = at.parentElement) opacity *= Number(getComputedStyle(at).opacity);
      const ink = (kind) => {
        if (style[kind] === "none" || style[kind].startsWith("url")) return null;
        const colour = parse(style[kind]);
        colour.a *= opacity * Number(style[`${kind}Opacity`]);
        return colour.a < 0.01 ? null : colour;
      };
      const inks = text ? [ink("fill")] : [ink("stroke") ?? ink("fill")];
      for (const colour of inks.filter(Boolean)) {
        // A shape in the colour of its ground hides what is behind it; a grid is a grid.
        if (!text && same(over(colour, base), base)) continue;
        if (!text && ink("stroke") === null && washes.some((wash) => same(colour, wash))) continue;
        if (names.some((name) => quiet.includes(name)) || (!text && names[0] === "" && same(colour, line))) continue;
        looked += 1;
        const ratio = contrast(over(colour, base), base);
        const least = text ? 4.5 : 3;
        const name = `${svg.getAttribute("class")} ${e.tagName}.${names.join(".")}`;
        if (ratio < least && !found.has(name)) found.set(name, `${name}: ${ratio.toFixed(2)} (${least})`);
      }
    }
  }
  return { found: [...found.values()], unsaid, looked };
}, Object.keys(quiet));

for (const colorScheme of ["light", "dark"]) {
  test(`words and lines of every picture are seen, ${colorScheme}`, { timeout: 120_000 }, async () => {
    const { context, page, seen } = await app.newPhone({ colorScheme });
    const id = await begun(page);
    for (const screen of SCREENS) {
      await open(app, page, `/cut/${id}/${screen}`);
      await page.locator("main svg").first().waitFor();
      const { found, unsaid, looked } = await pale(page, QUIET);
      assert.deepEqual(found, [], `too pale on ${screen}`);
      assert.deepEqual(unsaid, [], `without words on ${screen}`);
      assert.ok(looked > 4, `${screen}: ${looked} lines and words`);
    }
    assert.deepEqual(seen.errors, []);
    await context.close();
  });
}

test("in forced colours every picture is still there", { timeout: 120_000 }, async () => {
  for (const colorScheme of ["light", "dark"]) {
    const { context, page } = await app.newPhone({ colorScheme, forcedColors: "active" });
    const id = await begun(page);
    for (const screen of SCREENS) {
      await open(app, page, `/cut/${id}/${screen}`);
      await page.locator("main svg").first().waitFor();
      const { found, looked } = await pale(page, QUIET);
      assert.deepEqual(found, [], `too pale on ${screen}, ${colorScheme}`);
      assert.ok(looked > 4, `${screen}: ${looked} lines and words`);
    }
    await context.close();
  }
});
