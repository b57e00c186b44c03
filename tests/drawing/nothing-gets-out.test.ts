import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import {
  buildRelief,
  checkRelief,
  mapRegions,
  parseStack,
  planCuts,
  planReport,
  readDrawing,
  regionsReport,
  sheetIndexHtml,
  writeOverview,
  writePlanHtml,
  writeSheets,
} from '../../src/index.js';
import { svg } from './pages.js';

/** Marks everything hostile that is put in. */
const MARK = 'zqx';

const HOSTILE = `<!DOCTYPE svg [<!ENTITY e SYSTEM "file:///${MARK}"><!ENTITY tag "&#60;script&#62;${MARK}()&#60;/script&#62;">]>${svg(
  [
    `<style>@import url(https://${MARK}.example/a.css); rect{fill:url(javascript:${MARK}())} @font-face{font-family:${MARK};src:url(https://${MARK}.example/f)}</style>`,
    `<script>${MARK}()</script><script href="https://${MARK}.example/s.js"/>`,
    `<a href="javascript:${MARK}()"><rect x="10" y="10" width="30" height="30" fill="#fff" stroke="black" onclick="${MARK}()" id="x&quot; onload=&quot;${MARK}()"/></a>`,
    `<g id="&lt;script>${MARK}()&lt;/script>" data-depth="2&quot; onload=&quot;${MARK}()"><rect x="50" y="10" width="30" height="30" fill="none" stroke="black"/></g>`,
    `<rect x="10" y="50" width="30" height="30" fill="none" stroke="black"><title>&lt;img src=x onerror=${MARK}()></title></rect>`,
    `<g data-name="]]>&lt;/style>&lt;script>${MARK}()"><circle cx="65" cy="65" r="15" fill="none" stroke="url(https://${MARK}.example/#p) black"/></g>`,
    `<text x="15" y="20" font-size="3">&lt;b onclick=${MARK}()></text><text x="60" y="20" font-size="3">2</text>`,
    `<text x="15" y="60" font-size="3">1</text><text x="60" y="68" font-size="3">&quot;/>&lt;script>${MARK}()&lt;/script></text>`,
    `<image href="https://${MARK}.example/i.png" width="9" height="9"/><use href="https://${MARK}.example/u.svg#a"/>&e;&tag;`,
    `<foreignObject><iframe xmlns="http://www.w3.org/1999/xhtml" src="https://${MARK}.example/"/></foreignObject>`,
    `<animate attributeName="href" to="javascript:${MARK}()"/><set attributeName="onclick" to="${MARK}()"/>`,
  ].join('\n'),
  ` onload="${MARK}()" xmlns:x="https://${MARK}.example/ns" xml:base="https://${MARK}.example/"`,
)}`;

const ACTIVE = /^(script|foreignObject|iframe|object|embed|image|img|a|animate|set|use|link)$/i;

/** Pictures of our own inside of a page, and links to files beside it. */
const PICTURE = /^data:image\/svg\+xml,([^,]*)$/;
const FILE_NAME = /^[\w-]+\.(svg|json|html)$/;

/** What a browser would run, fetch or follow in a page or a picture; `text` must be well-formed. */
function activeParts(text: string): string[] {
  const found: string[] = [];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const picture = PICTURE.exec(attributes.src ?? '');
    if (name === 'img' && picture) {
      found.push(...activeParts(decodeURIComponent(picture[1])));
      return;
    }
    if (name === 'a' && FILE_NAME.test(attributes.href)) return;
    const within = name === 'use' && attributes.href?.startsWith('#');
    if (ACTIVE.test(name) && !within) found.push(`<${name}>`);
    for (const [key, value] of Object.entries(attributes)) {
      const address = /^(xmlns|xmlns:.*)$/.test(key) ? '' : value;
      if (/^on/i.test(key)) found.push(`${name} ${key}`);
      if (/javascript:|https?:|file:|data:|url\(\s*(?!#)/i.test(address))
        found.push(`${name} ${key}="${value}"`);
      if (address.includes(MARK) && !/^(id|data-|aria-|title|class)/.test(key))
        found.push(`${name} ${key}="${value}"`);
    }
  });
  let inStyle = false;
  parser.on('opentagstart', ({ name }) => {
    inStyle = name === 'style';
  });
  parser.on('text', (content) => {
    if (inStyle && (/@import|url\(\s*(?!#)/i.test(content) || content.includes(MARK))) found.push('style');
  });
  parser
    .write(text.replace(/^<!doctype html>/i, '').replace(/<(meta|br|img|hr)\b([^>]*?)\/?>/g, '<$1$2/>'))
    .close();
  return found;
}

describe('nothing of a hostile drawing gets out', () => {
  const drawing = readDrawing(HOSTILE);
  const map = mapRegions(drawing);
  const relief = buildRelief(map, {
    stack: parseStack('2x 3 mm birch'),
    joint: 'pieces',
    frame: 'cut',
    sidecar: [],
  });
  const plan = planCuts(relief);
  const sheets = writeSheets(plan);

  test('the lines were read', () => {
    expect(map.regions.length).toBe(4);
    expect(drawing.labels.some((label) => label.text.includes(MARK))).toBe(true);
    expect(drawing.shapes.some((shape) => shape.names.some((name) => name.includes(MARK)))).toBe(true);
  });

  const written: [string, string][] = [
    ['overview of the map', writeOverview(map)],
    ['overview of the relief', writeOverview(relief)],
    ['overview of the plan', writeOverview(plan)],
    ['plan as a page', writePlanHtml(plan)],
    ['index of the sheets', sheetIndexHtml(plan, sheets, 'Hostile')],
    ...sheets.map((sheet): [string, string] => [`sheet ${sheet.name}`, sheet.svg]),
  ];
  test.each(written)('%s', (_, text) => {
    expect(activeParts(text)).toEqual([]);
  });

  test('the test would see it', () => {
    expect(activeParts('<svg xmlns="http://www.w3.org/2000/svg"><g onload="x()"/></svg>')).toHaveLength(1);
    expect(activeParts('<svg><script>x()</script></svg>')).toHaveLength(1);
    expect(activeParts('<svg><rect style="fill:url(https://a.example/)"/></svg>')).toHaveLength(1);
    expect(activeParts(`<svg><rect fill="${MARK}"/></svg>`)).toHaveLength(1);
    expect(activeParts('<svg><style>@import "x";</style></svg>')).toHaveLength(1);
  });

  test('reports are plain data', () => {
    const text = JSON.stringify([regionsReport(relief), planReport(plan), checkRelief(relief, plan)]);
    expect(JSON.parse(text)).toHaveLength(3);
    expect(text).not.toContain('file:///');
  });
});
