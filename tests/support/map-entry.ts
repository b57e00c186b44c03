export { readDrawing } from '../../src/drawing/read-drawing.js';
export { arrangeLines, arrangeLinesAsync } from '../../src/plane/arrange-lines.js';
export { mapRegions, mapRegionsAsync } from '../../src/plane/map-regions.js';
