import { afterEach, beforeEach, expect, it } from 'vitest';
import { Bench } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

it('shows in the README what the command draws (renew it with vitest -u)', async () => {
  bench.copy('fixtures/harbour/harbour.svg');
  bench.copy('fixtures/harbour/harbour.plystep.json');
  const { code } = await bench.run(['overview', 'harbour.svg', '--out', 'overview.svg']);
  expect(code).toBe(0);
  await expect(bench.text('overview.svg')).toMatchFileSnapshot('../../docs/images/harbour-overview.svg');
});
