// Measures the search for narrow places against mapping (mapRegions) as many boundary segments, on three drawings:
//   scene   lines of a picture; every other region, together as one area. The map is of a scene with as many segments
//           as the area has.
//   holes   a sheet full of curved holes 1 to 4 mm apart: a neck between any two neighbours; the map is of the same lines.
//   panes   a sheet full of square windows with even bars between them, each bar too narrow: the most necks that so many
//           segments can have. In the same way, of a tenth of the size.
// Warm medians of processor time, at two sizes, and the growth between them as an exponent.
// node tests/bench/narrow.mjs [--small N] [--large N] [--rounds N] [--needed MM]
import { parseArgs } from 'node:util';
import { importTypeScript } from '../support/import-typescript.mjs';

const { values } = parseArgs({
  options: {
    rounds: { type: 'string', default: '7' },
    needed: { type: 'string', default: '3' },
    small: { type: 'string', default: '10000' },
    large: { type: 'string', default: '100000' },
  },
});
const load = (path) => importTypeScript(new URL(`../../${path}`, import.meta.url));
const { scene } = await load('tests/bench/generate/scene.ts');
const { randomSource } = await load('tests/support/random.ts');
const { readDrawing } = await load('src/drawing/read-drawing.ts');
const { mapRegions } = await load('src/plane/map-regions.ts');
const { boundaryLoops } = await load('src/plane/boundary-loops.ts');
const { loopCurves } = await load('src/plane/edge-curves.ts');
const { areaBoundary } = await load('src/geometry/narrow/area-boundary.ts');
const { narrowPlaces } = await load('src/geometry/narrow-places.ts');
const { thinEnds } = await load('src/geometry/thin-ends.ts');

/** Chords of a curved hole below, and the segments of a window. */
const CHORDS_OF_HOLE = 64;
const SIDES_OF_PANE = 4;

/** A drawing in mm of path data. */
function drawingOf(paths, size) {
  const page = `width="${size}mm" height="${size}mm" viewBox="0 0 ${size} ${size}"`;
  const body = paths.map((d) => `<path d="${d}"/>`).join('');
  return readDrawing(
    `<svg xmlns="http://www.w3.org/2000/svg" ${page} fill="none" stroke="black">${body}</svg>`,
  );
}

function drawingOfScene(segments) {
  const { lines } = scene(segments);
  const most = lines.flat(2).reduce((a, b) => Math.max(a, b), 0);
  const paths = lines.map((line) => `M${line.map((p) => p.map((v) => v.toFixed(4)).join(' ')).join(' ')}`);
  return drawingOf(paths, most);
}

/** A hole about a point: eight smooth cubics through points near a circle. */
function hole([x, y], random) {
  const points = Array.from({ length: 8 }, (_, k) => {
    const [radius, angle] = [4 + random(), (k * Math.PI) / 4];
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle), angle];
  });
  const pull = 1.2;
  return points.reduce((d, [px, py, angle], k) => {
    const [qx, qy, next] = points[(k + 1) % 8];
    const controls = [
      px - pull * Math.sin(angle),
      py + pull * Math.cos(angle),
      qx + pull * Math.sin(next),
      qy - pull * Math.cos(next),
    ];
    const numbers = [...controls, qx, qy].map((v) => v.toFixed(4));
    return `${d === '' ? `M${px.toFixed(4)} ${py.toFixed(4)}` : d}C${numbers.join(' ')}`;
  }, '');
}

/** A sheet with rows of `make`d openings, one every `pitch` mm, and its outline. */
function sheetOf(count, pitch, make) {
  const random = randomSource(7);
  const side = Math.ceil(Math.sqrt(count));
  const paths = Array.from({ length: count }, (_, k) =>
    make([pitch * ((k % side) + 1), pitch * (Math.floor(k / side) + 1)], random),
  );
  const size = pitch * (side + 1);
  return drawingOf([`M0 0H${size}V${size}H0Z`, ...paths], size);
}

const drawings = {
  scene: (segments) => drawingOfScene(2 * segments),
  holes: (segments) => sheetOf(Math.round(segments / CHORDS_OF_HOLE), 12, hole),
  panes: (segments) =>
    sheetOf(Math.round(segments / 10 / SIDES_OF_PANE), 12, ([x, y]) => `M${x - 5} ${y - 5}h10v10h-10z`),
};

function median(list) {
  return [...list].sort((a, b) => a - b)[list.length >> 1];
}

/** Warm medians of processor milliseconds, the runs of all steps taking turns; the first two rounds are not counted. */
function measure(steps) {
  const times = steps.map(() => []);
  for (let k = 0; k < Number(values.rounds) + 2; k++) {
    steps.forEach((run, i) => {
      const used = process.cpuUsage();
      run();
      const { user, system } = process.cpuUsage(used);
      if (k >= 2) times[i].push((user + system) / 1000);
    });
  }
  return times.map(median);
}

const needed = Number(values.needed);

function measureDrawing(name, segments) {
  const drawing = drawings[name](segments);
  const map = mapRegions(drawing);
  const sheet = map.regions.reduce((best, { area }, r) => (area > map.regions[best].area ? r : best), 0);
  const own = name === 'scene' ? map.regions.map((_, r) => r).filter((r) => r % 2 === 0) : [sheet];
  const loops = boundaryLoops(map, own).map((loop) => loopCurves(map, loop));
  const boundary = areaBoundary(loops);
  const mapped = name === 'scene' ? drawingOfScene(boundary.x.length) : drawing;
  const [mapping, preparing, necks, ends] = measure([
    () => mapRegions(mapped),
    () => areaBoundary(loops),
    () => narrowPlaces(boundary, needed),
    () => thinEnds(boundary, needed),
  ]);
  const found = narrowPlaces(boundary, needed).length;
  return { name, segments: boundary.x.length, found, mapping, preparing, necks, ends };
}

console.log(
  '| drawing | segments | necks | mapping, ms | boundary, ms | necks, ms | tips, ms | necks by map | all by map | growth: map | necks |',
);
console.log('|---|---|---|---|---|---|---|---|---|---|---|');
for (const name of Object.keys(drawings)) {
  const rows = [values.small, values.large].map((size) => measureDrawing(name, Number(size)));
  rows.forEach((row, i) => {
    const own = row.preparing + row.necks;
    const growth = (of) =>
      i === 0 ? '' : (Math.log(of(row) / of(rows[0])) / Math.log(row.segments / rows[0].segments)).toFixed(2);
    const times = [row.mapping, row.preparing, row.necks, row.ends].map((ms) => ms.toFixed(0));
    const ratios = [own / row.mapping, (own + row.ends) / row.mapping].map((r) => r.toFixed(2));
    const growths = [growth((r) => r.mapping), growth((r) => r.preparing + r.necks)];
    console.log(
      `| ${[name, row.segments.toLocaleString('en'), row.found, ...times, ...ratios, ...growths].join(' | ')} |`,
    );
  });
}
