import polygonClipping, { type MultiPolygon, type Polygon } from 'polygon-clipping';
import type { StepEntry } from '../../src/output/plan-json.js';
import type { WayIn } from '../../src/workshop/cut-plan.js';
import { flatPath, ringArea, sampleRun, type XY } from './flat-path.js';
import { OUTSIDE, onGrid, type PlanWorld } from './plan-world.js';
import type { SegmentStore } from './segment-store.js';

/** Half the width of the strip that a way is taken to cut out, mm: enough to part polygons, too little to change areas. */
const HALF = 0.01;

/** Smaller polygons are what chords and the grid leave beside the strips, mm². */
const SLIVER = 0.15;

/** How far two readings of an area may lie apart: for each mm of border, and for the strips of the ways. */
const OFF = 0.02;

/** A border is open where it is sawn to within this, mm. */
const ON_LINE = 0.03;
const BESIDE = 0.05;
const STEP = 0.7;

/** The length of what is new of a way is read so finely, and may be off by so much, mm. */
const FINE = 0.1;
const NEW_LENGTH = 0.25;

/** How far a way may come beside a line at its ends, mm, and how far from its end it counts. */
const TOUCH = 0.02;
const ENDS = 0.3;

/** A part of the waste in one sheet. */
interface Part {
  readonly polygon: Polygon;
  readonly area: number;
  /** Places at its border with the picture, with the region that is beside it there. */
  readonly border: readonly { readonly at: XY; readonly inner: string }[];
  off: boolean;
}

/** What is known of a sheet. */
export interface SheetState {
  readonly sawn: SegmentStore;
  readonly gone: ReadonlySet<string>;
}

/** The waste of the board around the picture, sheet by sheet, as polygons by polygon-clipping. */
export class BoardWaste {
  readonly #world: PlanWorld;
  readonly #board: readonly [number, number, number, number];
  readonly #parts = new Map<string, Part[]>();
  readonly #ways = new Map<string, XY[][]>();
  readonly #state: (sheet: string) => SheetState;

  constructor(world: PlanWorld, state: (sheet: string) => SheetState) {
    this.#world = world;
    this.#state = state;
    const all = world.inStack.flatMap(({ runs }) => runs.flat());
    const { width, height } = world.report.board;
    const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
    const [x0, x1] = [least(xs), most(xs)];
    const [y0, y1] = [least(ys), most(ys)];
    const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2];
    this.#board = [cx - width / 2, cy - height / 2, cx + width / 2, cy + height / 2];
  }

  /** The ways of a step: what is wrong with them. */
  saw({ waysIn = [], sheets, start, path }: StepEntry): string[] {
    const runs = flatPath(path);
    return waysIn.flatMap((way) =>
      this.#sawWay(way, sheets, way.run === 0 ? (start.at as XY) : runs[way.run][0]),
    );
  }

  #sawWay(way: WayIn, sheets: readonly string[], start: XY): string[] {
    const points = way.points as readonly XY[];
    const [begin, end] = [points[0], points[points.length - 1]];
    const wrong: string[] = [];
    if (far(end, start) > TOUCH) wrong.push('the way in does not lead to the start');
    if (way.from === 'edge' && !this.#isOnEdge(begin))
      wrong.push('the way in does not begin at the edge of the board');
    let longest = 0;
    for (const sheet of sheets) {
      const begins = way.from === 'edge' || this.#isOpen(sheet, begin, way.from);
      if (!begins) wrong.push(`the way in begins at ${begin.join(', ')}, where nothing is open in ${sheet}`);
      longest = Math.max(longest, this.#newLength(sheet, points));
      const miss = this.#firstMiss(sheet, points);
      if (miss !== null)
        wrong.push(`the way in leaves the waste of ${sheet} at ${miss.map((v) => v.toFixed(2)).join(', ')}`);
      if (way.from === 'open') continue;
      this.#waysIn(sheet).push([...points]);
      this.#cut(sheet);
    }
    if (Math.abs(longest - way.length) > NEW_LENGTH)
      wrong.push(`${longest.toFixed(2)} mm of the way in are new, the plan says ${way.length.toFixed(2)} mm`);
    const counts = sheets.map((sheet) => this.#partsIn(sheet).length);
    if (counts.join() !== way.parts.join())
      wrong.push(`the waste is in ${counts.join()} parts, the plan says ${way.parts.join()}`);
    return wrong;
  }

  /** How much of a way is not sawn yet in a sheet, mm. */
  #newLength(sheet: string, points: readonly XY[]): number {
    let sum = 0;
    for (let i = 1; i < points.length; i++) {
      const length = far(points[i - 1], points[i]);
      const count = Math.ceil(length / FINE);
      for (let k = 0; k < count; k++) {
        const t = (k + 0.5) / count;
        const at: XY = [
          points[i - 1][0] + t * (points[i][0] - points[i - 1][0]),
          points[i - 1][1] + t * (points[i][1] - points[i - 1][1]),
        ];
        if (!this.#onWay(sheet, at, 1e-6)) sum += length / count;
      }
    }
    return sum;
  }

  /** After a step: what comes off against what the plan says. */
  settle({ wasteOff = [], sheets, heldBy }: StepEntry): string[] {
    const wrong: string[] = [];
    for (const sheet of sheets) {
      const loose = this.#partsIn(sheet).filter((part) => !part.off && !this.#isHeld(sheet, part));
      const told = wasteOff.filter((waste) => waste.sheets.includes(sheet)).map(({ area }) => area);
      const came = loose.map(({ area }) => area).sort((a, b) => a - b);
      told.sort((a, b) => a - b);
      const same =
        came.length === told.length && came.every((area, i) => Math.abs(area - told[i]) <= roomFor(area));
      if (!same)
        wrong.push(
          `waste comes off ${sheet}: ${came.map((a) => a.toFixed(1)).join()} mm², the plan says ${told.map((a) => a.toFixed(1)).join()}`,
        );
      for (const part of loose) part.off = true;
    }
    if (heldBy !== undefined) {
      const held = Math.max(...sheets.map((sheet) => this.#partsIn(sheet).filter(({ off }) => !off).length));
      if (held !== heldBy) wrong.push(`${held} parts of the waste hold, the plan says ${heldBy}`);
    }
    return wrong;
  }

  #isHeld(sheet: string, part: Part): boolean {
    return this.#holds(sheet, part).size > 0;
  }

  /** The regions that a part still hangs on. */
  #holds(sheet: string, { border }: Part): Set<string> {
    const { sawn, gone } = this.#state(sheet);
    const held = border.filter(({ at, inner }) => !gone.has(inner) && sawn.distance(at, ON_LINE) > ON_LINE);
    return new Set(held.map(({ inner }) => inner));
  }

  /** A void that is part of the waste around: no line parts it from that. */
  isAround(id: string, sheet: string): boolean {
    const key = `${id} ${sheet}`;
    const known = this.#around.get(key);
    if (known !== undefined) return known;
    const at = this.#world.report.regions.find((region) => region.id === id)!.labelPoint as XY;
    const found = this.#isVoid(id, sheet) && this.#whole(sheet).some((polygon) => isInPolygon(polygon, at));
    this.#around.set(key, found);
    return found;
  }

  readonly #around = new Map<string, boolean>();

  /** The parts of a sheet that are not off, each with the regions that it hangs on. */
  held(sheet: string): { readonly name: string; readonly holds: ReadonlySet<string> }[] {
    return this.#partsIn(sheet).flatMap((part, i) =>
      part.off ? [] : [{ name: `${sheet} part ${i}`, holds: this.#holds(sheet, part) }],
    );
  }

  /** Parts of sheets that are held together and lie over one another. */
  overOneAnother(sheets: readonly string[]): [string, string][] {
    return sheets.slice(1).flatMap((sheet, k): [string, string][] =>
      this.#partsIn(sheet).flatMap((part, i) =>
        this.#partsIn(sheets[k]).flatMap((other, j): [string, string][] => {
          if (part.off || other.off) return [];
          const isSame = part.area === other.area && part.polygon[0][0].join() === other.polygon[0][0].join();
          const shared = isSame || areaOf(polygonClipping.intersection(part.polygon, other.polygon)) > SLIVER;
          return shared ? [[`${sheets[k]} part ${j}`, `${sheet} part ${i}`]] : [];
        }),
      ),
    );
  }

  #isOnEdge([x, y]: XY): boolean {
    const [x0, y0, x1, y1] = this.#board;
    return Math.min(Math.abs(x - x0), Math.abs(x - x1), Math.abs(y - y0), Math.abs(y - y1)) < TOUCH;
  }

  #isOpen(sheet: string, at: XY, by: 'way' | 'kerf' | 'open'): boolean {
    if (by === 'kerf') return this.#state(sheet).sawn.distance(at, TOUCH) <= TOUCH;
    if (by === 'open' && this.#isOnEdge(at)) return true;
    return this.#onWay(sheet, at, TOUCH);
  }

  #onWay(sheet: string, at: XY, within: number): boolean {
    return this.#waysIn(sheet).some((way) =>
      way.some((p, i) => i > 0 && toSegment(at, way[i - 1], p) < within),
    );
  }

  /** Waste inside the outline: to be sawn out, so free to saw in. */
  #isCutout(at: XY, sheet: string): boolean {
    const id = this.#world.at(at);
    const role = this.#world.regions.get(id)?.role ?? null;
    return role !== null && this.#world.owner(id, sheet) === null;
  }

  /** A place of a way that is not in waste that still lies there; at its ends it meets lines. */
  #firstMiss(sheet: string, points: readonly XY[]): XY | null {
    const [from, to] = [points[0], points[points.length - 1]];
    for (const { at } of sampleRun(points, 0.25)) {
      if (far(at, from) < ENDS || far(at, to) < ENDS) continue;
      const isIn = (part: Part): boolean => !part.off && isInPolygon(part.polygon, at);
      const isFine =
        this.#onWay(sheet, at, TOUCH) || this.#partsIn(sheet).some(isIn) || this.#isCutout(at, sheet);
      if (!isFine) return at;
    }
    return null;
  }

  #waysIn(sheet: string): XY[][] {
    const known = this.#ways.get(sheet);
    if (known !== undefined) return known;
    const own: XY[][] = [];
    this.#ways.set(sheet, own);
    return own;
  }

  #partsIn(sheet: string): Part[] {
    const known = this.#parts.get(sheet);
    if (known !== undefined) return known;
    const parts = this.#partsOf(sheet, this.#whole(sheet), []);
    this.#parts.set(sheet, parts);
    return parts;
  }

  /** Cuts the waste of a sheet along its last way. */
  #cut(sheet: string): void {
    const before = this.#partsIn(sheet);
    const [way] = this.#waysIn(sheet).slice(-1);
    const strips = way.slice(1).map((p, i) => strip(way[i], p));
    const waste = before.flatMap(({ polygon, off }) => (off ? [] : [polygon]));
    const rest = polygonClipping.difference(waste as MultiPolygon, ...strips);
    this.#parts.set(sheet, [
      ...before.filter(({ off }) => off),
      ...this.#partsOf(sheet, rest, this.#waysIn(sheet)),
    ]);
  }

  /** The board without the picture, as far as it hangs together with the edge of the board. */
  #whole(sheet: string): MultiPolygon {
    const [x0, y0, x1, y1] = this.#board.map(onGrid);
    const rect: Polygon = [
      [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ],
    ];
    const picture = this.#world.inStack
      .filter(({ id }) => !this.#isVoid(id, sheet))
      .map(({ polygon }) => polygon);
    const waste = polygonClipping.difference(rect, ...picture);
    return waste.filter(([outline]) =>
      outline.some(([x, y]) => x === x0 || y === y0 || x === x1 || y === y1),
    );
  }

  /** Waste in this sheet that no line parts from the waste around. */
  #isVoid(id: string, sheet: string): boolean {
    const { role, depth } = this.#world.regions.get(id)!;
    if (this.#world.report.joint === 'pieces') return role === 'void';
    return depth !== null && this.#world.owner(id, sheet) === null;
  }

  #partsOf(sheet: string, waste: MultiPolygon, ways: readonly (readonly XY[])[]): Part[] {
    return waste.flatMap((polygon): Part[] => {
      const area = polygon.reduce((sum, ring, i) => sum + (i === 0 ? 1 : -1) * ringArea(ring), 0);
      if (area < SLIVER) return [];
      const border = polygon.flatMap((ring) =>
        sampleRun(ring, STEP).flatMap(({ at, along: [ux, uy] }) => {
          if (
            this.#isOnEdge(at) ||
            ways.some((way) => way.some((p, i) => i > 0 && toSegment(at, way[i - 1], p) < 2 * BESIDE))
          )
            return [];
          const sides: XY[] = [
            [at[0] + BESIDE * uy, at[1] - BESIDE * ux],
            [at[0] - BESIDE * uy, at[1] + BESIDE * ux],
          ];
          const inner = sides
            .map((p) => this.#world.at(p))
            .find((id) => id !== OUTSIDE && !this.#isVoid(id, sheet));
          return inner === undefined ? [] : [{ at, inner }];
        }),
      );
      return [{ polygon, area, border, off: false }];
    });
  }
}

const roomFor = (area: number): number => 0.3 + OFF * 4 * Math.sqrt(area) + 2e-3 * area;

/** The strip that a leg of a way cuts out, a little longer than it. */
function strip(a: XY, b: XY): Polygon {
  const length = far(a, b);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const corner = ([x, y]: XY, along: number, aside: number): [number, number] => [
    x + along * ux - aside * uy,
    y + along * uy + aside * ux,
  ];
  return [[corner(a, -HALF, HALF), corner(b, HALF, HALF), corner(b, HALF, -HALF), corner(a, -HALF, -HALF)]];
}

function isInPolygon(polygon: Polygon, [x, y]: XY): boolean {
  let inside = false;
  for (const ring of polygon) {
    for (let i = 0; i < ring.length; i++) {
      const [[x0, y0], [x1, y1]] = [ring[i], ring[(i + 1) % ring.length]];
      if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside;
    }
  }
  return inside;
}

function toSegment([x, y]: XY, [x0, y0]: XY, [x1, y1]: XY): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / square));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

function far(a: XY, b: XY): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function areaOf(area: MultiPolygon): number {
  return area.reduce(
    (sum, polygon) => sum + polygon.reduce((own, ring, i) => own + (i === 0 ? 1 : -1) * ringArea(ring), 0),
    0,
  );
}

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity);
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity);
