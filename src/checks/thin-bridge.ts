import type { Bridge } from '../workshop/cut-plan.js';
import { defineRule, type NoOptions } from './rule.js';
import { namesOf, round2 } from './words.js';

/** Wood between two cut lines that is narrower than it needs to be. Page: docs/checks/thin-bridge.md. */
export const thinBridge = defineRule<'thin-bridge', NoOptions>({
  id: 'thin-bridge',
  group: 'strength',
  level: 'warning',
  summary: 'wood between two lines is so narrow that it may break',
  model:
    'width across the bridge, against what the sheet asks for and the kerf and drift of the blade on both sides',
  defaults: {},
  find: ({ relief, plan }) =>
    (plan?.bridges ?? []).map(({ at, width, needed, where, regions, effect }) => ({
      message: `A ${effect === 'opens' ? 'narrow place' : 'bridge'} of ${namesOf(relief, regions)} (${where}) is ${round2(width)} mm wide and needs ${round2(needed)} mm; ${EFFECT[effect]}.`,
      at,
      regions,
      // Where the wood holds by wider places all the same, a break is ugly and no more.
      ...(effect === 'opens' ? { level: 'note' as const } : {}),
      measured: { value: width, needed, unit: 'mm' },
      fix: `Widen it to ${Math.ceil(needed * 10) / 10} mm, saw fewer sheets at once, or choose a stronger sheet.`,
    })),
});

const EFFECT: Readonly<Record<Bridge['effect'], string>> = {
  parts: 'if it breaks, the wood falls in two',
  hangs: 'if it breaks, a part hangs by other bridges',
  opens: 'if it breaks, a ring is open and all else holds',
};
