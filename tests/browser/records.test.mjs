// Whatever stands in a stored document: every screen of it says something that can be read, soon, and
// what cannot be read is kept as it is.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { newExample } from "./flow.mjs";
import { open, start } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const SCREENS = ["head", "client", "plan", "choose", "edit", "aim", "compare", "sheet", "pass", "walk", "end", "visit", "judge", "assess"];
const SOON = 10000;
const plan = (id) => JSON.parse(readFileSync(new URL(`../../src/plan/cuts/${id}.json`, import.meta.url)));
const OWN = plan("soft-layers-face-frame");
const BOB = plan("graduated-bob");
const own = (change, of = OWN) => (cut) => {
  const own = structuredClone(of);
  change(own);
  return { ...cut, plan: own.id, own };
};
const text = (of, to) => (cut) => {
  const before = JSON.stringify({ ...cut, own: OWN });
  const after = before.replaceAll(of, to);
  assert.notEqual(before, after, String(of));
  return after;
};
const each = (list, change) => list.forEach(change);
const lots = (n, make) => Array.from({ length: n }, (_, i) => make(i));
const wish = (more) => ({ what: "front", on: true, at: { landmark: "chin", below: 0 }, most: 0, ...more });

// A walk through nothing but its first section.
const finished = () => ({ started_at: "2026-11-26T10:00:00.000Z", finished_at: "2026-11-26T10:40:00.000Z", done: [{ key: { step: OWN.steps[0].id, side: "left", number: 1 }, at: "2026-11-26T10:05:00.000Z", target: 20, came_out_at: 19 }] });

// What is changed in a new cut's document; a text is stored as it is.
const RECORDS = {
  "not a document": () => "[]",
  "half a document": (cut) => JSON.stringify(cut).slice(0, 90),
  "an empty text": () => "",
  "the first format": (cut) => ({ ...cut, schema: 1 }),
  "the first format with what came later": own((own) => { own.steps[0].longer = 1; }),
  "a format to come": (cut) => ({ ...cut, schema: 9, what: [1] }),
  "a format below zero": (cut) => ({ ...cut, schema: -1 }),
  "an unknown plan": (cut) => ({ ...cut, plan: "no-such-plan" }),
  "an unknown plan of its own": own((own) => { own.id = "mine"; own.name = ""; }),
  "a plan of its own under another's id": (cut) => ({ ...cut, plan: "graduated-bob", own: OWN }),
  "no steps": own((own) => { own.steps = []; }),
  "no choices": own((own) => { own.choices = []; }),
  "two choices alike": own((own) => { own.choices.push(own.choices[0]); }),
  "a step twice": own((own) => { own.steps.push(own.steps[0]); }),
  "steps backwards": own((own) => { own.steps.reverse(); }),
  "steps without texts": own((own) => each(own.steps, (s) => { s.title = ""; s.id = ""; })),
  "five thousand letters": own((own) => { own.name = own.steps[1].title = "long ".repeat(1000); own.about = "🙂".repeat(5000); }),
  "html in texts": own((own) => { own.name = own.steps[0].title = "<img src=x onerror=throw(1)>"; }),
  "sixty steps": own((own) => {
    const last = own.steps.pop();
    own.steps = lots(60, (i) => ({ ...own.steps[i % own.steps.length], id: `s${i}` })).map((s) => ({ ...s, recuts: [], apart: [] }));
    own.steps[0] = { ...OWN.steps[0] };
    own.steps.push({ ...last, recuts: [], apart: [] });
  }),
  "three hundred steps": own((own) => {
    own.steps = lots(300, (i) => ({ ...BOB.steps[0], id: `s${i}`, recuts: [], apart: [] }));
    own.choices = BOB.choices;
  }),
  "left longer by anything": own((own) => each(own.steps, (s) => { s.longer = 1e308; })),
  "left shorter by anything": own((own) => each(own.steps, (s) => { s.longer = -59; })),
  "tilted over": own((own) => each(own.steps, (s) => { s.tilt = { forward: 1e308, left: -1e308 }; })),
  "tilted to the ends": own((own) => each(own.steps, (s) => { s.tilt = { forward: -60, left: 45 }; })),
  "every side": own((own) => each(own.steps, (s, i) => { s.sides = ["left", "right", "across", "both"][i % 4]; })),
  "across only": own((own) => each(own.steps, (s) => { s.sides = "across"; }), BOB),
  "no spacing": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [], pattern: { horizontal: { spacing: 0, from: "bottom" } }, name: "" } }; })),
  "spacing below zero": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [], pattern: { radial: { spacing: -3, from: "back" } }, name: "" } }; })),
  "spacing of a light year": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [], pattern: { strips: { spacing: 1e308 } }, name: "" } }; })),
  "the finest spacing": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [], pattern: { vertical: { spacing: 0.5, from: "back" } }, name: "x" } }; })),
  "a region without scalp": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [{ before: "ear_to_ear" }, { behind: "ear_to_ear" }], pattern: "whole", name: "" } }; })),
  "a region far off": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [{ above: { level: { at: "crown", up: 1e308 } } }], pattern: "whole", name: "" } }; })),
  "bounds of no number": own((own) => each(own.steps, (s) => { s.area = { parted: { region: [{ within: { beside: { cm: -1e308 } } }, { below: { fringe: { depth: 1e308, width: 1e308 } } }, { behind: { to_high_point: { behind: -1e308 } } }], pattern: "whole", name: "" } }; })),
  "places off the head": own((own) => each(own.steps, (s) => { s.area = { places: { places: [{ name: "x", azimuth: 1e308, out: -1e308 }] } }; })),
  "a thousand places": own((own) => { own.steps.at(-1).area = { places: { places: lots(1000, (i) => ({ name: `${i}`, azimuth: i, out: 0.5 })) } }; }),
  "a thousand edges": own((own) => { own.steps[1].area = { pivoting: { edges: lots(1001, (i) => ({ behind: i / 1001 })), names: lots(1000, String) } }; }),
  "a piece of no size": own((own) => { own.steps[0].area = { front_piece: { width: 0, depth: 0, name: "" } }; }),
  "held beyond": own((own) => each(own.steps, (s) => { s.held = { travelling: { elevation: { degrees: -1e308, from: "head" }, over: { degrees: 1e308 }, fingers: { leaning: 1e308 }, length: { length: { fixed: 1e308 } } } }; })),
  "fingers that lean beyond": own((own) => each(own.steps, (s) => { s.held = { travelling: { elevation: { degrees: 90, from: "head" }, fingers: { leaning: 1e308 }, length: { length: { fixed: 12 } } } }; })),
  "a slope beyond": own((own) => each(own.steps, (s) => { s.held = { plane: { facing: { slope: -1e308 }, length: { length: { fixed: 12 } } } }; })),
  "a fall that slopes beyond": own((own) => each(own.steps, (s) => { s.held = { fall: { to: { fixed: "chin" }, line: { sloping: 1e308 } } }; })),
  "a fall straight up": own((own) => each(own.steps, (s) => { s.held = { fall: { to: { fixed: "chin" }, line: { sloping: 90 } } }; })),
  "a taper that rises beyond": own((own) => each(own.steps, (s) => { s.held = { taper: { hairline: { fixed: 1 }, rise: 1e308, up_to: { fixed: 150 } } }; })),
  "a taper that sinks": own((own) => each(own.steps, (s) => { s.held = { taper: { hairline: { fixed: -5 }, rise: -1e308, up_to: { fixed: -150 } } }; })),
  "a trim below zero": own((own) => each(own.steps, (s) => { s.held = { trim: { off: { fixed: -149 } } }; })),
  "lengths of nothing": own((own) => each(own.steps, (s) => { s.held = { plane: { facing: "top", length: { length: { fixed: 0 } } } }; })),
  "guided by itself": own((own) => each(own.steps, (s) => { s.held = { plane: { facing: "top", length: { as_step: s.id } } }; })),
  "a choice for what it is not": own((own) => each(own.steps, (s) => { s.held = { plane: { facing: "top", length: { length: { choice: own.choices[0].id } } } }; })),
  "a choice that is gone": own((own) => each(own.steps, (s) => { s.held = { fall: { to: { choice: "nowhere" } } }; })),
  "a choice without an end": own((own) => { own.choices.push({ id: "odd", ask: "", kind: { length: { least: -1e308, most: 1e308 } }, default: "3" }); }),
  "a choice without options": own((own) => { own.choices.push({ id: "odd", ask: "", kind: { landmark: { options: [] } }, default: "" }); }),
  "speaks of what comes later": own((own) => { own.steps[0].recuts = [own.steps[2].id, "gone"]; own.steps[0].apart = own.steps[0].recuts; }),
  "minutes without an end": own((own) => { own.minutes = 4294967295; }),
  "another plan format": own((own) => { own.schema = 7; }),
  "an unknown word": text("\"stationary\"", "\"sideways\""),
  "a number too large": text("\"degrees\":90", "\"degrees\":1e999"),
  "no number": text("\"degrees\":90", "\"degrees\":\"NaN\""),
  "a null for a number": text("\"degrees\":90", "\"degrees\":null"),
  "a consultation that is a list": (cut) => ({ ...cut, consultation: [1, 2] }),
  "answers that are numbers": (cut) => ({ ...cut, consultation: { answers: { density: 4 } } }),
  "answers of another time": (cut) => ({ ...cut, consultation: { answers: { density: "huge", shortest: "1e308", lock_hangs: "NaN", parting: "behind", "ends_at/front": "moon", two_goes: "on", two_goes_by: "10 cm", ears: "on", ears_by: "🙂", curls: "on", curls_by: "-3", what: "x" } } }),
  "marks off the head": (cut) => ({ ...cut, consultation: { marks: [{ growth: "cowlick", azimuth: 1e308, out: -1e308, longer: "1e308" }, { growth: "nape_up", azimuth: 180, out: 50, longer: "4 cm" }] } }),
  "a thousand marks": (cut) => ({ ...cut, consultation: { marks: lots(1000, (i) => ({ growth: "cowlick", azimuth: i, out: 0.5, longer: "5 cm" })) } }),
  "an unknown growth": (cut) => ({ ...cut, consultation: { marks: [{ growth: "sideways" }] } }),
  "aims that are a text": (cut) => ({ ...cut, aims: "up" }),
  "aims without an end": (cut) => ({ ...cut, aims: { wishes: [wish({ at: { landmark: "chin", below: 1e308 } }), wish({ what: "off", most: -1e308 }), wish({ what: "off", most: 1e308 }), wish({}), wish({})], fixed: [{ step: "gone", turns: "length" }] } }),
  "unread that is a list": (cut) => ({ ...cut, unread: ["a"] }),
  "unread of nothing": (cut) => ({ ...cut, unread: { "": "x", "/": "y", "front-guide/elevation": "🙂".repeat(5000), "face-frame/elevation": "steep" } }),
  "choices that are numbers": (cut) => ({ ...cut, choices: { before: 3 } }),
  "choices of another plan": (cut) => ({ ...cut, choices: { before: "1e308", parting: "up", gone: "x" } }),
  "tapes of nonsense": (cut) => ({ ...cut, tapes: { circumference: "1e308", breadth: "🙂", length: "-4" } }),
  "an unknown tape": (cut) => ({ ...cut, tapes: { elbow: "3 cm" } }),
  "tapes that contradict": (cut) => ({ ...cut, tapes: { circumference: "48 cm", length: "23 cm", breadth: "17.9 cm" } }),
  "an id of another": (cut) => ({ ...cut, id: "other" }),
  "a walk of another plan": (cut) => ({ ...cut, walk: { started_at: "", done: [{ key: { step: "gone", side: "left", number: 900 }, came_out_at: 1e308, at: "" }], at: { step: "gone", side: "centre", number: 0 } } }),
  "a walk measured at anything": (cut) => ({ ...cut, walk: { started_at: "x", done: lots(3, (i) => ({ key: { step: OWN.steps[0].id, side: i === 1 ? "right" : "left", number: 1 }, came_out_at: [1e308, 0, -1e308][i], at: "x" })) } }),
  "a walk matched at anything": (cut) => ({ ...cut, walk: { started_at: "x", done: [], matched: lots(4, (i) => ({ key: { step: OWN.steps[i % 2].id, side: i < 2 ? "left" : "right", number: 1 }, length: [1e9, -5, 1e308, 60][i] })) } }),
  "a walk of pauses without sense": (cut) => ({ ...cut, walk: { started_at: "9999-12-31T23:59:59.000Z", done: [], pauses: [{ from: "" }, { from: "🙂", to: "y" }, { from: "2026-11-25T09:00:00Z", to: "2020-01-01T00:00:00Z" }, { from: "x", to: null }] } }),
  "a walk checked nowhere": (cut) => ({ ...cut, walk: { started_at: "x", done: [], half_told: true, checked: [{ key: { step: OWN.steps.at(-1).id, side: "left", number: 1 }, place: 99, length: 1e308 }, { key: { step: OWN.steps.at(-1).id, side: "left", number: 1 }, place: 1, length: -1e308 }] } }),
  "a visit of nobody that is here": (cut) => ({ ...cut, visit: { of: "gone", day: "tomorrow", return_on: "2026-99-99", tags: lots(300, (i) => `<b>${i}</b>`), notes: "<img src=x onerror=throw(1)>".repeat(200) } }),
  "a visit measured at anything": (cut) => ({ ...cut, walk: finished(), visit: { measures: ["nan", "1e308", "-3 cm", "", "9999999 cm", "0", "12 cm", "<b>"].flatMap((typed, i) => ["after", "before"].map((when) => ({ place: ["crown", "nape", "temple", "chin"][i % 4], side: ["left", "right", "centre"][i % 3], when, how: i % 2 ? "hanging" : "combed", typed, expected: [1e308, -1e308, 0, null][i % 4] }))) } }),
  "a visit judged by anything": (cut) => ({ ...cut, walk: finished(), visit: { judged: { answers: { gone: "met", "": "what" }, remarks: { gone: "<b>", "": "long ".repeat(2000) }, well: "long ".repeat(2000), otherwise: "<script>", next: "\u202eback" } } }),
  "hair left that is no map": (cut) => ({ ...cut, left: { map: "31x18:no,numbers", of: "gone", day: "never", grown: 1e308 } }),
  "hair left of nothing": (cut) => ({ ...cut, walk: finished(), left: { map: "", of: "", day: "", grown: -5 } }),
  "a walk that is done": (cut) => ({ ...cut, walk: { started_at: "x", finished_at: "y", done: [] } }),
};

// What is changed beside a document.
const BESIDE = {
  "a history that is none": (id) => ({ [`tautline.undo.${id}`]: "{no" }),
  "a history of another plan": (id) => ({ [`tautline.undo.${id}`]: JSON.stringify({ past: [{ at: 0, before: { plan: "x", count: 2, steps: [] }, after: { plan: "x", count: 2, steps: [] } }], future: [] }) }),
  "a history beyond the end": (id) => ({ [`tautline.undo.${id}`]: JSON.stringify({ past: [{ at: 4294967295, before: { plan: OWN.id, count: OWN.steps.length, steps: [OWN.steps[0]] }, after: { plan: OWN.id, count: OWN.steps.length, steps: [OWN.steps[0]] } }], future: [] }) }),
  "a history that empties the plan": (id) => ({ [`tautline.undo.${id}`]: JSON.stringify({ past: [{ at: 0, before: { plan: OWN.id, count: 0, steps: [] }, after: { plan: OWN.id, count: OWN.steps.length, steps: OWN.steps } }], future: [] }) }),
  "an index that is none": () => ({ "tautline.index": "[1" }),
  "an index of the last revision": (id) => ({ "tautline.index": JSON.stringify({ schema: 1, cuts: { [id]: 1 } }) }),
  "settings of another time": () => ({ "tautline.settings": "{\"unit\":\"ells\",\"hand\":3}" }),
  "a revision without an end": (id) => ({ [`tautline.cut.${id}.18446744073709551615`]: "{}" }),
};

function look() {
  const heading = [...document.querySelectorAll("h1")].find((h) => h.getClientRects().length > 0);
  const main = document.querySelector("main")?.innerText.trim() ?? "";
  return {
    heading: heading?.innerText.trim() ?? "",
    words: main.length,
    odd: /\bNaN\b|\binf\b|\bundefined\b/.exec(main.replace(/“[^”]*”/g, ""))?.[0],
    stopped: document.getElementById("stopped") !== null,
  };
}

async function opened(page, seen, name, id, screens) {
  const wrong = [];
  for (const screen of screens) {
    const path = screen === "" ? "/" : `/cut/${id}/${screen}`;
    const began = Date.now();
    await page.evaluate((path) => {
      const link = document.createElement("a");
      link.href = path;
      document.getElementById("app").append(link);
      link.click();
      link.remove();
    }, path);
    await page.evaluate(() => new Promise((done) => { requestAnimationFrame(() => setTimeout(done, 0)); }));
    const took = Date.now() - began;
    let view = await page.evaluate(look);
    for (let i = 0; i < 40 && (view.heading === "" || view.words < 10); i += 1) {
      await page.waitForTimeout(25);
      view = await page.evaluate(look);
    }
    const errors = seen.errors.splice(0);
    if (took > SOON) wrong.push(`${name}, ${screen}: ${took} ms`);
    if (view.heading === "" || view.words < 10) wrong.push(`${name}, ${screen}: blank`);
    if (view.odd) wrong.push(`${name}, ${screen}: says ${view.odd}`);
    if (view.stopped || errors.length > 0) {
      wrong.push(`${name}, ${screen}: ${errors.join("; ").slice(0, 400)}`);
      break;
    }
  }
  return wrong;
}

async function example() {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(20000);
  await newExample(app, page);
  const id = new URL(page.url()).pathname.split("/")[2];
  const kept = await page.evaluate(() => ({ ...localStorage }));
  const [key] = Object.keys(kept).filter((k) => k.startsWith(`tautline.cut.${id}.`));
  const lay = (more) => page.evaluate((kept) => {
    localStorage.clear();
    for (const [key, text] of Object.entries(kept)) localStorage.setItem(key, text);
  }, { ...kept, ...more });
  return { context, page, seen, id, key, cut: JSON.parse(kept[key]), lay };
}

const names = process.env.RECORD ? Object.keys(RECORDS).filter((n) => n.includes(process.env.RECORD)) : Object.keys(RECORDS);
for (const part of [0, 1, 2, 3]) {
  test(`every screen opens whatever is stored, part ${part + 1} of 4`, async () => {
    const { context, page, seen, id, key, cut, lay } = await example();
    const wrong = [];
    for (const name of names.filter((_, i) => i % 4 === part)) {
      const changed = RECORDS[name](structuredClone(cut));
      const stored = typeof changed === "string" ? changed : JSON.stringify(changed);
      await open(app, page, "/settings");
      await lay({ [key]: stored });
      wrong.push(...await opened(page, seen, name, id, ["", ...SCREENS]));
      // Looked at only, it is as it was.
      assert.equal(await page.evaluate((key) => localStorage.getItem(key), key), stored, name);
    }
    assert.deepEqual(wrong, []);
    await context.close();
  });
}

test("every screen opens whatever is stored beside a cut, and what can be taken back is a plan", async () => {
  const { context, page, seen, id, key, cut, lay } = await example();
  const wrong = [];
  for (const [name, beside] of Object.entries(BESIDE)) {
    await open(app, page, "/settings");
    await lay({ [key]: JSON.stringify({ ...cut, own: OWN }), ...beside(id) });
    wrong.push(...await opened(page, seen, name, id, ["", ...SCREENS, "edit"]));
    for (const press of ["Undo", "Redo", "New step", "Undo", "Redo"]) {
      await page.evaluate((press) => {
        const button = [...document.querySelectorAll("main button")].find((b) => b.innerText.includes(press));
        if (button && !button.disabled) button.click();
      }, press);
    }
    wrong.push(...await opened(page, seen, `${name}, pressed`, id, ["edit", "plan", ""]));
    assert.equal(await page.getByText("A cut that can't be read").count(), 0, name);
    assert.equal(await page.locator(".cuts li").count(), 1, name);
  }
  assert.deepEqual(wrong, []);
  await context.close();
});
