// Reads what a browser printed. Its PDF keeps pages and the tree of tags as plain objects, so that a small reader is
// enough: it knows no more of the format than this browser writes.

import { inflateSync } from "node:zlib";

// Each page with its size in points and how many pieces of text stand on it, and each table row with the pages that it is on.
export function paper(pdf) {
  const objects = read(pdf);
  const pages = [...objects.values()].filter(({ text }) => /\/Type \/Page\b/.test(text));
  const number = new Map(pages.map(({ id }, at) => [id, at + 1]));
  const rows = [...objects.values()].filter(({ text }) => /\/Type \/StructElem\b/.test(text) && /\/S \/TR\b/.test(text));
  return {
    pages: pages.map(({ text }) => {
      const [left, bottom, right, top] = text.match(/\/MediaBox \[([^\]]*)\]/)[1].split(" ").map(Number);
      return { width: right - left, height: top - bottom, texts: pieces(objects, text) };
    }),
    // In the order of the document: the tree is written from its leaves up, and goes down from the root.
    printedRows: inOrder(objects).filter((id) => rows.some((row) => row.id === id)).map((id) => onPages(objects, id, number)),
  };
}

function read(pdf) {
  const objects = new Map();
  const bytes = pdf.toString("latin1");
  const begin = /(?:^|\n)(\d+) 0 obj\n/g;
  for (let match = begin.exec(bytes); match !== null; match = begin.exec(bytes)) {
    const end = bytes.indexOf("\nendobj", begin.lastIndex);
    const [text] = bytes.slice(begin.lastIndex, end).split(/ ?stream\r?\n/, 1);
    const start = begin.lastIndex + text.length;
    const length = Number(text.match(/\/Length (\d+)/)?.[1] ?? 0);
    const stream = /^ ?stream\r?\n/.exec(bytes.slice(start, start + 10));
    const from = start + (stream?.[0].length ?? 0);
    const data = stream === null ? null : pdf.subarray(from, from + length);
    objects.set(match[1], { id: match[1], text, data });
    begin.lastIndex = data === null ? end : from + length;
  }
  return objects;
}

// How often a page shows a text.
function pieces(objects, page) {
  const { text, data } = objects.get(page.match(/\/Contents (\d+) 0 R/)[1]);
  const content = /\/FlateDecode/.test(text) ? inflateSync(data) : data;
  return content.toString("latin1").match(/\bT[jJ]\b/g)?.length ?? 0;
}

function children(objects, id) {
  const known = objects.get(id)?.text ?? "";
  const kids = known.match(/\/K (\[[^\]]*\]|\d+ 0 R)/)?.[1] ?? "";
  // What lies on a page by its number is told inside of angle brackets.
  return [...kids.replace(/<<[^>]*>>/g, "").matchAll(/(\d+) 0 R/g)].map(([, kid]) => kid);
}

function inOrder(objects) {
  const root = [...objects.values()].find(({ text }) => /\/Type \/StructTreeRoot\b/.test(text));
  const found = [];
  const waiting = root ? [root.id] : [];
  while (waiting.length > 0) {
    const id = waiting.pop();
    found.push(id);
    waiting.push(...children(objects, id).reverse());
  }
  return found;
}

function onPages(objects, id, number) {
  const found = new Set();
  const waiting = [id];
  while (waiting.length > 0) {
    const next = waiting.pop();
    const own = objects.get(next)?.text ?? "";
    for (const [, page] of own.matchAll(/\/Pg (\d+) 0 R/g)) {
      found.add(number.get(page));
    }
    waiting.push(...children(objects, next));
  }
  return [...found].sort((a, b) => a - b);
}
