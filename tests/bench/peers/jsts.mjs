// Times jsts: noding (snap rounding on 1/1024, or one floating pass), dissolving doubles, polygonizing.
// Usage: node jsts.mjs FILE snap|one-pass RUNS SECONDS. Prints one line of JSON.
// Snap rounding gets its input rounded, as its documentation asks,
// and the polygonizer's optional ring check is off.
import { readFileSync } from 'node:fs';
import ArrayList from 'jsts/java/util/ArrayList.js';
import RobustLineIntersector from 'jsts/org/locationtech/jts/algorithm/RobustLineIntersector.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import PrecisionModel from 'jsts/org/locationtech/jts/geom/PrecisionModel.js';
import IntersectionAdder from 'jsts/org/locationtech/jts/noding/IntersectionAdder.js';
import MCIndexNoder from 'jsts/org/locationtech/jts/noding/MCIndexNoder.js';
import NodedSegmentString from 'jsts/org/locationtech/jts/noding/NodedSegmentString.js';
import OrientedCoordinateArray from 'jsts/org/locationtech/jts/noding/OrientedCoordinateArray.js';
import SegmentStringDissolver from 'jsts/org/locationtech/jts/noding/SegmentStringDissolver.js';
import MCIndexSnapRounder from 'jsts/org/locationtech/jts/noding/snapround/MCIndexSnapRounder.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import { readWorkload, report } from './read-workload.mjs';

const STEPS = 1024;
const [file, mode, runs, seconds] = process.argv.slice(2);
const snap = mode === 'snap';
const { coords, starts } = readWorkload(file);
const { version } = JSON.parse(
  readFileSync(new URL('../../../node_modules/jsts/package.json', import.meta.url)),
);
const cut = snap ? (v) => Math.round(v * STEPS) / STEPS : (v) => v;

/** Fresh coordinates for each run: the noder writes into them. */
function segmentStrings() {
  const strings = new ArrayList();
  for (let i = 0; i + 1 < starts.length; i++) {
    const line = [];
    for (let v = starts[i]; v < starts[i + 1]; v++) {
      const x = cut(coords[2 * v]);
      const y = cut(coords[2 * v + 1]);
      const last = line.at(-1);
      if (last === undefined || last.x !== x || last.y !== y) line.push(new Coordinate(x, y));
    }
    if (line.length > 1) strings.add(new NodedSegmentString(line, null));
  }
  return strings;
}

function noderFor() {
  if (snap) return new MCIndexSnapRounder(new PrecisionModel(STEPS));
  return new MCIndexNoder(new IntersectionAdder(new RobustLineIntersector()));
}

report(`jsts ${version}`, Number(runs), Number(seconds), () => {
  const noder = noderFor();
  noder.computeNodes(segmentStrings());
  const dissolver = new SegmentStringDissolver();
  // dissolve() of jsts 2.12.1 takes no noded string for a segment string, so its two steps are called here.
  for (let i = noder.getNodedSubstrings().iterator(); i.hasNext(); ) {
    const string = i.next();
    dissolver.add(new OrientedCoordinateArray(string.getCoordinates()), string);
  }
  const factory = new GeometryFactory();
  const polygonizer = new Polygonizer();
  polygonizer.setCheckRingsValid(false);
  for (let i = dissolver.getDissolved().iterator(); i.hasNext(); ) {
    const line = i.next().getCoordinates();
    if (line.length > 1) polygonizer.add(factory.createLineString(line));
  }
  return { faces: polygonizer.getPolygons().size() };
});
