import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';

const notesOf = (inner: string) => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g fill="none" stroke="#000"><rect x="10" y="10" width="80" height="80"/>${inner}</g><text x="16" y="20" font-size="4">1</text></svg>`;
  const relief = buildRelief(mapRegions(readDrawing(svg)), { stack: parseStack('2x 3 mm birch') });
  const plan = planCuts(relief);
  const steps = plan.passes.flatMap((pass) => pass.steps);
  const seen = steps.flatMap(({ start }, i) => (start.where === 'line' ? [i + 1] : []));
  return { seen, notes: plan.findings.filter(({ rule }) => rule === 'drill-start'), steps };
};
const vein = (y: number): string => `<path d="M30 ${y}H70"/>`;

describe('holes that show', () => {
  it('are none where the hole is in waste', () => {
    const job = notesOf('<circle cx="50" cy="50" r="10"/><text x="50" y="51" font-size="4">0</text>');
    expect(job.steps.some(({ start }) => start.where === 'waste')).toBe(true);
    expect(job.notes).toEqual([]);
  });

  it('are noted with the step and the place of the first', () => {
    const { seen, notes, steps } = notesOf(vein(50));
    expect(seen).toHaveLength(1);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatchObject({ level: 'note', at: steps[seen[0] - 1].start.at });
    expect(notes[0].message).toMatch(new RegExp(`^A hole is .*: step ${seen[0]}\\.$`));
  });

  it('are summed up in one note that names their steps', () => {
    const { seen, notes } = notesOf(Array.from({ length: 14 }, (_, i) => vein(25 + 4 * i)).join(''));
    expect(seen).toHaveLength(14);
    expect(notes).toHaveLength(1);
    expect(notes[0].message).toContain(`14 holes are`);
    expect(notes[0].message).toContain(`steps ${seen.join(', ')}.`);
  });

  it('are not all named where there are very many', () => {
    const { seen, notes } = notesOf(Array.from({ length: 42 }, (_, i) => vein(24 + 1.5 * i)).join(''));
    expect(seen).toHaveLength(42);
    expect(notes).toHaveLength(1);
    expect(notes[0].message).toContain(`${seen.slice(0, 40).join(', ')} and 2 more.`);
  });

  it('are not told twice where waste is too narrow', () => {
    const { notes } = notesOf('<path d="M40 40H60V40.6H40Z"/><text x="50" y="40.4" font-size="0.3">0</text>');
    expect(notes.map(({ level }) => level)).toEqual(['warning']);
  });
});
