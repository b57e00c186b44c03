import { type RandomSource, randomInteger, randomSource } from '../../support/random.js';

/** Side of a cell, mm. */
const CELL = 26;

/** Regions that a cell brings at least, on the average: its own, and those of its motif. */
const REGIONS_PER_CELL = 5;

type Place = readonly [x: number, y: number];

/** Four controls of a cubic. */
type Cubic = readonly [Place, Place, Place, Place];

/**
 * The text of an SVG of about so many regions, as a person would draw it: wavy lines from edge to edge of a frame,
 * cut into cells by curves whose ends lie on them to three decimals, and in or across each cell a motif of curves
 * of all kinds, in a group of its own, turned a little: shapes in shapes, shapes with common borders, bars and veins
 * that end on outlines, circles across the waves, opaque clouds that hide what lies under them; and numbers.
 */
export function picture(regions: number, seed = 1): string {
  const random = randomSource(seed);
  const cells = regions / REGIONS_PER_CELL;
  const rows = Math.max(2, Math.round(Math.sqrt(cells)));
  const columns = Math.max(2, Math.round(cells / rows));
  const [width, height] = [columns * CELL, rows * CELL];
  const waves = Array.from({ length: rows + 1 }, (_, row) => wave(row, rows, columns, random));
  const parts = [`<rect id="frame" width="${width}" height="${height}"/>`];
  waves.slice(1, -1).forEach((pieces, i) => {
    parts.push(`<path id="wave-${i + 1}" d="M${at(pieces[0][0])}${pieces.map(cubicTo).join('')}"/>`);
  });
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const id = `${row + 1}-${column + 1}`;
      if (column > 0) parts.push(upright(`side-${id}`, waves[row][column], waves[row + 1][column], random));
      const turn = num(30 * random() - 15);
      const [x, y] = [num((column + 0.55) * CELL), num((row + 0.5) * CELL)];
      const drawn = MOTIFS[(row * (columns + 1) + column) % MOTIFS.length];
      const lonely = (drawn === cloud && column === 0) || (drawn === ring && row === rows - 1);
      const draw = lonely ? house : drawn;
      const number = 1 + randomInteger(random, 4);
      parts.push(
        `<g id="motif-${id}" transform="translate(${x} ${y}) rotate(${turn})">${draw(random)}</g>`,
        `<text x="${num(column * CELL + 4.5)}" y="${num((row + 0.86) * CELL)}" font-size="2" fill="#c00" stroke="none">${number}</text>`,
      );
    }
  }
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">\n` +
    `<g fill="none" stroke="#000" stroke-width="0.3">\n${parts.join('\n')}\n</g>\n</svg>\n`
  );
}

/** One line across the page, a cubic over each cell; the first and last one run along the frame. */
function wave(row: number, rows: number, columns: number, random: RandomSource): Cubic[] {
  const y = row * CELL;
  const flat = row === 0 || row === rows;
  let sway = flat ? 0 : 2.5 * random();
  return Array.from({ length: columns }, (_, i): Cubic => {
    const x = i * CELL;
    const next = flat ? 0 : 5 * random() - 2.5;
    const piece: Cubic = [
      [x, y],
      [x + CELL / 3, y - sway],
      [x + (2 * CELL) / 3, y + next],
      [x + CELL, y],
    ];
    sway = next;
    return piece;
  });
}

/** A line from one wave down to the next: its ends lie on them as well as three decimals can say. */
function upright(id: string, above: Cubic, below: Cubic, random: RandomSource): string {
  const from = pointOn(above, 0.08 * random());
  const to = pointOn(below, 0.08 * random());
  const middle: Place = [from[0] + 4 * random() - 3, (from[1] + to[1]) / 2];
  return random() < 0.5
    ? `<path id="${id}" d="M${at(from)}Q${at(middle)} ${at(to)}"/>`
    : `<path id="${id}" d="M${at(from)}L${at([from[0] - 0.4, middle[1] - 3])}L${at([to[0] - 0.8, middle[1] + 3])}L${at(to)}"/>`;
}

type Motif = (random: RandomSource) => string;

/** Motifs about the origin, some 16 mm across. */
const MOTIFS: readonly Motif[] = [flower, house, leaf, moon, cloud, target, ring];

function flower(random: RandomSource): string {
  const petals = 5 + randomInteger(random, 3);
  const heart = 2.4;
  const on = (k: number, r: number): Place => polar(r, (2 * Math.PI * k) / petals);
  const parts = Array.from({ length: petals }, (_, k) => {
    const [a, b] = [on(k + 0.06, heart), on(k + 0.94, heart)];
    return `<path d="M${at(a)}C${at(on(k - 0.05, 9))} ${at(on(k + 1.05, 9))} ${at(b)}"/>`;
  });
  return `<circle r="${heart}"/>${parts.join('')}`;
}

function house(random: RandomSource): string {
  const door = num(-4 + 3 * random());
  return (
    '<rect x="-6" y="-2" width="12" height="8.5"/><path d="M-7-2L0-8L7-2Z"/>' +
    `<path d="M${door} 6.5V2.4a1.2 1.2 0 0 1 2.4 0V6.5"/>` +
    '<rect x="1.5" y="-0.5" width="3.4" height="3.4" rx="0.6"/><path d="M3.2-0.5V2.9M1.5 1.2H4.9"/>'
  );
}

function leaf(random: RandomSource): string {
  const fat = 4 + 2 * random();
  const ribs = [-3, 0, 3].map((x) => `M${x} 0Q${x + 1} -1 ${x + 1.6} -2M${x} 0Q${x + 1} 1 ${x + 1.6} 2`);
  return `<path d="M-8 0C-4 ${num(-fat)} 4 ${num(-fat)} 8 0C4 ${num(fat)} -4 ${num(fat)} -8 0Z"/><path d="M-8 0H8${ribs.join('')}"/>`;
}

function moon(random: RandomSource): string {
  const r = num(5 + 2 * random());
  return `<circle r="${r}"/><path d="M0 -${r}A${num(r * 1.3)} ${num(r * 1.3)} 0 0 0 0 ${r}"/><ellipse cx="${num(r * 0.55)}" rx="1.2" ry="0.8" transform="rotate(20 ${num(r * 0.55)} 0)"/>`;
}

/** Opaque, and set over the line that divides its cell from the next. */
function cloud(random: RandomSource): string {
  const w = num(4 + random());
  return (
    `<path fill="#fff" transform="translate(-13 2)" d="M${-w} 3a3 3 0 0 1 0.6 -5.4a3.6 3.6 0 0 1 6.4 -1a2.8 2.8 0 0 1 3.4 6.4Z"/>` +
    '<path d="M-1 0q2 -3 4 0t4 0"/>'
  );
}

function target(random: RandomSource): string {
  const star = Array.from({ length: 5 }, (_, k) => {
    const [dent, tip] = [polar(0.8, (2 * Math.PI * (k + 0.5)) / 5), polar(3.2, (2 * Math.PI * (k + 1)) / 5)];
    return `Q${at(dent)} ${at(tip)}`;
  });
  return `<circle r="7.5"/><ellipse rx="6" ry="${num(4 + random())}" transform="rotate(30)"/><path d="M3.2 0${star.join('')}Z"/>`;
}

/** Two circles across the wave below, with the common border of an arch. */
function ring(random: RandomSource): string {
  const r = num(4 + random());
  return `<g transform="translate(0 12)"><circle r="${r}"/><circle r="${num(r - 1.5)}"/></g><path d="M-5 -3A5 5 0 0 1 5 -3L3 -3A3 3 0 0 0 -3 -3Z"/>`;
}

const polar = (r: number, angle: number): Place => [r * Math.cos(angle), r * Math.sin(angle)];

function pointOn([a, b, c, d]: Cubic, t: number): Place {
  const u = 1 - t;
  const along = (k: 0 | 1): number =>
    u * u * u * a[k] + 3 * u * u * t * b[k] + 3 * u * t * t * c[k] + t * t * t * d[k];
  return [along(0), along(1)];
}

const num = (value: number): number => Number(value.toFixed(3));

const at = ([x, y]: Place): string => `${num(x)} ${num(y)}`;

const cubicTo = ([, b, c, d]: Cubic): string => `C${at(b)} ${at(c)} ${at(d)}`;
