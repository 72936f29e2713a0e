//go:build e2e

package web_test

// audit looks at every visible thing of the page and lists what is wrong with
// it in words: targets under 44 px, targets that lie on each other or under
// something, text that is cut off or broken in the middle of a word, text on text,
// anything that makes the page or a list scroll sideways. within is a selector; only what is in it is
// looked at, and what lies beside it may be covered by it.
//
// The user's own words and the name of what would be undone may end in an
// ellipsis: both are whole elsewhere (the scene's form, the button's title). A
// field for free words scrolls; one for numbers has to show them whole.
const audit = `((within) => {
  const wrong = [];
  const name = (e) => e.tagName.toLowerCase() + (e.id ? "#" + e.id : "") + (typeof e.className === "string" && e.className ? "." + e.className.trim().replace(/\s+/g, ".") : "")
    + " '" + (e.getAttribute("aria-label") || e.textContent || e.value || "").trim().slice(0, 40) + "'";
  const seen = (e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest(".unseen, #pad, canvas")
    && !(getComputedStyle(e).clipPath !== "none");
  const box = (r) => ({ l: r.left, t: r.top, r: r.right, b: r.bottom });
  const cut = (a, b) => ({ l: Math.max(a.l, b.l), t: Math.max(a.t, b.t), r: Math.min(a.r, b.r), b: Math.min(a.b, b.b) });
  const wide = (a) => a.r - a.l, tall = (a) => a.b - a.t;
  const screen = { l: 0, t: 0, r: innerWidth, b: innerHeight };
  const clips = (e) => {
    const list = [];
    for (let p = e; p && p !== document.documentElement; p = p.parentElement) {
      const s = getComputedStyle(p);
      if (s.overflowX !== "visible" || s.overflowY !== "visible") list.push([p, s]);
      if (s.position === "fixed") break;
    }
    return list;
  };
  const inSight = (e, r) => clips(e).reduce((a, [p]) => (p === e ? a : cut(a, box(p.getBoundingClientRect()))), cut(r, screen));
  const all = [...document.querySelectorAll(within + " *, " + within)].filter(seen);

  const targets = all.filter((e) => e.matches("button, input, select, summary, a[href], [role=tab]"));
  for (const e of targets) {
    // A box to tick is ticked by its label as well.
    const hit = e.type === "checkbox" ? e.labels[0] : e;
    const r = hit.getBoundingClientRect();
    if (r.width < 43.9 || r.height < 43.9) wrong.push("smaller than 44: " + name(e) + " " + r.width.toFixed(1) + "x" + r.height.toFixed(1));
  }
  const spots = targets.map((e) => [e, inSight(e, box(e.getBoundingClientRect()))]).filter(([, r]) => wide(r) > 4 && tall(r) > 4);
  spots.forEach(([e, r], i) => {
    for (const [f, q] of spots.slice(i + 1)) {
      const both = cut(r, q);
      if (!e.contains(f) && !f.contains(e) && wide(both) > 1.5 && tall(both) > 1.5) wrong.push("on each other: " + name(e) + " and " + name(f));
    }
    const top = document.elementFromPoint((r.l + r.r) / 2, (r.t + r.b) / 2);
    if (top && !e.contains(top) && !top.contains(e)) wrong.push("covered: " + name(e) + " by " + name(top));
  });

  const ellipsis = ".bar-title, .bar-note, .step-what";
  const texts = [];
  for (const e of all) {
    if (e.matches(ellipsis) || e.matches("option")) continue;
    for (const n of e.childNodes) {
      if (n.nodeType !== Node.TEXT_NODE || !n.textContent.trim()) continue;
      const range = document.createRange();
      range.selectNodeContents(n);
      for (const rect of range.getClientRects()) {
        const r = box(rect);
        if (wide(r) < 1) continue;
        texts.push([e, inSight(e, r), r]);
        if (r.l < -1 || r.r > innerWidth + 1) wrong.push("beside the screen: " + name(e));
        for (const [p, s] of clips(e)) {
          const q = box(p.getBoundingClientRect());
          if (r.l < q.l - 1 || r.r > q.r + 1) wrong.push("cut off at the side: " + name(e) + " by " + name(p));
          const rolls = s.overflowY === "auto" || s.overflowY === "scroll";
          if (!rolls && (r.t < q.t - 3 || r.b > q.b + 3)) wrong.push("cut off above or below: " + name(e) + " by " + name(p));
          if (rolls) break; // what scrolls is cut at its edge by design
        }
        const b = e.closest("button");
        if (b) {
          const q = box(b.getBoundingClientRect());
          if (r.l < q.l - 1 || r.r > q.r + 1 || r.t < q.t - 2 || r.b > q.b + 2) wrong.push("out of its button: " + name(e));
        }
      }
    }
  }
  // A word may wrap to the next line, but not in its middle.
  for (const e of all) {
    if (e.matches(ellipsis) || e.matches("option")) continue;
    for (const n of e.childNodes) {
      if (n.nodeType !== Node.TEXT_NODE) continue;
      for (const m of n.textContent.matchAll(/[A-Za-z]{2,}/g)) {
        const range = document.createRange();
        range.setStart(n, m.index);
        range.setEnd(n, m.index + m[0].length);
        const lines = new Set([...range.getClientRects()].filter((r) => r.width > 0.5).map((r) => Math.round(r.top)));
        if (lines.size > 1) wrong.push("broken in its middle: " + m[0] + " in " + name(e));
      }
    }
  }

  texts.forEach(([e, r], i) => {
    for (const [f, q] of texts.slice(i + 1)) {
      const both = cut(r, q);
      if (e !== f && wide(both) > 3 && tall(both) > 5) wrong.push("text on text: " + name(e) + " and " + name(f));
    }
  });

  for (const e of all) {
    const s = getComputedStyle(e);
    const oneLine = s.whiteSpace === "nowrap" || e.matches(".field-number input, .cell input, input[type=search], select");
    if (oneLine && !e.matches(ellipsis) && e.clientWidth > 0 && e.scrollWidth > e.clientWidth + 1) wrong.push("too long for its line: " + name(e));
    if ((s.overflowX === "auto" || s.overflowX === "scroll") && e.scrollWidth > e.clientWidth + 1) wrong.push("scrolls sideways: " + name(e));
  }
  const root = document.documentElement;
  if (root.scrollWidth > innerWidth || root.scrollHeight > innerHeight) wrong.push("the page itself scrolls: " + root.scrollWidth + "x" + root.scrollHeight);
  return [...new Set(wrong)];
})`
