import type { Relief } from '../relief/relief.js';
import { frontSheetsOf } from '../workshop/bridge-where.js';
import { bridgesIn, joinBridges, type SceneBridge, type WoodScene } from '../workshop/bridges.js';
import type { Bridge } from '../workshop/cut-plan.js';
import { finishedScenes } from '../workshop/finished-scenes.js';
import { type NeededWidth, neededWidth } from '../workshop/needed-width.js';
import { MOST_SHEETS } from '../workshop/sheet-sets.js';
import { type CheckInput, defineRule, type NoOptions, type RuleFinding, type RuleUnit } from './rule.js';
import { enough, namesOf, round2 } from './words.js';

/** Wood between two cut lines that is narrower than it needs to be. Page: docs/checks/thin-bridge.md. */
export const thinBridge = defineRule<'thin-bridge', NoOptions>({
  id: 'thin-bridge',
  group: 'strength',
  level: 'warning',
  summary: 'wood between two lines is so narrow that it may break',
  model:
    'width across the bridge, against what the sheet asks for and the kerf and drift of the blade on both sides',
  defaults: {},
  find: (input) =>
    input.plan === null
      ? pieceUnits(input).flatMap((unit) => unit.find())
      : input.plan.bridges.map((bridge) => describe(input.relief, bridge, ` (${bridge.where})`)),
  units: (input) => (input.plan === null ? pieceUnits(input) : null),
});

/** Without a plan: one unit for each finished piece or sheet. */
function pieceUnits({ relief, workshop }: CheckInput): RuleUnit[] {
  // Planning says that such a stack is too high to be sawn.
  if (relief.stack.sheets.length > MOST_SHEETS) return [];
  const { blade, bridges } = workshop;
  const widthFor: NeededWidth = (bridge) => neededWidth(bridge, bridges);
  const settings = JSON.stringify([blade.thickness, bridges, relief.stack, relief.joint]);
  return finishedScenes(relief).map(({ whole, fronts }) => {
    const { regions, sheets, heightSawn } = whole;
    const own = fronts.map((front) => [front.sheets, front.regions, front.recesses]);
    const find = (scene: WoodScene): SceneBridge[] => bridgesIn(relief, workshop, scene, widthFor);
    return {
      key: `${namesOf(relief, regions)} ${regions.join(' ')} ${sheets.join(' ')} ${heightSawn} ${JSON.stringify(own)} ${settings}`,
      find: () =>
        joinBridges([whole, ...fronts].map(find)).map((bridge) => describe(relief, bridge, sheetsOf(bridge))),
    };
  });
}

/** Without the piece: its id changes with the numbers of others, and its regions are named. */
function sheetsOf({ where }: Bridge): string {
  const front = frontSheetsOf(where);
  return front === null ? '' : ` (${front.sheets.join('+')})`;
}

function describe(relief: Relief, bridge: Bridge, where: string): RuleFinding {
  const { at, width, needed, regions, effect, length, side, grainAngle } = bridge;
  const what = effect === 'opens' ? 'narrow place' : 'bridge';
  const across = grainAngle !== null && grainAngle > ACROSS ? ' across the grain' : '';
  const over = length >= width / 2 ? ` over ${round2(length)} mm` : '';
  const off = side === null ? '' : `, ${Math.round(side.area)} mm² on an arm of ${round2(side.lever)} mm`;
  // In front of a recess the sheet's own strength counts; the height of the saw adds little.
  const lower = frontSheetsOf(bridge.where) === null ? ', saw fewer sheets at once' : '';
  return {
    message: `A ${what} of ${namesOf(relief, regions)}${where} is ${round2(width)} mm wide${over}${across} and needs ${round2(needed)} mm; ${EFFECT[effect]}${off}.`,
    at,
    regions,
    // Where the wood holds by wider places all the same, a break is ugly and no more.
    ...(effect === 'opens' ? { level: 'note' as const } : {}),
    measured: { value: width, needed, unit: 'mm' },
    fix: `Widen it to ${enough(needed)} mm${lower}, or choose a stronger sheet.`,
  };
}

/** Degrees to the grain from which a bridge is said to run across it. */
const ACROSS = 45;

const EFFECT: Readonly<Record<Bridge['effect'], string>> = {
  parts: 'if it breaks, the wood falls in two',
  hangs: 'if it breaks, a part hangs by other bridges',
  opens: 'if it breaks, a ring is open and all else holds',
};
