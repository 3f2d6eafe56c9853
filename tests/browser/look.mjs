// Functions that run inside of a page. Each is sent there by itself, so none can use another or anything from here.

export function openDetails() {
  for (const details of document.querySelectorAll("details")) {
    details.open = true;
  }
}

// What the screen shows at its present width.
export function look() {
  const short = (text) => (text ?? "").trim().replace(/\s+/g, " ").slice(0, 60);
  const box = (element) => {
    const { left, top, right, bottom } = element.getBoundingClientRect();
    return { left, top, right, bottom };
  };
  const isSeen = (element) => element.getClientRects().length > 0 && element.checkVisibility();
  // As far as an element goes to the right, and words that don't break in it.
  const reach = (element) => {
    const { left, right } = element.getBoundingClientRect();
    const isBlock = element instanceof HTMLElement && element.clientWidth > 0;
    return Math.max(right, isBlock ? left + element.scrollWidth : 0);
  };
  const child = (element, name) => [...element.children].filter((own) => own.localName === name);

  const root = document.documentElement;
  const all = [...document.querySelectorAll("*")];
  const isPicture = (element) => element.localName === "svg" && !element.parentElement?.closest("svg");

  // The rectangle that a text stands on, if only with a part of it: of a group that it belongs to.
  const frame = (text) => {
    const { left, top, right, bottom } = box(text);
    const middle = (top + bottom) / 2;
    for (let group = text.parentElement; group.localName !== "svg"; group = group.parentElement) {
      const rects = child(group, "rect").map(box).filter((own) => own.top < middle && middle < own.bottom);
      const found = rects.find((own) => own.left < right - 1 && left + 1 < own.right);
      if (found) {
        return found;
      }
    }
    return null;
  };

  const picture = (svg) => ({
    box: box(svg),
    isDecoration: svg.getAttribute("aria-hidden") === "true",
    titles: child(svg, "title").map((title) => title.textContent.trim()),
    descriptions: child(svg, "desc").map((desc) => desc.textContent.trim()),
    texts: [...svg.querySelectorAll("text")]
      .filter((text) => isSeen(text) && text.textContent.trim() !== "")
      .map((text) => ({ words: short(text.textContent), box: box(text), frame: frame(text) })),
    marks: [...svg.querySelectorAll("*")].flatMap((element) =>
      Object.entries(element.dataset).map(([kind, key]) => ({
        kind,
        key,
        titles: child(element, "title").map((title) => title.textContent.trim()),
      })),
    ),
  });

  // A target that stands in a sentence is as high as its line.
  const isInText = (element) => {
    const block = element.closest("p, li, td, th, dd, figcaption, caption");
    const rest = block?.cloneNode(true);
    rest?.querySelectorAll("a, summary, button").forEach((target) => target.remove());
    return getComputedStyle(element).display === "inline" && /\p{L}/u.test(rest?.textContent ?? "");
  };

  return {
    scrollWidth: root.scrollWidth,
    clientWidth: root.clientWidth,
    widest: all
      .filter((element) => isSeen(element) && reach(element) > root.clientWidth + 0.5)
      .map((element) => `${element.localName} "${short(element.textContent)}"`)
      .at(-1),
    headings: all
      .filter((element) => /^h[1-6]$/.test(element.localName) && isSeen(element))
      .map((element) => ({ level: Number(element.localName[1]), words: short(element.textContent) })),
    landmarks: all
      .filter((element) => element.matches("header, main, footer, nav, [role=main], [role=navigation]"))
      .filter((element) => isSeen(element) && !element.parentElement.closest("article, section, main, aside"))
      .map((element) => element.getAttribute("role")?.replace("navigation", "nav") ?? element.localName),
    pictures: all.filter((element) => isPicture(element) && isSeen(element)).map(picture),
    targets: all
      .filter((element) => element.matches("a[href], summary, button, input, select, textarea") && isSeen(element))
      .map((element) => ({
        name: `${element.localName} "${short(element.textContent)}"`,
        place: all.indexOf(element),
        height: element.getBoundingClientRect().height,
        isInText: isInText(element),
      })),
  };
}

// What the page is as one long strip of paper, in the width that its margins leave.
export function sheet() {
  const short = (text) => (text ?? "").trim().replace(/\s+/g, " ").slice(0, 60);
  const name = (element) => `${element.localName} "${short(element.textContent)}"`;
  const all = [...document.body.querySelectorAll("*")].filter(
    (element) => element.getClientRects().length > 0 && element.checkVisibility(),
  );
  const width = document.documentElement.clientWidth;
  const isOut = (element) => {
    const { left, right } = element.getBoundingClientRect();
    const isBlock = element instanceof HTMLElement && element.clientWidth > 0;
    return left < -0.5 || Math.max(right, isBlock ? left + element.scrollWidth : 0) > width + 0.5;
  };
  // What scrolls on a screen is lost on paper.
  const isCut = (element) =>
    getComputedStyle(element).overflowX !== "visible" && element.scrollWidth > element.clientWidth + 1;
  const isPicture = (element) => element.localName === "svg" && !element.parentElement.closest("svg");
  return {
    out: all.filter((element) => isOut(element) || isCut(element)).map(name),
    pictures: all.filter(isPicture).map((svg, at) => ({
      name: `picture ${at + 1} "${short(svg.querySelector("title")?.textContent)}"`,
      height: svg.getBoundingClientRect().height,
    })),
    rows: all
      .filter((element) => element.localName === "tr")
      .map((row) => ({ name: name(row), isHead: row.parentElement.localName === "thead" })),
  };
}
