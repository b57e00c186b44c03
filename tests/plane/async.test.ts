import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { arrangeLines, arrangeLinesAsync } from '../../src/plane/arrange-lines.js';
import { packLines } from '../../src/plane/line-set.js';
import { mapRegions, mapRegionsAsync } from '../../src/plane/map-regions.js';
import { picture } from '../bench/generate/picture.js';

/** Enough work for a good many turns of the event loop. */
const many = packLines(
  Array.from({ length: 500 }, (_, i) =>
    i % 2 === 0
      ? [
          [i + 0.25, 0],
          [i + 0.5, 500],
        ]
      : [
          [0, i + 0.25],
          [500, i + 0.5],
        ],
  ),
);

describe('asynchronous mapping', () => {
  it('gives the same result, and reports growing progress', async () => {
    const progress: number[] = [];
    const result = await arrangeLinesAsync(many, { onProgress: (done) => progress.push(done) });
    expect(result.faceCount).toBe(arrangeLines(many).faceCount);
    expect(progress.length).toBeGreaterThan(0);
    expect(progress).toEqual([...progress].sort((a, b) => a - b));
    expect(progress.every((done) => done >= 0 && done <= 1)).toBe(true);
  });

  it('lets timers run meanwhile', async () => {
    let ticks = 0;
    const timer = setInterval(() => ticks++, 1);
    await arrangeLinesAsync(many);
    clearInterval(timer);
    expect(ticks).toBeGreaterThan(0);
  });

  it('stops on a signal, before the start and on the way', async () => {
    await expect(arrangeLinesAsync(many, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'aborted',
    });
    const controller = new AbortController();
    const promise = arrangeLinesAsync(many, {
      signal: controller.signal,
      onProgress: () => controller.abort(),
    });
    await expect(promise).rejects.toMatchObject({ code: 'aborted' });
  });

  it('pauses while a drawing is mapped, and reports growing progress', async () => {
    const drawing = readDrawing(picture(1500));
    const progress: number[] = [];
    await mapRegionsAsync(drawing, { onProgress: (done) => progress.push(done) });
    expect(progress.length).toBeGreaterThan(3);
    expect(progress).toEqual([...progress].sort((a, b) => a - b));
    expect(progress.every((done) => done >= 0 && done <= 1)).toBe(true);
  });

  it('maps a drawing as the synchronous call does', async () => {
    const drawing = readDrawing(
      '<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="50mm" viewBox="0 0 50 50"><circle cx="20" cy="20" r="9"/></svg>',
    );
    expect(await mapRegionsAsync(drawing)).toEqual(mapRegions(drawing));
  });
});
