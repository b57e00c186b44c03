import type { Finding } from '../finding.js';
import type { Relief } from '../relief/relief.js';
import { joinAreas, splitByNodes } from './areas.js';
import { standingBlocks } from './blocks.js';
import type { Offcut, Pass } from './cut-plan.js';
import { keptLevels, levelLines } from './levels.js';
import { lineShapes } from './line-shapes.js';
import type { SawnJob } from './piece-job.js';
import { sawSetting } from './saw-setting.js';
import { wholeStock } from './standing-stock.js';
import { cutoutTarget, outlineTargets, type Target, veinTarget } from './targets.js';
import type { Tools } from './tools.js';

/** A part of one sheet of a continuous relief. */
export interface LevelPart {
  /** Counted from 1 at the back. */
  readonly level: number;
  readonly sheet: string;
  readonly regions: readonly number[];
}

/** A job of continuous sheets. */
export interface LevelJob extends SawnJob {
  readonly parts: readonly LevelPart[];
  readonly offcuts: readonly Offcut[];
}

/** Saws a relief of continuous sheets: every sheet by itself, from the front to the back. */
export function sawLevels(relief: Relief, tools: Tools): LevelJob {
  const { map, stack } = relief;
  const levels = keptLevels(relief);
  const shapes = lineShapes(map);
  const known = relief.regions.map(({ depth }, r) => depth !== null && !map.regions[r].addOn);
  const passes: Pass[] = [];
  const findings: Finding[] = [];
  const parts: LevelPart[] = [];
  const offcuts: Offcut[] = [];
  for (let level = Math.max(0, ...levels); level >= 1; level--) {
    const place = stack.sheets.length - level;
    const held = 1 << place;
    const needed = levelLines(relief, levels, level).map((line) => (line === 1 ? held : 0));
    const isWaste = (r: number): boolean => known[r] && levels[r] < level;
    const voids = Uint8Array.from(levels, (_, r) => (isWaste(r) ? 1 : 0));
    const stock = wholeStock(map, relief.frame, needed, voids, shapes);
    const keys = {
      waste: levels.map((_, r) => (isWaste(r) ? 0 : -1)),
      kept: levels.map((n) => (n >= level ? 0 : -1)),
    };
    const targets: Target[] = [];
    for (const area of joinAreas(map, keys.waste)) {
      if (!area.touchesOutside || relief.frame === 'board-edge') targets.push(cutoutTarget(map, area, held));
    }
    for (const area of joinAreas(map, keys.kept)) {
      targets.push(...outlineTargets(map, shapes, area, held));
      parts.push({ level, sheet: stack.sheets[place].id, regions: area.regions });
    }
    const veins = map.edges.flatMap(({ kind }, e) => (kind !== 'border' && needed[e] !== 0 ? [e] : []));
    for (const lines of splitByNodes(map, veins)) targets.push(veinTarget(map, shapes, held, lines));
    const blocks = standingBlocks(stock, held);
    const setting = tools.setting(stock, held);
    const { steps, loose, findings: found } = sawSetting(setting, targets, [], blocks);
    const { sheets, height } = setting;
    const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
    passes.push({ phase: 'pass', number: level, sheets, height, moves: [], steps, loose, blocks, minutes });
    findings.push(...found);
    const left = map.regions.flatMap((region, r) =>
      !region.addOn && levels[r] < level && stock.gone[r] === 0 ? [r] : [],
    );
    const area = left.reduce((sum, r) => sum + map.regions[r].area, 0);
    offcuts.push({
      sheet: sheets[0],
      afterPass: level,
      area,
      regions: left,
      pieces: [],
      spareParts: [],
      spareShapes: [],
    });
  }
  return { passes, findings, parts, offcuts };
}
