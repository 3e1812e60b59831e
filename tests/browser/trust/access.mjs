// Access: what WCAG 2.2 AA asks, and more, of every screen and state (access/states.mjs); the main flow by
// keys alone and as a screen reader has it; Lighthouse.
import { start } from "../harness.mjs";
import { byKeys } from "./access/keys.mjs";
import { lighthouse } from "./access/lighthouse.mjs";
import { planted } from "./access/planted.mjs";
import { spoken } from "./access/spoken.mjs";
import { walk } from "./access/walk.mjs";

export const title = "Access";

// At most so many lines of what was found: the first tell enough.
const few = (found) => found.slice(0, 4).join("; ") + (found.length > 4 ? `; and ${found.length - 4} more` : "");

// A measure that is a look of the one walk.
const looked = (name, looks, budget) => ({
  name, budget, quick: true,
  run: async (full) => {
    const all = await walk(full);
    const of = looks.map((look) => all.looks[look] ?? { tries: 0, found: [] });
    const found = of.flatMap((look) => look.found);
    const tries = of.reduce((sum, look) => sum + look.tries, 0);
    return {
      tries, well: found.length === 0 && tries > 0,
      figure: found.length === 0 ? `0 faults on ${all.states} states` : `${found.length} faults: ${few(found)}`,
    };
  },
});

async function withApp(work) {
  const app = await start();
  try {
    return await work(app);
  } finally {
    await app.close();
  }
}

export const measures = [
  {
    name: "Faults planted on purpose are seen by every look below",
    budget: "all", quick: true,
    run: () => withApp(async (app) => {
      const { tries, missed } = await planted(app);
      return { tries, figure: missed.length ? few(missed) : `${tries} of ${tries} seen`, well: missed.length === 0 };
    }),
  },
  looked("Every state is reached, with no error in the console", ["reached", "errors"], "every one"),
  looked("axe, every stable rule, best practices and targets too: light, dark, phone, tablet, desk", ["axe"], "0"),
  looked("Reflow at 320 px, a tablet, a desk: sideways scrolling, words cut off or over each other", ["reflow"], "0"),
  looked("200 %: the page at 640 × 400, and letters twice as large on a phone", ["zoom"], "0"),
  looked("Text spacing of WCAG 1.4.12: words lost", ["spacing"], "0"),
  looked("Forced colours, light and dark: lines of pictures, what is chosen", ["forced"], "0"),
  looked("Contrast of words and lines in pictures, and of the edges of controls, light and dark", ["ink", "edges", "alike"], "4.5 : 1 words, 3 : 1 lines"),
  looked("Less motion asked for: anything that moves for longer than 10 ms", ["motion"], "0"),
  looked("What is pressed: 48 px at the chair, 24 px elsewhere", ["targets"], "0 smaller"),
  looked("Tab and Shift+Tab through all of it: reached, seen, with a ring of 3 : 1, no trap", ["focus"], "0 faults"),
  {
    name: "The main flow by keys alone: Tab, Enter, Space, arrows, Escape",
    budget: "to its end, the focus never lost", quick: false,
    run: () => withApp(async (app) => {
      const { presses, places } = await byKeys(app);
      return { tries: presses, figure: `${presses} keys, ${places.length} changes of screen, the focus kept at each`, well: true };
    }),
  },
  {
    name: "As a screen reader has it: landmarks, headings, names, tables, what is said by itself",
    budget: "as written down", quick: false,
    run: () => withApp(async (app) => {
      const { tries, found } = await spoken(app);
      return { tries, figure: found.length ? few(found) : `${tries} expectations met`, well: found.length === 0 };
    }),
  },
  ...lighthouse,
];
