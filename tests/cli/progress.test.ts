import { describe, expect, it } from 'vitest';
import { createProgress } from '../../src/cli/progress.js';

/** A clock to turn by hand, and what was written. */
function setUp(isTerminal: boolean) {
  const state = { time: 0, text: '' };
  const progress = createProgress({
    write: (text) => {
      state.text += text;
    },
    isTerminal,
    now: () => state.time,
  });
  const at = (time: number, doing: string, share?: number): string => {
    state.time = time;
    state.text = '';
    progress.say(doing, share);
    return state.text;
  };
  return { state, progress, at };
}

describe('on a terminal', () => {
  it('says nothing of short work, then keeps one line', () => {
    const { at } = setUp(true);
    expect(at(400, 'mapping', 0.1)).toBe('');
    expect(at(600, 'mapping', 0.119)).toBe('\rmapping: 11 %');
    expect(at(650, 'mapping', 0.5)).toBe('');
    expect(at(660, 'planning')).toBe('\rplanning …   ');
    expect(at(800, 'mapping', 1)).toBe('\rmapping: 100 %');
  });

  it('takes its line away before other text', () => {
    const { at, progress, state } = setUp(true);
    at(600, 'mapping');
    state.text = '';
    progress.clear();
    expect(state.text).toBe('\r         \r');
    state.text = '';
    progress.clear();
    expect(state.text).toBe('');
  });
});

it('writes a line now and then where there is no terminal', () => {
  const { at, progress, state } = setUp(false);
  expect(at(2_900, 'mapping', 0.1)).toBe('');
  expect(at(3_100, 'mapping', 0.2)).toBe('mapping: 20 %\n');
  expect(at(9_000, 'planning')).toBe('');
  expect(at(13_200, 'planning')).toBe('planning …\n');
  state.text = '';
  progress.clear();
  expect(state.text).toBe('');
});
