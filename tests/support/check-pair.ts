import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CheckOptions } from '../../src/checks/check-options.js';
import { checkRelief } from '../../src/checks/check-relief.js';
import { RULES, type RuleId } from '../../src/checks/rules.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { Finding } from '../../src/finding.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { MapOptions } from '../../src/plane/region-map.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { Frame, Joint, RegionNumber } from '../../src/relief/relief.js';
import type { Workshop } from '../../src/workshop/cut-plan.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';

const ROOT = new URL('../../', import.meta.url);

/** How a drawing of a fixture pair is built and checked; `bad` and `good` add to what both share. */
export interface Setup {
  readonly stack: string;
  readonly joint?: Joint;
  readonly frame?: Frame;
  readonly numbers?: readonly RegionNumber[];
  readonly sidecar?: readonly RegionNumber[];
  readonly map?: MapOptions;
  readonly workshop?: Partial<Workshop>;
  readonly checks?: CheckOptions;
}

export function textAt(path: string): string {
  return readFileSync(new URL(path, ROOT), 'utf8');
}

/** The drawing and the setup of one half of a rule's fixture pair. */
export function fixtureOf(rule: string, half: 'bad' | 'good'): { svg: string; setup: Setup } {
  const folder = `fixtures/checks/${rule}`;
  const { bad, good, ...shared } = JSON.parse(textAt(`${folder}/setup.json`));
  return { svg: textAt(`${folder}/${half}.svg`), setup: { ...shared, ...(half === 'bad' ? bad : good) } };
}

/** All findings of a drawing, from its text to the checks. */
export function findingsOf(svg: string, setup: Setup): readonly Finding[] {
  const { stack, map, workshop, checks, ...options } = setup;
  const relief = buildRelief(mapRegions(readDrawing(svg), map), { stack: parseStack(stack), ...options });
  return checkRelief(relief, planCuts(relief, workshop), checks);
}

/** The findings of one rule on a drawing. */
export function foundBy(rule: RuleId, svg: string, setup: Setup): Finding[] {
  return findingsOf(svg, setup).filter((finding) => finding.rule === rule);
}

/** The tests that every rule has: its pair, its page, and what its findings carry. */
export function describePair(id: RuleId): void {
  const rule = RULES.find((each) => each.id === id)!;
  const bad = fixtureOf(id, 'bad');
  const good = fixtureOf(id, 'good');

  describe(`${id}: fixture pair`, () => {
    it('is reported on the bad drawing and not on the good one', () => {
      expect(foundBy(id, bad.svg, bad.setup).length).toBeGreaterThan(0);
      expect(foundBy(id, good.svg, good.setup)).toEqual([]);
    });

    it('leaves no other fault in the good drawing', () => {
      const others = findingsOf(good.svg, good.setup).filter((finding) => finding.level !== 'note');
      expect(others).toEqual([]);
    });

    it('says what, where, how much and what to do', () => {
      for (const finding of foundBy(id, bad.svg, bad.setup)) {
        expect(finding.message).toMatch(/^\S.*\.$/);
        expect(finding.fix).toMatch(/^\S.*\.$/);
        expect(finding.model === undefined).toBe(finding.measured === undefined);
        if (rule.model !== null && finding.measured !== undefined) expect(finding.model).toBe(rule.model);
        for (const value of Object.values(finding.measured ?? {})) expect(value).not.toBeNaN();
      }
    });

    it('can be switched off', () => {
      const checks: CheckOptions = { rules: { [id]: 'off' } };
      expect(foundBy(id, bad.svg, { ...bad.setup, checks })).toEqual([]);
    });
  });

  describe(`${id}: page`, () => {
    const path = `docs/checks/${id}.md`;
    const page = existsSync(new URL(path, ROOT)) ? textAt(path) : '';

    it('has every part', () => {
      expect(page).toContain(`# ${id}\n`);
      for (const part of ['What it means', 'Why it matters', 'Examples', 'Options', 'How to fix it']) {
        expect(page).toContain(`\n## ${part}\n`);
      }
      expect(page).toContain(`Group: ${rule.group}. Level: ${rule.level}.`);
      if (rule.model !== null) expect(page).toContain(rule.model);
    });

    it('shows the pair, its stack and what is reported', () => {
      for (const half of ['bad', 'good']) expect(page).toContain(`../../fixtures/checks/${id}/${half}.svg`);
      expect(page).toContain(`\`${bad.setup.stack}\``);
      const [first] = foundBy(id, bad.svg, bad.setup);
      expect(page).toContain(`> ${first.message}`);
    });

    it('lists the options with their defaults', () => {
      const rows = [...page.matchAll(/^\| `(\w+)` \| ([^|]+) \|/gm)].map(([, name, value]) => [name, value]);
      expect(rows).toEqual(Object.entries(rule.defaults).map(([name, value]) => [name, String(value)]));
    });
  });
}
