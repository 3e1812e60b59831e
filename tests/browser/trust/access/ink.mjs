// What pictures are drawn with: every word in them at least 4.5 : 1 and every line that means something at
// least 3 : 1 on its ground (WCAG 2.2, 1.4.3 and 1.4.11); every picture has a title and a description.
//
//   QUIET           what need not be seen to understand a picture, with why
//   pale(quiet)     runs in the page → { found, unsaid, looked }: what is too pale, pictures without
//                   words, and how many words and lines were looked at

export const QUIET = {
  "d-body": "the body below the head only says that it is one",
  "a-body": "the same, where holds are looked for",
  "c-parcel": "edges of sections under contours; the sections have a picture of their own",
  "o-hair": "the wash of the hair, whose edge is a line of its own",
  "o-axis": "the frame of a scale, whose numbers stand beside it",
  "grid": "lines of a chart's grid, whose values stand at its edge and in the table",
};

export const pale = (quiet) => {
  const { parse, over, contrast, ground } = look;
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
    if (!svg.closest("[aria-hidden=true]")) {
      // A picture that follows a hand tells itself in one label.
      const label = svg.getAttribute("aria-label");
      const said = label ?? svg.querySelector(":scope > title")?.textContent;
      const told = svg.querySelector(":scope > desc")?.textContent;
      if (svg.getAttribute("role") !== "img" || !said || (!told && !label && !svg.closest("figure, .offer, label, .pass-code"))) {
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
      // A mark is a disc with an edge that keeps it apart from the map; its number stands on it.
      const disc = names[0] === "g-mark";
      const inks = text || disc ? [ink("fill")] : [ink("stroke") ?? ink("fill")];
      const under = names[0] === "g-number" ? wash("--accent") : base;
      for (const colour of inks.filter(Boolean)) {
        // A shape in the colour of its ground hides what is behind it; a grid is a grid.
        if (!text && same(over(colour, base), base)) continue;
        if (!text && ink("stroke") === null && washes.some((wash) => same(colour, wash))) continue;
        if (names.some((name) => quiet.includes(name)) || (!text && names[0] === "" && same(colour, line))) continue;
        looked += 1;
        const ratio = contrast(over(colour, under), under);
        const least = text ? 4.5 : 3;
        const name = `${svg.getAttribute("class")} ${e.tagName}.${names.join(".")}`;
        if (ratio < least && !found.has(name)) found.set(name, `${name}: ${ratio.toFixed(2)} (${least})`);
      }
    }
  }
  return { found: [...found.values()], unsaid, looked };
};
