import { demandOptions, shown } from '../arguments.js';
import { PlystepError } from '../error.js';

/** What reading may cost at most. Going over one is an error with code `limit` that names it. */
export interface ReadLimits {
  /** Characters of the file. */
  readonly textLength: number;
  /** Elements inside elements inside elements … */
  readonly depth: number;
  /** Elements of the file. */
  readonly elements: number;
  /** Attributes of the file. */
  readonly attributes: number;
  /**
   * Elements visited while drawing: those of the file, and again for every `use` that shows them. Elements with
   * many or long attributes count more than once, by one for every 8 attributes and 64 characters.
   */
  readonly drawnElements: number;
  /**
   * Elements visited more than once, counted before anything is drawn: for every `use` that shows them, and to measure
   * the box of what a clip path in `objectBoundingBox` units clips.
   */
  readonly repeatedElements: number;
  /** `use` shown by `use` shown by `use` … */
  readonly useDepth: number;
  /** Curve segments, of drawn lines and of clip paths. */
  readonly segments: number;
  /** Characters of text elements, again for every `use` that shows them. */
  readonly characters: number;
  /** Characters that entity references stand for, all together. */
  readonly entityLength: number;
  /** Entity declarations. */
  readonly entities: number;
  /** Selectors of style sheets. */
  readonly selectors: number;
  /** Comparisons of an element with a part of a selector. */
  readonly selectorSteps: number;
  /** Chords of clip paths and of lines that they clip, and comparisons between these. */
  readonly clipSteps: number;
  /** Findings of one rule; one more says how many were left out. */
  readonly findings: number;
  /** Largest coordinate, mm either side of the page's origin; shapes beyond are left out with a finding. */
  readonly coordinate: number;
}

/** Bounds that no drawing of a person comes near, and that keep time and memory in hand (see docs/drawing.md). */
export const DEFAULT_READ_LIMITS: ReadLimits = {
  textLength: 64_000_000,
  depth: 2_000,
  elements: 1_000_000,
  attributes: 5_000_000,
  drawnElements: 4_000_000,
  repeatedElements: 250_000,
  useDepth: 32,
  segments: 4_000_000,
  characters: 1_000_000,
  entityLength: 1_000_000,
  entities: 1_000,
  selectors: 20_000,
  selectorSteps: 50_000_000,
  clipSteps: 10_000_000,
  findings: 100,
  coordinate: 16_000,
};

/** The size that the page gets: a width or height in mm, or a factor on the size that the file states. */
export type ScaleTo = { readonly width: number } | { readonly height: number } | { readonly factor: number };

/** How `readDrawing` reads; every field has a default in `DEFAULT_READ_OPTIONS`. */
export interface ReadOptions {
  /** Pixels (and unitless lengths) to the inch: 96 by CSS; some old exporters wrote 90 or 72. */
  readonly unitsPerInch?: number;
  /** Scales the whole drawing; the page keeps its proportions. Null: as the file says. */
  readonly scaleTo?: ScaleTo | null;
  /** A filled rectangle over the whole page, under everything: its outline is a cut line, or it is left out. */
  readonly background?: 'frame' | 'drop';
  /** Whether fills that let something shine through hide the lines under them. */
  readonly translucentFills?: 'see-through' | 'hide';
  /** What a line with a dash pattern is: a cut, a vein (sawn, bounds nothing) or a fold mark (not sawn). */
  readonly dashed?: 'cut' | 'vein' | 'fold';
  /** What lies beyond the page: cut away as a browser does, or kept. */
  readonly outsidePage?: 'clip' | 'keep';
  /** The medium that `@media` rules are asked for. */
  readonly media?: 'print' | 'screen';
  /** Languages for `systemLanguage`, most wanted first. */
  readonly languages?: readonly string[];
  /** Only shapes with one of these names (own, or of a group around them); null: all. */
  readonly include?: readonly string[] | null;
  /** No shapes with one of these names. */
  readonly exclude?: readonly string[];
  readonly limits?: Partial<ReadLimits>;
}

/** Options with nothing left open. */
export interface ResolvedReadOptions extends Required<Omit<ReadOptions, 'limits'>> {
  readonly limits: ReadLimits;
}

export const DEFAULT_READ_OPTIONS: ResolvedReadOptions = {
  unitsPerInch: 96,
  scaleTo: null,
  background: 'frame',
  translucentFills: 'see-through',
  dashed: 'vein',
  outsidePage: 'clip',
  media: 'print',
  languages: ['en'],
  include: null,
  exclude: [],
  limits: DEFAULT_READ_LIMITS,
};

const CHOICES = {
  background: ['frame', 'drop'],
  translucentFills: ['see-through', 'hide'],
  dashed: ['cut', 'vein', 'fold'],
  outsidePage: ['clip', 'keep'],
  media: ['print', 'screen'],
} as const;

/**
 * Fills in the defaults and checks every value.
 * @throws PlystepError `bad-option` naming the option
 */
export function resolveReadOptions(options: ReadOptions): ResolvedReadOptions {
  demandOptions(options, 'readDrawing', Object.keys(DEFAULT_READ_OPTIONS));
  const given = options.limits === undefined ? {} : options.limits;
  demandOptions(given, 'readDrawing', Object.keys(DEFAULT_READ_LIMITS), 'limits');
  const resolved = { ...DEFAULT_READ_OPTIONS, ...withoutUndefined(options) } as ResolvedReadOptions;
  const limits = { ...DEFAULT_READ_LIMITS, ...withoutUndefined(given) };
  for (const [name, values] of Object.entries(CHOICES)) {
    const value = resolved[name as keyof typeof CHOICES];
    if (!(values as readonly string[]).includes(value)) {
      throw badOption(name, `is ${JSON.stringify(value)}; use one of ${values.join(', ')}`);
    }
  }
  needPositive('unitsPerInch', resolved.unitsPerInch);
  for (const [name, value] of Object.entries(limits)) needPositive(`limits.${name}`, value);
  for (const name of ['languages', 'exclude', 'include'] as const) {
    const list = resolved[name];
    if (list !== null && !(Array.isArray(list) && list.every((entry) => typeof entry === 'string'))) {
      throw badOption(name, 'must be a list of strings');
    }
  }
  if (resolved.scaleTo !== null) checkScale(resolved.scaleTo);
  return { ...resolved, limits };
}

function checkScale(scale: ScaleTo): void {
  demandOptions(scale, 'readDrawing', null, 'scaleTo');
  const entries = Object.entries(scale);
  if (entries.length !== 1 || !['width', 'height', 'factor'].includes(entries[0][0])) {
    throw badOption('scaleTo', 'needs exactly one of width, height (mm) and factor');
  }
  needPositive(`scaleTo.${entries[0][0]}`, entries[0][1]);
}

function needPositive(name: string, value: unknown): void {
  if (typeof value !== 'number' || !Number.isFinite(value) || value <= 0) {
    throw badOption(name, `is ${shown(value)}; it must be a number above 0`);
  }
}

function badOption(name: string, what: string): PlystepError {
  return new PlystepError('bad-option', `The reading option "${name}" ${what}.`);
}

function withoutUndefined(value: object): object {
  return Object.fromEntries(Object.entries(value).filter(([, entry]) => entry !== undefined));
}

/** The error for a limit that was reached. */
export function limitError(
  name: keyof ReadLimits,
  limits: ReadLimits,
  what: string,
  place: { line?: number; column?: number } = {},
): PlystepError {
  return new PlystepError(
    'limit',
    `${what}; the limit "${name}" is ${limits[name]}. If the drawing is meant to be so, raise limits.${name}.`,
    place,
  );
}
