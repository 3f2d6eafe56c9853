// Opens pages and pictures in a real browser and writes down what is there, without judging it: that is done by
// tests/it/browser. Standard input: a list of {name, path}. Standard output: a list of facts, one for each.

import axe from "axe-core";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { colours } from "./colours.mjs";
import { look, openDetails, sheet } from "./look.mjs";
import { paper } from "./paper.mjs";

const BROWSER = process.env.LIDLADDER_CHROMIUM ?? "/usr/bin/chromium";

// The pages are ours and the network is cut: no sandbox is needed, which a container can't give.
const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

// A telephone, a tablet, a screen.
const WIDTHS = [360, 768, 1280];

const PX_PER_MM = 96 / 25.4;

// What a printer leaves free where a page says nothing of it.
const MARGIN = 10 * PX_PER_MM;
const A4_MM = { width: 210, height: 297 };

// More stops than anybody walks through.
const MOST_STOPS = 1000;

const jobs = JSON.parse(readFileSync(0, "utf8"));
const browser = await chromium.launch({ executablePath: BROWSER, args: FLAGS });
const facts = [];
try {
  // One for all: every page begins anew when it is opened.
  const page = await browser.newPage({ offline: true });
  for (const job of jobs) {
    facts.push(await measured(page, job));
  }
} finally {
  await browser.close();
}
process.stdout.write(JSON.stringify(facts));

async function measured(page, { name, path }) {
  const own = pathToFileURL(path).href;
  const messages = [];
  const requests = new Set();
  page.removeAllListeners();
  page.on("console", (message) => messages.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => messages.push(`error: ${error.message}`));
  page.on("request", (request) => request.url() === own || requests.add(request.url().slice(0, 200)));

  const isPage = path.endsWith(".html");
  await page.setViewportSize({ width: WIDTHS[0], height: 800 });
  await page.emulateMedia({ media: null, colorScheme: "light" });
  await page.goto(own);
  const print = isPage ? await printed(page) : null;
  await page.evaluate(openDetails);
  const looks = [];
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 800 });
    looks.push({ width, ...(await page.evaluate(look)) });
  }
  const inks = await coloured(page);
  const stops = isPage ? await walked(page) : [];
  const violations = isPage ? await audited(page) : [];
  return { name, messages, requests: [...requests].sort(), looks, inks, stops, violations, print };
}

// The colours of the texts in pictures, which the accessibility engine leaves out, by scheme.
async function coloured(page) {
  const found = [];
  for (const scheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme: scheme });
    const inks = await page.evaluate(colours);
    found.push(...inks.map((ink) => ({ scheme, ...ink })));
  }
  return found;
}

// Every stop of the tab key, in its order, with its place in the document.
async function walked(page) {
  const stops = [];
  while (stops.length < MOST_STOPS) {
    await page.keyboard.press("Tab");
    const stop = await page.evaluate(() => {
      const element = document.activeElement;
      const isNone = element === null || element === document.body || element === document.documentElement;
      const words = isNone ? "" : element.textContent.trim().replace(/\s+/g, " ").slice(0, 60);
      const place = [...document.querySelectorAll("*")].indexOf(element);
      return isNone ? null : { name: `${element.localName} "${words}"`, place };
    });
    if (stop === null || stop.place === stops[0]?.place) {
      break;
    }
    stops.push(stop);
  }
  return stops;
}

// All rules, those of good practice too. Colours differ by scheme and sizes by width: one run has one of each.
async function audited(page) {
  await page.evaluate(axe.source);
  const violations = [];
  for (const [scheme, width] of [["light", WIDTHS[0]], ["dark", WIDTHS.at(-1)]]) {
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ colorScheme: scheme });
    const found = await page.evaluate(async () => {
      const options = { resultTypes: ["violations"], rules: { "target-size": { enabled: true } } };
      const result = await globalThis.axe.run(document, options);
      return result.violations.flatMap(({ id, help, nodes }) =>
        nodes.map((node) => ({ rule: id, help, element: node.target.join(" "), why: node.failureSummary ?? "" })),
      );
    });
    violations.push(...found.map((violation) => ({ scheme, ...violation })));
  }
  return violations;
}

// The pages of paper, and what each element takes of them in the width that they leave.
async function printed(page) {
  await page.emulateMedia({ media: "print", colorScheme: "light" });
  const margins = await page.evaluate(() => {
    const rules = [...document.styleSheets].flatMap((style) => [...style.cssRules]);
    const known = rules.filter((rule) => rule instanceof CSSPageRule).map((rule) => rule.style);
    const px = (side) => {
      const text = known.map((style) => style.getPropertyValue(`margin-${side}`)).findLast((value) => value !== "");
      return text ? CSSNumericValue.parse(text).to("px").value : null;
    };
    return { left: px("left"), right: px("right"), top: px("top"), bottom: px("bottom") };
  });
  const left = (mm, from, to) => mm * PX_PER_MM - (margins[from] ?? MARGIN) - (margins[to] ?? MARGIN);
  const [width, height] = [left(A4_MM.width, "left", "right"), left(A4_MM.height, "top", "bottom")];
  await page.setViewportSize({ width: Math.floor(width), height: Math.floor(height) });
  const laidOut = await page.evaluate(sheet);
  const margin = `${MARGIN}px`;
  const pdf = await page.pdf({
    format: "A4",
    preferCSSPageSize: true,
    tagged: true,
    margin: { top: margin, right: margin, bottom: margin, left: margin },
  });
  await page.emulateMedia({ media: null, colorScheme: "light" });
  return { roomHeight: height, ...laidOut, ...paper(pdf) };
}
