// What can be seen of a screen that stands, each look as one function that runs in the page.
//
//   wide()      what makes the page scroll sideways (WCAG 2.2, 1.4.10)
//   lost()      words that are cut off by what holds them, or that lie over each other
//   small(least)  what is pressed and is smaller than so many pixels (2.5.8; at the chair a knuckle)
//   faint()     controls whose edge is hardly told from the page, below 3:1 (1.4.11)
//   moving()    what moves although the person asked for less motion (2.3.3)
//   alike()     what is chosen or pressed and looks like what is not (1.4.1), also in forced colours
//   plated()    words that a plate hides, where colours are forced
//   focused()   the element with the focus: what it is, whether it is seen, and how its ring stands out
//   stops()     how many stops Tab should make: all that can be pressed or typed into
//
// Each gives a list of lines; [] is what is wanted. COMMON goes into the page first.

export const COMMON = () => {
  const parse = (colour) => {
    const [r, g, b, a = 1] = (colour.replace(/^color\(srgb/, "").match(/[\d.]+/g) ?? []).map(Number);
    const most = colour.startsWith("color(") ? 255 : 1;
    return { r: r * most, g: g * most, b: b * most, a };
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
    return matchMedia("(prefers-color-scheme: dark)").matches ? parse("rgb(18,18,18)") : parse("rgb(255,255,255)");
  };
  const named = (e) => {
    const name = e.getAttribute("aria-label") ?? e.labels?.[0]?.textContent ?? e.textContent ?? "";
    const kind = [e.tagName.toLowerCase(), e.id && `#${e.id}`, e.getAttribute("class") && `.${e.getAttribute("class").trim().replaceAll(" ", ".")}`];
    return `${kind.filter(Boolean).join("")} “${name.trim().replaceAll(/\s+/g, " ").slice(0, 40)}”`;
  };
  const seen = (e) => e.checkVisibility({ visibilityProperty: true }) && [...e.getClientRects()].some((r) => r.width > 0 && r.height > 0);
  // What is only for those who hear: one pixel, cut away.
  const hushed = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const style = getComputedStyle(at);
      if (style.clipPath.startsWith("inset(50%") || (style.position === "absolute" && at.clientWidth <= 1 && style.overflow !== "visible")) return true;
    }
    return false;
  };
  // What stands for a control to the eye and the finger: a radio's or a tick's own label.
  const body = (e) => {
    const label = e.labels?.[0];
    return label?.contains(e) && /radio|checkbox/.test(e.type) ? label : e;
  };
  const PRESSED = "a[href], button, input, select, textarea, summary, [tabindex]:not([tabindex='-1']), [role=slider], [role=button]";
  globalThis.look = { parse, over, contrast, ground, named, seen, hushed, body, PRESSED };
};

export const wide = () => {
  const root = document.documentElement;
  const held = (e) => {
    for (let at = e.parentElement; at && at !== document.body; at = at.parentElement) {
      if (getComputedStyle(at).overflowX !== "visible") return true;
    }
    return false;
  };
  const found = [];
  if (root.scrollWidth > root.clientWidth) {
    const out = [...document.querySelectorAll("body *")]
      .map((e) => ({ e, right: e.getBoundingClientRect().right }))
      .filter(({ e, right }) => right > root.clientWidth + 1 && !look.hushed(e) && !held(e))
      .sort((a, b) => b.right - a.right || b.e.innerHTML.length - a.e.innerHTML.length).slice(0, 3)
      .map(({ e, right }) => `${look.named(e)} to ${Math.round(right)}`);
    found.push(`${root.scrollWidth} of ${root.clientWidth} px: ${out.join(" | ")}`);
  }
  // Tables may be moved within themselves (1.4.10 lets what needs two dimensions), nothing else.
  for (const e of document.querySelectorAll("body *")) {
    if (e.tagName === "TABLE" || e.firstElementChild?.tagName === "TABLE" || e.scrollWidth <= e.clientWidth + 1 || e instanceof SVGElement) continue;
    if (/auto|scroll/.test(getComputedStyle(e).overflowX) && !/INPUT|TEXTAREA|SELECT/.test(e.tagName) && look.seen(e)) {
      found.push(`${look.named(e)} is moved sideways: ${e.scrollWidth} of ${e.clientWidth}`);
    }
  }
  return found;
};

export const lost = () => {
  const found = new Set();
  const lines = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const holder = node.parentElement;
    if (!node.data.trim() || /SCRIPT|STYLE|NOSCRIPT|OPTION|TITLE|DESC|title|desc/.test(holder.tagName)) continue;
    if (!look.seen(holder) || look.hushed(holder)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const rects = [...range.getClientRects()].filter((r) => r.width > 1 && r.height > 1);
    const said = `“${node.data.trim().slice(0, 30)}”`;
    for (let at = holder; at && at !== document.body; at = at.parentElement) {
      const style = getComputedStyle(at);
      const box = at.getBoundingClientRect();
      const cut = (overflow) => overflow === "hidden" || overflow === "clip";
      const picture = at.tagName === "svg";
      for (const r of rects) {
        const sideways = (r.right > box.right + 2 || r.left < box.left - 2) && (cut(style.overflowX) || picture);
        const down = (r.bottom > box.bottom + 4 || r.top < box.top - 4) && (cut(style.overflowY) || picture);
        if ((sideways || down) && (!picture || cut(style.overflowX))) found.add(`${said} is cut off by ${look.named(at).slice(0, 60)}`);
      }
    }
    const button = holder.closest("button, .button, nav a");
    const around = button?.getBoundingClientRect();
    if (around && rects.some((r) => r.left < around.left - 1 || r.right > around.right + 1)) found.add(`${said} stands out of ${look.named(button)}`);
    // A name may be one long word; of our own words none is broken in two.
    if (holder.closest("button, .button, nav a, h1, h2")) {
      for (const { 0: word, index } of node.data.matchAll(/\p{L}{3,}/gu)) {
        range.setStart(node, index);
        range.setEnd(node, index + word.length);
        const tops = new Set([...range.getClientRects()].filter((r) => r.width > 1).map((r) => Math.round(r.top)));
        if (tops.size > 1) found.add(`“${word}” is broken in two`);
      }
    }
    if (holder.closest("svg")) continue;
    // What stays in place while the page moves below it covers by design, and the focus look sees to it; so
    // does the button that moves the page where there is more to read.
    let fixed = false;
    for (let at = holder; at; at = at.parentElement) fixed ||= /sticky|fixed|absolute/.test(getComputedStyle(at).position);
    if (fixed || holder.closest(".more")) continue;
    // A font reserves more height than its letters have: what they have is held against each other.
    for (const r of rects) {
      const air = r.height * 0.22;
      lines.push({ r: { left: r.left, right: r.right, top: r.top + air, bottom: r.bottom - air, height: r.height - 2 * air }, holder, said });
    }
  }
  // What is scrolled away inside a part of its own lies where it is not seen.
  const within = ({ r, holder }) => {
    for (let at = holder.parentElement; at; at = at.parentElement) {
      if (!/auto|scroll/.test(getComputedStyle(at).overflowY)) continue;
      const box = at.getBoundingClientRect();
      if (r.bottom > box.bottom + 1 || r.top < box.top - 1) return false;
    }
    return true;
  };
  const open = lines.filter(within).sort((a, b) => a.r.top - b.r.top);
  for (let i = 0; i < open.length; i += 1) {
    for (let j = i + 1; j < open.length && open[j].r.top < open[i].r.bottom; j += 1) {
      const [a, b] = [open[i], open[j]];
      if (a.holder === b.holder) continue;
      const across = Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left);
      const down = Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top);
      if (across > 3 && down > 0.4 * Math.min(a.r.height, b.r.height)) found.add(`${a.said} lies over ${b.said}`);
    }
  }
  // A number or a choice that its own field cuts off. Words may be longer than their field: it is moved through.
  const pen = document.createElement("canvas").getContext("2d");
  for (const e of document.querySelectorAll("input[type=text], select")) {
    if (!look.seen(e) || e.readOnly) continue;
    const style = getComputedStyle(e);
    pen.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    pen.letterSpacing = style.letterSpacing === "normal" ? "0px" : style.letterSpacing;
    const text = e.tagName === "SELECT" ? "" : e.value;
    if (!/^[\d\s./½⅛¼⅜⅝¾⅞-]+(cm|in|°|%|″)?$/.test(text.trim())) continue;
    const room = e.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
    const need = pen.measureText(text).width;
    if (need > room + 1) found.add(`${look.named(e)} cuts “${text}” off: ${Math.round(need)} of ${Math.round(room)} px`);
  }
  return [...found];
};

export const small = (least) => {
  const found = [];
  for (const e of document.querySelectorAll(look.PRESSED)) {
    if (!look.seen(e) || look.hushed(e) || e.disabled) continue;
    // In the flow of a sentence its line says how high a link is (2.5.8, "inline").
    if (e.tagName === "A" && getComputedStyle(e).display === "inline") continue;
    const box = look.body(e).getBoundingClientRect();
    if (box.width + 0.5 < least || box.height + 0.5 < least) {
      found.push(`${look.named(e)} ${Math.round(box.width)} × ${Math.round(box.height)}`);
    }
  }
  return found;
};

export const faint = () => {
  const found = new Set();
  for (const e of document.querySelectorAll("button, .button, input, select, textarea, .options label")) {
    if (!look.seen(e) || look.hushed(e) || e.disabled || e.getAttribute("aria-disabled") === "true") continue;
    const style = getComputedStyle(e);
    if (Number(style.opacity) < 0.05 || /radio|checkbox|range|file/.test(e.type)) continue;
    // Without an edge it is its words that tell it, and they have their own contrast.
    if (style.borderTopWidth === "0px" || style.borderTopStyle === "none") continue;
    const edge = look.parse(style.borderTopColor);
    const ground = look.ground(e.parentElement);
    const fill = look.over(look.parse(style.backgroundColor), ground);
    if (edge.a < 0.01) continue;
    const ratio = Math.max(look.contrast(look.over(edge, ground), ground), look.contrast(fill, ground));
    if (ratio < 3) found.add(`${look.named(e)}: ${ratio.toFixed(2)}`);
  }
  return [...found];
};

export const moving = () => {
  const found = document.getAnimations().map((a) => `${look.named(a.effect.target)} ${a.animationName ?? a.transitionProperty}`);
  const long = (text) => text.split(",").some((part) => Number.parseFloat(part) * (part.includes("ms") ? 1 : 1000) > 10);
  for (const e of document.querySelectorAll("body, body *")) {
    const style = getComputedStyle(e);
    if (long(style.transitionDuration)) found.push(`${look.named(e)} changes over ${style.transitionDuration}`);
    if (style.animationName !== "none" && long(style.animationDuration)) found.push(`${look.named(e)} runs ${style.animationName}`);
    if (style.scrollBehavior === "smooth") found.push(`${look.named(e)} scrolls smoothly`);
  }
  return found;
};

export const alike = () => {
  const found = new Set();
  const forced = matchMedia("(forced-colors: active)").matches;
  // What is still drawn in forced colours, too: edges, rings, weight, lines under words, signs before them.
  const sign = (e) => {
    const [own, before] = [getComputedStyle(e), getComputedStyle(e, "::before")];
    return JSON.stringify([
      own.borderWidth, own.borderStyle, own.borderColor, own.outlineStyle, own.outlineWidth, own.fontWeight, own.textDecorationLine,
      before.content, forced ? "" : own.boxShadow,
    ]);
  };
  const pairs = [
    ["[aria-pressed=true]", "[aria-pressed=false]"],
    ["[aria-current]:not([aria-current=false])", ":not([aria-current])"],
    ["label:has(> input[type=radio]:checked)", "label:has(> input[type=radio]:not(:checked))"],
  ];
  for (const [chosen, not] of pairs) {
    for (const e of document.querySelectorAll(`main :is(${chosen})`)) {
      if (!look.seen(e)) continue;
      const near = e.closest("ol, ul, fieldset, .faces, .options, nav, div");
      const other = [...(near?.querySelectorAll(`${e.tagName}:is(${not})`) ?? [])].find((o) => o !== e && look.seen(o));
      if (other && sign(e) === sign(other)) found.add(`${look.named(e)} looks like ${look.named(other)}`);
    }
  }
  return [...found];
};

// In forced colours a plate in the page's colour is laid under words: those of the same colour are gone.
export const plated = () => {
  const found = new Set();
  const probe = document.createElement("i");
  probe.style.color = "Canvas";
  document.body.append(probe);
  const plate = look.parse(getComputedStyle(probe).color);
  probe.remove();
  for (const e of document.querySelectorAll("body *")) {
    if (e instanceof SVGElement || ![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim()) || !look.seen(e)) continue;
    const style = getComputedStyle(e);
    if (style.forcedColorAdjust === "none" || e.closest("[disabled]")) continue;
    const ratio = look.contrast(look.parse(style.color), plate);
    if (ratio < 4.5) found.add(`${look.named(e)}: ${ratio.toFixed(2)} on its plate`);
  }
  return [...found];
};

export const stops = () => {
  const groups = new Set();
  let count = 0;
  for (const e of document.querySelectorAll(look.PRESSED)) {
    if (!look.seen(e) || e.disabled || e.tabIndex < 0) continue;
    // One stop for a group of radios: arrows do the rest.
    if (e.type === "radio") {
      if (groups.has(e.name)) continue;
      groups.add(e.name);
    }
    count += 1;
  }
  return count;
};

export const focused = () => {
  const e = document.activeElement;
  if (!e || e === document.body || e === document.documentElement) return null;
  globalThis.lookedAt ??= new Map();
  if (!lookedAt.has(e)) lookedAt.set(e, lookedAt.size);
  const place = lookedAt.get(e);
  const body = look.body(e);
  const ring = [e, body].map((one) => {
    const style = getComputedStyle(one);
    if (style.outlineStyle === "none" || Number.parseFloat(style.outlineWidth) < 2 || Number(style.opacity) < 0.05) return 0;
    const inside = Number.parseFloat(style.outlineOffset) < 0;
    const ground = look.ground(inside ? one : one.parentElement ?? one);
    return look.contrast(look.over(look.parse(style.outlineColor), ground), ground);
  });
  const box = body.getBoundingClientRect();
  const shares = [0.02, 0.25, 0.5, 0.75, 0.98];
  const edges = { left: Math.max(box.left, 0), right: Math.min(box.right, innerWidth), top: Math.max(box.top, 0), bottom: Math.min(box.bottom, innerHeight) };
  const open = shares.flatMap((x) => shares.map((y) => {
    const at = document.elementFromPoint(edges.left + (edges.right - edges.left) * x, edges.top + (edges.bottom - edges.top) * y);
    return Boolean(at) && (body.contains(at) || at.contains(body));
  }));
  return {
    place, name: look.named(e), day: e.type === "date", ring: Math.max(...ring), hushed: look.hushed(body),
    seen: edges.right > edges.left && edges.bottom > edges.top && open.some(Boolean),
  };
};
