import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkAgain } from '../../src/checks/check-again.js';
import { checkRelief } from '../../src/checks/check-relief.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief, renumber } from '../../src/relief/build-relief.js';
import { parseSidecar } from '../../src/relief/parse-sidecar.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { RegionNumber, Relief } from '../../src/relief/relief.js';
import { fixtureOf, textAt } from '../support/check-pair.js';
import { recessPiece, rectangle, square } from '../support/recess-piece.js';

const map = mapRegions(readDrawing(textAt('fixtures/owl/owl.svg')));
const sidecar = parseSidecar(textAt('fixtures/owl/owl.plystep.json'));
const relief = buildRelief(map, { stack: sidecar.stack!, sidecar: sidecar.numbers });

describe('checkAgain', () => {
  it('finds what checkRelief finds, whatever was changed before', () => {
    const number = fc.constantFrom('1', '2', '3', '4', '0', '-1', '+', '9', 'x');
    const region = fc.nat(map.regions.length - 1);
    const change = fc.record({ region: region.map((r) => map.regions[r].id), depth: number });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        let now = relief;
        let { memo } = checkAgain(now);
        for (const entry of changes) {
          now = renumber(now, { numbers: [entry] });
          const checked = checkAgain(now, null, {}, memo);
          memo = checked.memo;
          expect(checked.findings).toEqual(checkRelief(now));
        }
      }),
      { numRuns: 8 },
    );
  });

  it('works the costly rules out again only for bodies that changed', () => {
    const first = checkAgain(relief);
    expect(first.reused).toBe(0);
    expect(checkAgain(relief, null, {}, first.memo).fresh).toBe(0);
    const piece = relief.bodies[0].region;
    const changed = renumber(relief, { numbers: [{ region: map.regions[piece].id, depth: '0' }] });
    const second = checkAgain(changed, null, {}, first.memo);
    expect(second.fresh).toBeLessThanOrEqual(2);
    expect(second.reused).toBeGreaterThan(relief.bodies.length - 3);
  });

  it('looks for bridges in the pieces where there is no plan', () => {
    const bad = fixtureOf('thin-bridge', 'bad');
    const railing = buildRelief(mapRegions(readDrawing(bad.svg)), { stack: parseStack(bad.setup.stack) });
    const rules = (relief: Relief) => checkRelief(relief).map((finding) => finding.rule);
    expect(rules(railing)).toContain('thin-bridge');
    const high = buildRelief(railing.map, { stack: parseStack('40x 1 mm poplar') });
    expect(rules(high)).not.toContain('thin-bridge');
  });

  it('calls front sheets by the sheets as they are now', () => {
    const plain = { points: rectangle(10, 10, 20, 60), depth: '3' };
    const other = { points: rectangle(30, 10, 50, 60), depth: '3' };
    const before = recessPiece([plain, other, square(33, 30, 12, '-1')], '3x 3 mm poplar');
    const { memo, findings } = checkAgain(before);
    expect(findings.map(({ message }) => message).join()).toMatch(/ \(s1\) is 3 mm wide/);
    const again = (change: RegionNumber): string => {
      const after = renumber(before, { numbers: [change] });
      const checked = checkAgain(after, null, {}, memo);
      expect(checked.findings).toEqual(checkRelief(after));
      return checked.findings.map(({ message }) => message).join();
    };
    const { region: host, recesses } = before.bodies[1];
    const ids = before.map.regions.map(({ id }) => id);
    expect(again({ region: ids[host], depth: '3', face: 's2' })).toMatch(/ \(s2\) is 3 mm wide/);
    expect(again({ region: ids[recesses[0]], depth: '-2' })).toMatch(/ \(s1\+s2\) is 3 mm wide/);
  });

  it('takes nothing over from another map', () => {
    const other = buildRelief(structuredClone(map), { stack: relief.stack });
    expect(checkAgain(other, null, {}, checkAgain(relief).memo).reused).toBe(0);
  });
});
