import type { Finding } from '../finding.js';
import type { Relief } from '../relief/relief.js';
import { standingBlocks } from './blocks.js';
import type { WoodScene } from './bridges.js';
import type { Block, Pass, SheetMove } from './cut-plan.js';
import { type LineShapes, lineShapes } from './line-shapes.js';
import { beforeRecesses, passTargets, pieceAreas, recessTargets } from './piece-targets.js';
import { classifyRecesses, type RecessGroup, recessGroups } from './recess-groups.js';
import {
  BEFORE_ALL,
  type RecessClass,
  type Schedule,
  scheduleRecesses,
  slotSets,
} from './recess-schedule.js';
import { type SawnSetting, sawSetting } from './saw-setting.js';
import {
  countSheets,
  frontSheets,
  neededSheets,
  type SheetDemand,
  type SheetSet,
  sheetDemand,
} from './sheet-sets.js';
import { type StandingStock, wholeStock } from './standing-stock.js';
import type { Target } from './targets.js';
import type { Tools } from './tools.js';

/** A job, sawn to its end. */
export interface SawnJob {
  readonly passes: readonly Pass[];
  readonly findings: readonly Finding[];
}

/** A job of pieces, and what is left of the stock. */
export interface PieceJob extends SawnJob {
  readonly stock: StandingStock;
  readonly demand: SheetDemand;
  /** The stock that was left standing in between, in the order of the job. */
  readonly standing: readonly WoodScene[];
}

/**
 * Saws a relief of pieces: recesses when the schedule says, and the passes from the highest number down. Input:
 * any relief with joint `pieces`; regions without a number are left standing. See docs/plan.md.
 */
export function sawPieces(relief: Relief, tools: Tools): PieceJob {
  const { map } = relief;
  const total = relief.stack.sheets.length;
  const shapes = lineShapes(map);
  const { demand, needed, groups, classes, classOf, schedule } = fewestMoves(relief, shapes);
  const voids = Uint8Array.from(relief.regions, ({ role }) => (role === 'void' ? 1 : 0));
  const stock = wholeStock(map, relief.frame, needed, voids, shapes);
  const areas = pieceAreas(relief, demand);
  const log = new SettingLog(relief, tools, stock);

  const sawSlot = (slot: number, together: SheetSet): void => {
    const inSlot = groups.filter((_, g) => schedule.slots[classOf[g]] === slot);
    const members = [
      ...new Set(groups.flatMap((_, g) => (inSlot.includes(groups[g]) ? [classes[classOf[g]]] : []))),
    ];
    const sets = slotSets(slot, members, total);
    if (sets.length === 0) return;
    const first = slot === BEFORE_ALL ? sets[0] : together;
    const before = beforeRecesses(stock, demand, areas, inSlot, first);
    log.saw(slot === BEFORE_ALL ? 'recesses' : 'pass', first, before, []);
    for (const set of sets) {
      const own = inSlot.filter((group) => group.sheets === set);
      log.saw('recesses', set, recessTargets(stock, own), []);
    }
  };

  sawSlot(BEFORE_ALL, 0);
  for (let pass = total; pass >= 1; pass--) {
    const held = frontSheets(pass);
    sawSlot(pass, held);
    const { targets, watched } = passTargets(stock, demand, areas, groups, pass);
    log.saw('pass', held, targets, watched);
  }
  const findings = [...log.findings, ...unproven(schedule)];
  return { passes: log.passes, findings, stock, demand, standing: log.standing };
}

/** What every line asks for, and when the recesses are sawn. */
interface Scheduled {
  readonly demand: SheetDemand;
  readonly needed: Int32Array;
  readonly groups: readonly RecessGroup[];
  readonly classes: readonly RecessClass[];
  readonly classOf: readonly number[];
  readonly schedule: Schedule;
  /** Sheet moves of the whole job: those of the recesses, and a lift for every pass. */
  readonly moves: number;
}

/**
 * The schedule with the fewest sheet moves. A piece that is loose before the pass of its own number comes out at
 * once; one with recesses waits for that pass where its recesses then need fewer moves.
 */
function fewestMoves(relief: Relief, shapes: LineShapes): Scheduled {
  const soon = scheduled(relief, shapes, sheetDemand(relief));
  const patient = (b: number): boolean => {
    const { region, recesses, openings } = relief.bodies[b];
    const veins = [region, ...recesses].some((r) => relief.map.regions[r].veins.length > 0);
    return recesses.length > 0 && openings.length === 0 && !veins;
  };
  const late = sheetDemand(relief, patient);
  if (late.passOf.every((pass, b) => pass === soon.demand.passOf[b])) return soon;
  const waiting = scheduled(relief, shapes, late);
  return waiting.moves < soon.moves ? waiting : soon;
}

function scheduled(relief: Relief, shapes: LineShapes, demand: SheetDemand): Scheduled {
  const total = relief.stack.sheets.length;
  const needed = neededSheets(relief, demand);
  const groups = recessGroups(relief, demand, needed, shapes);
  const { classes, classOf } = classifyRecesses(groups, demand, needed, total);
  const schedule = scheduleRecesses(classes, total);
  const lifts = demand.passOf.length === 0 ? 0 : total - Math.min(...demand.passOf);
  return { demand, needed, groups, classes, classOf, schedule, moves: schedule.moves + lifts };
}

function unproven(schedule: Schedule): Finding[] {
  if (schedule.proven) return [];
  return [
    {
      rule: 'sheet-moves',
      level: 'note',
      message: `The recesses need ${schedule.moves} sheet moves; the search was cut off, so fewer may do.`,
      at: null,
      regions: [],
    },
  ];
}

/** Writes settings down as they are sawn; the only thing here that changes. */
class SettingLog {
  readonly passes: Pass[] = [];
  readonly findings: Finding[] = [];
  readonly standing: WoodScene[] = [];
  readonly #relief: Relief;
  readonly #tools: Tools;
  readonly #stock: StandingStock;
  #held: SheetSet = 0;

  constructor(relief: Relief, tools: Tools, stock: StandingStock) {
    this.#relief = relief;
    this.#tools = tools;
    this.#stock = stock;
  }

  /** Saws one setting; where nothing is left to saw it is passed over, and its moves come with the next one. */
  saw(
    phase: Pass['phase'],
    held: SheetSet,
    targets: readonly Target[],
    watched: readonly Target[],
  ): SawnSetting | null {
    const stock = this.#stock;
    const blocks = targets.length === 0 ? [] : standingBlocks(stock, held);
    const setting = this.#tools.setting(stock, held);
    const sawn = sawSetting(setting, targets, watched, blocks);
    if (sawn.steps.length === 0 && sawn.loose.length === 0) return null;
    const { sheets, height } = setting;
    const { steps, loose } = sawn;
    const moves = this.#held === 0 ? [] : sheetMoves(this.#relief, this.#held, held);
    const minutes =
      steps.reduce((sum, step) => sum + step.minutes, 0) + this.#tools.moveMinutes(moves.length);
    const number = countSheets(held);
    this.passes.push({ phase, number, sheets, height, moves, steps, loose, blocks, minutes });
    this.findings.push(...sawn.findings);
    const before = this.passes[this.passes.length - 2];
    if (phase === 'recesses') this.#keep(standingBlocks(stock, held), sheets, height, sheets.join('+'));
    else if (before?.phase === 'pass') this.#keep(blocks, sheets, height, `pass ${before.number}`);
    this.#held = held;
    return sawn;
  }

  /** Notes what stands: after recesses in their own sheets, after a pass in those that are sawn next. */
  #keep(blocks: readonly Block[], sheets: readonly string[], heightSawn: number, where: string): void {
    for (const { regions, board } of blocks)
      this.standing.push({ regions, board, sheets, heightSawn, where });
  }
}

/** Sheets to lift off, the last one first, then sheets to put back, from the front. */
function sheetMoves(relief: Relief, from: SheetSet, to: SheetSet): SheetMove[] {
  const ids = relief.stack.sheets.map((sheet) => sheet.id);
  const lifts = ids.filter((_, j) => (from & ~to & (1 << j)) !== 0).reverse();
  const back = ids.filter((_, j) => (to & ~from & (1 << j)) !== 0);
  return [
    ...lifts.map((sheet): SheetMove => ({ sheet, action: 'lift' })),
    ...back.map((sheet): SheetMove => ({ sheet, action: 'put-back' })),
  ];
}
