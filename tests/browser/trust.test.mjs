// The quick part of `make trust`: each of its measures as a test of its own, with fewer tries.
import assert from "node:assert/strict";
import { test } from "node:test";
import { groups, take } from "./trust.mjs";

for (const { title, measures } of await groups()) {
  for (const measure of measures.filter(({ quick }) => quick)) {
    test(`${title}: ${measure.name}`, async (t) => {
      const { tries, figure, well, error } = await take(measure, false);
      t.diagnostic(`${tries} tries: ${figure} (asked: ${measure.budget})`);
      if (error) throw error;
      assert.ok(well, `${figure}; asked: ${measure.budget}`);
    });
  }
}
