// Runs inside of a page, and can use nothing from here but itself.

// The colour of each text of a picture and the colours that it stands on, as red, green and blue up to 255; those that
// are the same are told once. What stands on a pattern is left out: it has no one colour.
export function colours() {
  const root = document.documentElement;
  const isDark = matchMedia("(prefers-color-scheme: dark)").matches && getComputedStyle(root).colorScheme.includes("dark");
  const canvas = isDark ? [18, 18, 18, 1] : [255, 255, 255, 1];
  const parsed = (colour) => {
    const parts = colour.match(/^rgba?\(([^)]*)\)$/)?.[1].split(/[\s,/]+/).map(Number);
    return parts ? [...parts.slice(0, 3), parts[3] ?? 1] : null;
  };
  const over = (above, below) => above.slice(0, 3).map((part, at) => part * above[3] + below[at] * (1 - above[3]));

  // What is behind a picture on its page.
  const behind = (svg) => {
    const grounds = [];
    for (let element = svg; element !== null; element = element.parentElement) {
      grounds.push(parsed(getComputedStyle(element).backgroundColor) ?? [0, 0, 0, 0]);
    }
    return grounds.reverse().reduce((below, above) => over(above, below), canvas);
  };

  const shapes = (svg) =>
    [...svg.querySelectorAll("rect, path, circle, ellipse, polygon")]
      .filter((shape) => !shape.closest("defs, clipPath, mask, pattern") && getComputedStyle(shape).fill !== "none")
      .map((shape) => {
        const { fill, fillOpacity, opacity } = getComputedStyle(shape);
        const colour = parsed(fill);
        const alpha = Number(fillOpacity) * Number(opacity);
        const box = shape.getBoundingClientRect();
        return { shape, box, colour: colour && [...colour.slice(0, 3), colour[3] * alpha] };
      });

  // Later shapes lie above earlier ones, and those behind the text in the document cover it.
  const ground = (svg, known, text, x, y) => {
    let below = behind(svg);
    for (const { shape, box, colour } of known) {
      const isBefore = shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING;
      if (!isBefore || x < box.left || x > box.right || y < box.top || y > box.bottom) {
        continue;
      }
      const point = new DOMPoint(x, y).matrixTransform(shape.getScreenCTM().inverse());
      if (shape.isPointInFill(point)) {
        const isUnknown = colour === null || (below === null && colour[3] < 1);
        below = isUnknown ? null : over(colour, below ?? colour);
      }
    }
    return below;
  };

  const pictures = [...document.querySelectorAll("svg")].filter((svg) => !svg.parentElement?.closest("svg"));
  const found = new Map();
  for (const svg of pictures) {
    const known = shapes(svg);
    for (const text of svg.querySelectorAll("text")) {
      const { left, right, top, bottom } = text.getBoundingClientRect();
      const { fill, stroke, strokeWidth, paintOrder } = getComputedStyle(text);
      const words = text.textContent.trim().slice(0, 60);
      const isHidden = words === "" || right <= left;
      // Letters with a border of their own are read against that.
      const border = paintOrder.startsWith("stroke") && parseFloat(strokeWidth) >= 2 ? parsed(stroke) : null;
      for (const share of isHidden ? [] : [0.05, 0.5, 0.95]) {
        const under = border ?? ground(svg, known, text, left + share * (right - left), (top + bottom) / 2);
        const ink = parsed(fill);
        if (under !== null && ink !== null) {
          const pair = { ink: over(ink, under).map(Math.round), ground: under.slice(0, 3).map(Math.round) };
          const key = JSON.stringify(pair);
          found.set(key, found.get(key) ?? { words, ...pair });
        }
      }
    }
  }
  return [...found.values()];
}
