import { describe, expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { completeWorkshop } from '../../src/workshop/complete-workshop.js';
import { DEFAULT_WORKSHOP, threadingHole } from '../../src/workshop/default-workshop.js';
import { paceOf, sawMinutes, timeRange } from '../../src/workshop/saw-time.js';

const work = { length: 1000, height: 10, corners: 0, threaded: false, drilled: false };

describe('sawMinutes', () => {
  it('takes as long for twice the length as for twice the height, up to the easy height', () => {
    const once = sawMinutes(DEFAULT_WORKSHOP, work);
    expect(sawMinutes(DEFAULT_WORKSHOP, { ...work, length: 2000 })).toBeCloseTo(2 * once, 12);
    expect(sawMinutes(DEFAULT_WORKSHOP, { ...work, height: 20 })).toBeCloseTo(2 * once, 12);
  });

  it('falls with the square of the height above it', () => {
    const easy = sawMinutes(DEFAULT_WORKSHOP, { ...work, height: 20 });
    expect(sawMinutes(DEFAULT_WORKSHOP, { ...work, height: 40 })).toBeCloseTo(4 * easy, 12);
  });

  it('adds corners, threading and the hole', () => {
    const extra = { ...work, corners: 3, threaded: true, drilled: true };
    const { cornerMinutes, threadMinutes, drillMinutes } = DEFAULT_WORKSHOP;
    expect(sawMinutes(DEFAULT_WORKSHOP, extra) - sawMinutes(DEFAULT_WORKSHOP, work)).toBeCloseTo(
      3 * cornerMinutes + threadMinutes + drillMinutes,
      12,
    );
  });
});

describe('calibration', () => {
  it('gives the known job its own time back', () => {
    const knownJob = { length: 2400, height: 12, minutes: 41, threadings: 5, corners: 12 };
    const workshop = completeWorkshop({ knownJob });
    const sawn = sawMinutes(workshop, { ...work, length: 2400, height: 12, corners: 12 });
    const threaded = 5 * paceOf(workshop) * workshop.threadMinutes;
    expect(sawn + threaded).toBeCloseTo(41, 9);
  });

  it('narrows the range', () => {
    const knownJob = { length: 1000, height: 10, minutes: 10 };
    const [least, most] = timeRange(completeWorkshop({ knownJob }), 60);
    const [wideLeast, wideMost] = timeRange(DEFAULT_WORKSHOP, 60);
    expect(least).toBeGreaterThan(wideLeast);
    expect(most).toBeLessThan(wideMost);
    expect(least).toBeLessThan(60);
    expect(most).toBeGreaterThan(60);
  });
});

describe('completeWorkshop', () => {
  it('sorts bits and takes the easy height of a known blade', () => {
    const workshop = completeWorkshop({
      blade: { name: 'No. 9', width: 1.35, thickness: 0.46 },
      bits: [
        { name: 'b', diameter: 2 },
        { name: 'a', diameter: 1 },
      ],
    });
    expect(workshop.bits.map((bit) => bit.name)).toEqual(['a', 'b']);
    expect(workshop.easyHeight).toBe(50);
    expect(threadingHole(workshop)).toBeCloseTo(Math.hypot(1.35, 0.46) + 0.1, 12);
  });

  it.each([
    ['feed', { feed: 0 }],
    ['maxHeight', { maxHeight: Number.NaN }],
    ['drillMargin', { drillMargin: -1 }],
    ['bit x', { bits: [{ name: 'x', diameter: 0 }] }],
    ['blade.width', { blade: { name: 'x', width: -1, thickness: 1 } }],
    ['knownJob.minutes', { knownJob: { length: 1, height: 1, minutes: 0 } }],
    ['fed', { fed: 3 }],
    ['blade', { blade: 'No. 3' }],
    ['bits', { bits: 3 }],
    ['bits[0]', { bits: [null] }],
    ['bits[0].name', { bits: [{ diameter: 1 }] }],
    ['knownJob', { knownJob: 7 }],
    ['clampSide', { clampSide: 'middle' }],
    ['bridges.wide', { bridges: { wide: 1 } }],
    ['bridges.least', { bridges: { least: -1 } }],
  ])('refuses a senseless %s', (name, given) => {
    const workshop = given as Parameters<typeof completeWorkshop>[0];
    expect(() => completeWorkshop(workshop)).toThrow(PlystepError);
    expect(() => completeWorkshop(workshop)).toThrow(name);
  });
});
