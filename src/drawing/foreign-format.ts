import { PlystepError } from '../error.js';

const PICTURE =
  'Renaming does not make it one: draw its lines in a vector editor, or trace them there, and save that as SVG';

const DOCUMENT = 'Open it in a vector editor, and save or export it as SVG';

/** What files that are no text start with, as characters of ISO-8859-1; each from the format's own specification. */
const FORMATS: readonly (readonly [start: string, what: string, advice: string])[] = [
  ['\x89PNG\r\n', 'a PNG picture', PICTURE],
  ['\xff\xd8\xff', 'a JPEG picture', PICTURE],
  ['GIF8', 'a GIF picture', PICTURE],
  ['RIFF', 'a picture or a sound (RIFF)', PICTURE],
  ['II*\0', 'a TIFF picture', PICTURE],
  ['MM\0*', 'a TIFF picture', PICTURE],
  ['%PDF-', 'a PDF document', DOCUMENT],
  ['%!PS', 'a PostScript document', DOCUMENT],
  ['PK\x03\x04', 'a ZIP archive', 'Unpack it first, and give the SVG that is in it'],
  ['\x1f\x8b', 'packed by gzip', 'Unpack it first'],
];

/** Bytes that tell the format. */
const REACH = 8;

/**
 * Refuses files of other formats by their first bytes, whatever their names are.
 * @throws PlystepError `not-svg`
 */
export function refuseForeignFormat(bytes: Uint8Array): void {
  const head = String.fromCharCode(...bytes.subarray(0, REACH));
  const found = FORMATS.find(([start]) => head.startsWith(start));
  if (found === undefined) return;
  throw new PlystepError('not-svg', `This is ${found[1]}, not an SVG drawing. ${found[2]}.`);
}
