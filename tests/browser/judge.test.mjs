// A finished cut judged by its maker: deviations and verdicts, marks of one's own, criteria and looking back
// kept; the assessor's sheet on two pages; what comes back after five cuts.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { newExample, unpacked } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const SECTIONS = ["nape.left.1", "nape.right.1", "back.left.1", "back.right.1", "sides.left.1", "sides.right.1"];

// A walk of the bob on `day` in which the right came out so much off, cm, and the left as planned.
function walked(day, off) {
  const done = SECTIONS.map((address, i) => {
    const [step, side, number] = address.split(".");
    return {
      key: { step, side, number: Number(number) },
      at: `${day}T09:${String(i * 4 + 4).padStart(2, "0")}:00Z`,
      target: 12 + i, came_out_at: 12 + i + (side === "right" ? off : 0),
    };
  });
  return { started_at: `${day}T09:00:00Z`, finished_at: `${day}T09:30:00Z`, done };
}

// The example as a finished bob on a practice head; → its id.
async function bob(page, change = {}) {
  await newExample(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await page.evaluate(([id, change]) => {
    const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
    const { own, ...cut } = JSON.parse(localStorage[key]);
    localStorage[key] = JSON.stringify({ ...cut, plan: "one-length-bob", choices: {}, shape: { kind: "practice" }, ...change });
  }, [id, { walk: walked("2026-11-20", -0.8), ...change }]);
  return id;
}

const kept = async (page, id) => unpacked(await page.evaluate((id) => {
  const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
  return localStorage[key];
}, id)).visit;

const place = (page, name) => page.locator(".judged-place", { has: page.getByLabel(name, { exact: true }) });

async function planned(page, name) {
  const text = await place(page, name).locator("p.planned").innerText();
  return Number.parseFloat(text.replace("planned ", ""));
}

async function put(page, name, text) {
  const field = page.getByLabel(name, { exact: true });
  await field.fill(text);
  await field.press("Tab");
}

const NAMES = ["Temple, left", "Temple, right", "Behind the ear, left", "Behind the ear, right", "Nape", "Crown"];

test("a finished cut is measured against its own plan", async () => {
  const { context, page, seen } = await app.newPhone();
  const id = await bob(page);
  await open(app, page, `/cut/${id}/end`);
  await page.getByRole("link", { name: "Check it yourself" }).click();
  await page.getByRole("heading", { level: 1, name: "Check it yourself" }).waitFor();
  const status = page.locator(".judged-said");
  assert.match(await status.innerText(), /^0 of the 13 places that the plan cuts are measured\. Measure 5 more/);
  const offs = [0.2, -0.6, 0, 0, 0.4, 3];
  for (const [i, name] of NAMES.entries()) {
    await put(page, name, (await planned(page, name) + offs[i]).toFixed(1));
  }
  const said = (name) => place(page, name).locator(".verdict").innerText();
  assert.equal(await said("Temple, left"), "+0.2 cm: as planned");
  assert.equal(await said("Temple, right"), "−0.6 cm: short");
  assert.equal(await said("Behind the ear, left"), "0 cm: as planned");
  assert.equal(await said("Nape"), "+0.4 cm: within your mark");
  assert.equal(await said("Crown"), "+3 cm: too long");
  const row = page.locator(".judged-row", { hasText: "Temple, left" });
  assert.ok((await row.innerText()).includes("The left is 0.8 cm longer than the right, beyond the plan."));
  assert.match(await status.innerText(), /4 of 6 places within 0\.5 cm: not yet\. What is too long can still be taken off\./);
  assert.match(await status.innerText(), /One place is too long/);
  // The plan of then is kept with the measure.
  const { measures } = await kept(page, id);
  assert.equal(measures.length, 6);
  assert.ok(measures.every((m) => m.when === "after" && m.how === "combed" && m.expected > 0 && m.typed.endsWith(" cm")));
  // What does not read stays, and says so.
  await put(page, "Nape", "short");
  assert.match(await place(page, "Nape").locator(".fault").innerText(), /not a length/);
  assert.equal(await page.getByLabel("Nape", { exact: true }).inputValue(), "short");
  // A step of an empty field begins at the plan.
  const high = await planned(page, "High point");
  await place(page, "High point").getByRole("button", { name: /^Longer/ }).click();
  assert.equal(await page.getByLabel("High point", { exact: true }).inputValue(), `${(high + 0.1).toFixed(1).replace(/\.0$/, "")} cm`);
  // A mark of one's own.
  await page.getByText("Your marks").click();
  await put(page, "Pass: within", "3");
  assert.match(await status.innerText(), /6 of 6 places within 3 cm, enough of them|6 of 6 places within 3 cm: pass/);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Check it yourself" }).waitFor();
  assert.match(await status.innerText(), /within 3 cm/);
  await page.getByText("More: before, and hanging dry").click();
  await put(page, "Temple, left: before, combed", "30");
  assert.equal((await kept(page, id)).measures.filter((m) => m.when === "before").length, 1);
  await shot(page, "judge");
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("criteria and looking back are kept with every letter, and hidden while the client looks on", async () => {
  const { context, page, seen } = await app.newPhone({ colorScheme: "dark" });
  const id = await bob(page, { visit: { judged: { answers: { of_later: "half" } } } });
  await open(app, page, `/cut/${id}/judge`);
  await page.getByText("While cutting").click();
  const guide = page.getByRole("group", { name: /^Set one clear guide/ });
  await guide.getByRole("radio", { name: "Not yet" }).check();
  await page.getByLabel("Remark: Set one clear guide and followed it").pressSequentially("lost it");
  await page.getByLabel("What went well").pressSequentially("The line");
  await page.reload();
  await page.getByText("While cutting").click();
  assert.match(await page.locator("summary", { hasText: "While cutting" }).innerText(), /0 met, 1 of 8 answered/);
  assert.ok(await guide.getByRole("radio", { name: "Not yet" }).isChecked());
  assert.equal(await page.getByLabel("Remark: Set one clear guide and followed it").inputValue(), "lost it");
  assert.equal(await page.getByLabel("What went well").inputValue(), "The line");
  const { judged } = await kept(page, id);
  assert.equal(judged.answers.of_later, "half");
  await shot(page, "judge-criteria");
  assert.deepEqual(await violations(page), []);
  // Chosen again, it is taken back.
  await guide.getByText("Not yet").click();
  assert.match(await page.locator("summary", { hasText: "While cutting" }).innerText(), /0 of 8 answered/);
  await page.evaluate(() => {
    const settings = JSON.parse(localStorage["tautline.settings"] ?? "{}");
    localStorage["tautline.settings"] = JSON.stringify({ ...settings, seen: true });
  });
  await open(app, page, `/cut/${id}/judge`);
  assert.equal(await page.getByLabel("What went well").count(), 0);
  await open(app, page, `/cut/${id}/assess`);
  const text = await page.locator(".on-paper").innerText();
  assert.ok(!text.includes("lost it") && !text.includes("The line"));
  assert.deepEqual(seen.errors, []);
  await context.close();
});

const pages = (pdf) => pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;

test("the assessor's sheet is on two pages at the most, with all that was put down", async () => {
  const { context, page, seen } = await app.newPhone({ isMobile: false, colorScheme: "dark" });
  const remark = "a remark that somebody typed at length about this one, invented";
  const ids = ["asked", "health", "looked", "guided", "held", "safe", "checked", "even"];
  const judged = {
    answers: Object.fromEntries(ids.map((id) => [id, "met"])),
    remarks: Object.fromEntries(ids.map((id) => [id, remark])),
    well: remark, otherwise: `<b>${remark}</b>`, next: remark,
  };
  const typed = (place, side, cm) => ({ place, side, when: "after", how: "combed", typed: `${cm} cm`, expected: 20 });
  const measures = ["left", "right"].flatMap((side) => ["temple", "in_front_of_ear", "behind_ear", "parietal_ridge"]
    .map((place, i) => typed(place, side, 20 + i / 10)));
  const title = "A long name, invented, that somebody typed for a cut";
  const id = await bob(page, { title, visit: { judged, measures } });
  await open(app, page, `/cut/${id}/assess`);
  await page.locator(".assess-hand").waitFor();
  const text = await page.locator(".on-paper").innerText();
  for (const words of [title, "practice head", remark, "usually 30 min", "20 November 2026", "Signature", "SKAHDBR18", "+0.3 cm", "Nape 1, right"]) {
    assert.ok(text.includes(words), `${words} in ${text}`);
  }
  // The whole bob takes 30 min; six of its sections were kept.
  assert.match(text, /6 of \d+ done; furthest off at the chair/);
  await shot(page, "assess");
  assert.deepEqual(await violations(page), []);
  await page.emulateMedia({ media: "print" });
  for (const [format, wide] of Object.entries({ A4: 718, Letter: 740 })) {
    await page.setViewportSize({ width: wide, height: 1000 });
    const count = pages(await page.pdf({ format }));
    assert.ok(count <= 2, `${count} pages of ${format}`);
    const faults = await page.evaluate((wide) => [...document.querySelectorAll(".on-paper *")].flatMap((e) => {
      if (e.getClientRects().length === 0) return [];
      const { left, right } = e.getBoundingClientRect();
      const size = Number.parseFloat(getComputedStyle(e).fontSize) * 0.75;
      const name = `${e.tagName} ${e.textContent.slice(0, 30)}`;
      return [
        ...(left < -0.5 || right > wide + 0.5 ? [`wide: ${name} ${left} to ${right}`] : []),
        ...(size < 7.99 ? [`small: ${name} ${size}`] : []),
      ];
    }), wide);
    assert.deepEqual(faults, [], format);
  }
  await shot(page, "assess-print");
  assert.deepEqual(seen.errors, []);
  await context.close();
});

// So many finished bobs beside the example, on as many days.
async function many(page, id, offs, change = {}) {
  const walks = offs.map((off, i) => walked(`2026-10-${String(i + 1).padStart(2, "0")}`, off));
  await page.evaluate(([id, walks, change]) => {
    const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
    const { walk: _, visit: __, ...cut } = JSON.parse(localStorage[key]);
    const index = JSON.parse(localStorage["tautline.index"]);
    for (const [i, walk] of walks.entries()) {
      const own = `past-${i}`;
      localStorage[`tautline.cut.${own}.1`] = JSON.stringify({ ...cut, id: own, title: `Invented ${i + 1}`, walk, ...change });
      index.cuts[own] = 1;
    }
    localStorage["tautline.index"] = JSON.stringify(index);
  }, [id, walks, change]);
}

test("after five cuts it says what comes back", async () => {
  const { context, page, seen } = await app.newPhone();
  const id = await bob(page, { walk: null });
  await many(page, id, [-0.8, -0.7, -0.9, -0.1, -0.5]);
  await open(app, page, "/trends");
  const told = page.locator(".told");
  await told.first().waitFor();
  assert.deepEqual(await told.allInnerTexts(), [
    "The right side runs 0.6 cm short, in 4 of 5 cuts. So few cuts may still be chance.",
  ]);
  assert.equal(await page.locator(".t-dot").count(), 20);
  await page.getByText("Regions", { exact: true }).click();
  await page.locator(".t-name", { hasText: "The nape" }).waitFor();
  assert.ok(await page.locator("table").getByText("Hair cut in its fall").isVisible());
  await shot(page, "trends");
  assert.deepEqual(await violations(page), []);
  await page.getByText("Practice heads", { exact: true }).click();
  await told.first().waitFor();
  // Of somebody else there is nothing.
  await open(app, page, "/trends?of=nobody");
  await page.getByText("Nothing was measured in a finished cut yet.").waitFor();
  await page.getByText("All cuts", { exact: true }).click();
  await told.first().waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});
