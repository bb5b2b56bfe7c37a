// Run inside the page: what a person with a thumb, a small screen and weak eyes would stumble over.

/** Everything that can be pressed and is on the page, with its box. */
export function smallTargets() {
  const shown = (element) => {
    const box = element.getBoundingClientRect();
    const style = getComputedStyle(element);
    return box.width > 1 && box.height > 1 && style.visibility !== "hidden";
  };
  return [...document.querySelectorAll("button, a[href], summary, select, label.key, input:not([type=file])")]
    .filter(shown)
    .map((element) => ({ box: element.getBoundingClientRect(), element }))
    .filter(({ box }) => box.width < 47.5 || box.height < 47.5)
    .map(({ box, element }) => `${Math.round(box.width)}x${Math.round(box.height)} ${element.outerHTML.slice(0, 120)}`);
}

/**
 * Pairs of keys with less than 8 px between them, as far as they are to be seen. Rows of a list touch by design: each is as wide as the
 * glass and at least 52 px high.
 */
export function crowdedTargets() {
  const seen = (element) => {
    const box = element.getBoundingClientRect();
    const frame = element.closest(".mid, .rows")?.getBoundingClientRect() ?? { top: 0, bottom: innerHeight };
    const { left, right } = box;
    return { left, right, top: Math.max(box.top, frame.top), bottom: Math.min(box.bottom, frame.bottom) };
  };
  const isRow = (element) => {
    const { left, right, height } = element.getBoundingClientRect();
    return left <= 16 && right >= innerWidth - 16 && height >= 52 && !element.matches(".key");
  };
  const keys = [...document.querySelectorAll("button, label.key")]
    .filter((element) => element.getBoundingClientRect().width > 1 && !isRow(element))
    .map((element) => ({ element, box: seen(element) }))
    .filter(({ box }) => box.bottom - box.top > 1);
  const gap = (a, b) => Math.max(a.left - b.right, b.left - a.right, a.top - b.bottom, b.top - a.bottom);
  return keys.flatMap(({ box, element }, i) =>
    keys
      .slice(i + 1)
      .filter((other) => !element.contains(other.element) && !other.element.contains(element))
      .filter((other) => gap(box, other.box) < 7.5)
      .map((other) => `${element.textContent} | ${other.element.textContent} (${gap(box, other.box).toFixed(1)} px)`),
  );
}

/** Words smaller than 14 px. */
export function smallText() {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const parent = node.parentElement;
    const text = node.textContent.trim();
    if (!text || !parent || parent.closest("script, style, noscript, .aside")) continue;
    if (parent.getBoundingClientRect().width < 1) continue;
    const px = Number.parseFloat(getComputedStyle(parent).fontSize);
    const svg = parent.closest("svg");
    const scale = svg?.viewBox?.baseVal?.width ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
    if (px * scale < 13.9) found.push(`${(px * scale).toFixed(1)} px: ${text.slice(0, 40)}`);
  }
  return found;
}

/** What is wider than the glass, or cut off inside a key. */
export function cutOff() {
  const wide =
    document.documentElement.scrollWidth > innerWidth + 1 ? [`page ${document.documentElement.scrollWidth}`] : [];
  const across = [...document.querySelectorAll(".mid, .top, .nav, .acts, .stand, .ways, .ks, .tally")]
    .filter((element) => element.scrollWidth > element.clientWidth + 1)
    .map((element) => `${element.className} ${element.scrollWidth} in ${element.clientWidth}`);
  const keys = [...document.querySelectorAll(".key, .row-key .what")]
    .filter(
      (key) =>
        key.clientWidth > 0 && (key.scrollWidth > key.clientWidth + 1 || key.scrollHeight > key.clientHeight + 2),
    )
    .map(
      (key) =>
        `key ${key.scrollWidth}x${key.scrollHeight} in ${key.clientWidth}x${key.clientHeight}: ${key.textContent}`,
    );
  const broken = [...document.querySelectorAll(".key .fig, .plate")]
    .filter((figure) => figure.getClientRects().length > 1 || figure.scrollWidth > figure.clientWidth + 1)
    .filter((figure) => figure.clientWidth > 0)
    .map((figure) => `figure ${figure.textContent}`);
  return [...wide, ...across, ...keys, ...broken];
}

/** Makes every word on the page 40 % longer, as another language may. */
export function lengthen() {
  const walker = document.createTreeWalker(document.querySelector("#app"), NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (node.parentElement?.closest("svg, .plate, .fig, .aside")) continue;
    node.textContent = node.textContent.replace(
      /\p{L}{2,}/gu,
      (word) => word + word.slice(0, Math.ceil(word.length * 0.4)),
    );
  }
}
