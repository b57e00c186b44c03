import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { sheetIndexHtml } from '../../src/output/sheet-index.js';
import { textWidth } from '../../src/output/text-width.js';
import { writeOverview } from '../../src/output/write-overview.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { JOBS, mapOf, planOf, reliefOf } from './jobs.js';

describe.each(JOBS)('%s', (path) => {
  it('shows every id, before and after numbering', () => {
    for (const from of [mapOf(path), reliefOf(path)]) {
      const svg = writeOverview(from);
      for (const { id } of mapOf(path).regions) expect(svg).toContain(`>${id}</text>`);
    }
  });

  it('shows what a plan calls each piece, with the region where there is room', () => {
    const plan = planOf(path);
    const { map, addOns } = plan.relief;
    const svg = writeOverview(plan);
    const pieceOf = new Map([...plan.pieces, ...addOns].map(({ id, region }) => [region, id]));
    map.regions.forEach(({ id }, r) => {
      const piece = pieceOf.get(r);
      if (piece === undefined) expect(svg).toContain(`>${id}</text>`);
      else
        expect([`>${piece}</text>`, `>${piece} ${id}</text>`].some((text) => svg.includes(text))).toBe(true);
    });
    expect(svg).toContain('piece in the plan, region of the drawing');
  });

  it('has a bar on every narrow place, and rings that stand apart', () => {
    const plan = planOf(path);
    const marks = /<g id="bridges"[\s\S]*?<\/g>/.exec(writeOverview(plan, { legend: false }))?.[0] ?? '';
    expect(marks.match(/<path/g)?.length ?? 0).toBe(plan.bridges.length);
    const rings = [...marks.matchAll(/<circle cx="([^"]+)" cy="([^"]+)" r="([^"]+)" stroke="(?!#fff)/g)].map(
      (match) => match.slice(1).map(Number),
    );
    if (plan.bridges.length > 0) expect(rings.length).toBeGreaterThan(0);
    rings.forEach(([x, y, r], i) => {
      for (const [x2, y2, r2] of rings.slice(0, i))
        expect(Math.hypot(x - x2, y - y2)).toBeGreaterThan(r + r2);
    });
  });

  it('shows every number and every drilled start of the plan', () => {
    const plan = planOf(path);
    const svg = writeOverview(plan, { legend: false });
    const numbers = plan.relief.regions.filter((region) => region.label !== null);
    expect(svg.match(/font-weight="bold"/g)?.length ?? 0).toBe(numbers.length);
    const starts = plan.passes.flatMap((pass) => pass.steps).filter((step) => step.start.kind === 'drill');
    const places = new Set(starts.map((step) => step.start.at.join(' ')));
    const marks = /<g id="drill-starts"[^>]*>([\s\S]*?)<\/g>/.exec(svg)?.[1] ?? '';
    expect(marks.match(/<circle /g)?.length ?? 0).toBe(places.size);
  });

  it('writes the same bytes again', () => {
    expect(writeOverview(reliefOf(path))).toBe(writeOverview(reliefOf(path)));
  });
});

const HOSTILE = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="40mm" height="40mm" viewBox="0 0 40 40" onload="alert(1)">
  <script>alert(2)</script>
  <style>@import url("javascript:alert(3)"); rect { stroke: #000; fill: none }</style>
  <a xlink:href="javascript:alert(4)"><rect id="&lt;script&gt;alert(5)&lt;/script&gt;" x="5" y="5" width="30" height="30" onclick="alert(6)"/></a>
  <text x="20" y="20">2</text>
  <text x="10" y="10" font-size="2">&lt;img src=x onerror=alert(7)&gt;</text>
</svg>`;

it('lets nothing of the input out but numbers and escaped names', () => {
  const name = '"><script>alert(8)</script>\' onload=alert(9) ]]>';
  const map = mapRegions(readDrawing(HOSTILE));
  const stack = parseStack(`3 mm ${'birch <b onload=x>'}, 3 mm oak`);
  const relief = buildRelief(map, { stack, numbers: [{ at: [20, 20], depth: 2, name }] });
  const sheets = writeSheets({ relief }, { title: name });
  const html = sheetIndexHtml({ relief }, sheets, name);
  const all = [
    writeOverview(relief, { title: name }),
    ...sheets.map((sheet) => sheet.svg),
    html,
    ...[...html.matchAll(/data:image\/svg\+xml,([^"]*)/g)].map((match) => decodeURIComponent(match[1])),
  ];
  for (const text of all) {
    const tags = text.match(/<[^>]*>/g) ?? [];
    expect(
      tags.filter(
        (tag) =>
          /^<\/?(script|a|foreignObject|image|use|iframe|b)\b/i.test(tag) &&
          !/^<\/?a( href="[a-z0-9.-]+")?>$/.test(tag),
      ),
    ).toEqual([]);
    expect(tags.filter((tag) => /\son\w+\s*=/i.test(tag.replace(/"[^"]*"/g, '""')))).toEqual([]);
    expect(text).not.toMatch(/javascript:|@import|<script/i);
  }
});

it('says nothing about heights of a stack that was only assumed', () => {
  const svg = writeOverview(reliefOf('docs/examples/pond'), { assumedStack: true });
  expect(svg).not.toMatch(/\d mm high|sheets?, \d/);
  expect(writeOverview(reliefOf('docs/examples/pond'))).toMatch(/15\.9 mm high/);
});

it('writes a legend that can be read below a drawing of stamp size', () => {
  const square =
    '<svg xmlns="http://www.w3.org/2000/svg" width="24mm" height="24mm" viewBox="0 0 24 24"><path d="M2 2H22V22H2ZM2 12H22" fill="none" stroke="#000"/></svg>';
  const relief = buildRelief(mapRegions(readDrawing(square)), {
    stack: parseStack('2x 3 mm birch'),
    numbers: [{ region: 'r1', depth: 2 }],
  });
  const svg = writeOverview(planCuts(relief), { title: 'Stamp' });
  const legend = svg.slice(svg.indexOf('<g id="legend"'));
  const texts = [...legend.matchAll(/<text x="([^"]+)"[^>]* font-size="([^"]+)"([^>]*)>([^<]*)</g)];
  expect(texts.length).toBeGreaterThan(4);
  const [x0, , width] = /viewBox="([^"]+)"/.exec(svg)![1].split(' ').map(Number);
  for (const [, x, size, rest, text] of texts) {
    expect(Number(size), text).toBeGreaterThanOrEqual(1.7);
    if (/text-anchor/.test(rest)) continue;
    expect(Number(x)).toBeGreaterThanOrEqual(x0);
    expect(Number(x) + textWidth(text, Number(size))).toBeLessThanOrEqual(x0 + width);
  }
});

it('draws a map without any region', () => {
  const map = mapRegions(
    readDrawing('<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30"/>'),
  );
  expect(writeOverview(map)).toContain('0 regions');
});
