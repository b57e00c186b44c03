import { defineRule, type NoOptions } from './rule.js';
import { namesOf, round2 } from './words.js';

/** Wood between two cut lines that is narrower than it needs to be. Page: docs/checks/thin-bridge.md. */
export const thinBridge = defineRule<'thin-bridge', NoOptions>({
  id: 'thin-bridge',
  group: 'strength',
  level: 'warning',
  summary: 'wood between two lines is so narrow that it may break',
  model:
    'width across the bridge, against thickness of the sheet × strength of the reference wood by this one, and kerf and drift of the blade on both sides (neededWidth)',
  defaults: {},
  find: ({ relief, plan }) =>
    (plan?.bridges ?? []).map(({ at, width, needed, where, regions }) => ({
      message: `A bridge of ${namesOf(relief, regions)} (${where}) is ${round2(width)} mm wide; it needs ${round2(needed)} mm.`,
      at,
      regions,
      measured: { value: width, needed, unit: 'mm' },
      fix: `Widen it to ${Math.ceil(needed * 10) / 10} mm, saw fewer sheets at once, or choose a stronger sheet.`,
    })),
});
