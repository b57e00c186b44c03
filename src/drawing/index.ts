/** Stage 1: an SVG becomes a drawing. */
export { decodeDrawing } from './decode-drawing.js';
export type { DetailMark, Drawing, Fill, Label, LineUse, Shape, Subpath } from './drawing.js';
export { readDrawing } from './read-drawing.js';
export {
  DEFAULT_READ_LIMITS,
  DEFAULT_READ_OPTIONS,
  type ReadLimits,
  type ReadOptions,
  type ResolvedReadOptions,
  type ScaleTo,
} from './read-options.js';
