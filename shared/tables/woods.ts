/**
 * Strength and density of woods and boards that sheets are made of.
 *
 * Sources. Woods: Wood Handbook (USDA Forest Products Laboratory), table 5-3b, clear straight-grained wood at
 * 12 % moisture: specific gravity, modulus of rupture, shear parallel to the grain, tension perpendicular to
 * the grain, in psi as printed there. `gravityAndShear` says how those two columns were checked; modulus of
 * rupture and tension are all from memory. Boards: from memory of ANSI A208.2 (fibreboard), ANSI A135.4
 * (hardboard) and makers' sheets for plywood; makers differ.
 */

/** 1 psi in MPa. */
export const MPA_PER_PSI = 0.006894757;

/** A species, strong along its grain and weak across it. */
export interface Wood {
  readonly name: string;
  /** Oven-dry mass by volume at 12 % moisture, relative to water. */
  readonly gravity: number;
  /** Modulus of rupture along the grain, psi. */
  readonly rupture: number;
  /** Tension perpendicular to the grain, psi; null where the handbook leaves it open. */
  readonly tensionAcross: number | null;
  /** Shear parallel to the grain, psi. */
  readonly shear: number;
  readonly gravityAndShear: 'stored table' | 'secondary table' | 'from memory';
}

/** A board that is about as strong in every direction of its plane. */
export interface Board {
  readonly name: string;
  readonly gravity: number;
  /** Bending strength in the plane, the mean of both directions, psi. */
  readonly rupture: number;
}

type Row = readonly [string, number, number, number | null, number, Wood['gravityAndShear']];

const ROWS: readonly Row[] = [
  ['alder', 0.41, 9800, 420, 1080, 'secondary table'],
  ['ash', 0.6, 15000, 940, 1910, 'secondary table'],
  ['aspen', 0.38, 8400, 260, 850, 'secondary table'],
  ['basswood', 0.37, 8700, 350, 990, 'secondary table'],
  ['beech', 0.64, 14900, 1010, 2010, 'secondary table'],
  ['butternut', 0.38, 8100, 440, 1170, 'secondary table'],
  ['cherry', 0.5, 12300, 560, 1700, 'secondary table'],
  ['eastern white pine', 0.35, 8600, 310, 900, 'from memory'],
  ['maple', 0.63, 15800, null, 2330, 'secondary table'],
  ['paper birch', 0.55, 12300, null, 1210, 'secondary table'],
  ['ponderosa pine', 0.4, 9400, 420, 1130, 'stored table'],
  ['poplar', 0.42, 10100, 540, 1190, 'from memory'],
  ['red oak', 0.63, 14300, 800, 1780, 'from memory'],
  ['red pine', 0.46, 11000, 460, 1210, 'stored table'],
  ['sugar pine', 0.36, 8200, 350, 1130, 'stored table'],
  ['walnut', 0.55, 14600, 690, 1370, 'from memory'],
  ['western redcedar', 0.32, 7500, 220, 990, 'from memory'],
  ['western white pine', 0.38, 9700, null, 1040, 'stored table'],
  ['white oak', 0.68, 15200, 800, 2000, 'from memory'],
  ['yellow birch', 0.62, 16600, 920, 1880, 'secondary table'],
];

/** Species, sorted by name. */
export const WOODS: readonly Wood[] = ROWS.map(
  ([name, gravity, rupture, tensionAcross, shear, gravityAndShear]) => ({
    name,
    gravity,
    rupture,
    tensionAcross,
    shear,
    gravityAndShear,
  }),
);

/** Boards, sorted by name. */
export const BOARDS: readonly Board[] = [
  { name: 'fibreboard', gravity: 0.72, rupture: 3600 },
  { name: 'hardboard', gravity: 0.95, rupture: 5000 },
  { name: 'plywood', gravity: 0.62, rupture: 5800 },
];

/** Other words for an entry: the first found in a material's text, in this order, decides. */
const OTHER_WORDS: readonly (readonly [string, string])[] = [
  ['plywood', 'plywood'],
  ['ply', 'plywood'],
  ['mdf', 'fibreboard'],
  ['fibreboard', 'fibreboard'],
  ['fiberboard', 'fibreboard'],
  ['hardboard', 'hardboard'],
  ['linden', 'basswood'],
  ['lime', 'basswood'],
  ['oak', 'white oak'],
  ['birch', 'yellow birch'],
  ['cedar', 'western redcedar'],
  ['pine', 'eastern white pine'],
];

/** An entry of either table. */
export type Material =
  | { readonly kind: 'wood'; readonly wood: Wood }
  | { readonly kind: 'board'; readonly board: Board };

/**
 * The entry that a sheet's free text names (`basswood plywood` is plywood, `pine` an eastern white pine);
 * null where it names none. Board words win over species, full names over short ones.
 */
export function findMaterial(text: string): Material | null {
  const words = ` ${text.toLowerCase().replace(/[^a-z]+/g, ' ')} `;
  const has = (name: string): boolean => words.includes(` ${name} `);
  const other = OTHER_WORDS.find(([word]) => has(word));
  const board = BOARDS.find((b) => b.name === other?.[1]);
  if (board !== undefined) return { kind: 'board', board };
  const wood = WOODS.find((w) => has(w.name)) ?? WOODS.find((w) => w.name === other?.[1]);
  return wood === undefined ? null : { kind: 'wood', wood };
}
