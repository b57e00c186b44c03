/** The step before the checks that makes a finding. */
export type Stage = 'reading' | 'mapping' | 'planning';

/** A kind of finding that an earlier step makes. It has no options; its level can be set like that of any rule. */
export interface StageRule {
  readonly id: string;
  readonly stage: Stage;
  readonly summary: string;
}

const reading = (id: string, summary: string): StageRule => ({ id, stage: 'reading', summary });
const mapping = (id: string, summary: string): StageRule => ({ id, stage: 'mapping', summary });
const planning = (id: string, summary: string): StageRule => ({ id, stage: 'planning', summary });

/** All kinds of findings of earlier steps, so that their names can be used in settings. */
export const STAGE_RULES: readonly StageRule[] = [
  reading('attribute-fault', 'an attribute could not be read'),
  reading('background', 'a shape over the whole page was taken for the background'),
  reading('clipped', 'lines that a clip hides were left out'),
  reading('dashed-line', 'a dashed line was taken for a vein or a fold mark'),
  reading('effect-ignored', 'a mask, filter or other effect was not applied'),
  reading('element-ignored', 'an element that is no line work was left out'),
  reading('external-ignored', 'something outside the file was not fetched'),
  reading('name-unknown', 'a name to include or exclude is not in the drawing'),
  reading('no-lines', 'the drawing has no cut lines'),
  reading('out-of-range', 'a coordinate lies too far out'),
  reading('outside-page', 'something lies outside the page'),
  reading('path-fault', 'path data was drawn up to a fault'),
  reading('reference-circular', 'an element refers to itself'),
  reading('reference-missing', 'an element refers to one that is not there'),
  reading('shape-fault', 'a shape could not be drawn'),
  reading('size-assumed', 'the drawing says no size, and one was assumed'),
  reading('size-fault', 'the size of the page could not be read'),
  reading('stack-assumed', 'the sheets are not known, and some were assumed'),
  reading('stale-sidecar', 'the sidecar was made for another state of the drawing'),
  reading('style-fault', 'a style could not be read'),
  reading('translucent-fill', 'a fill is translucent, and hides or does not hide by choice'),
  reading('unit-unknown', 'a length has an unknown unit'),
  reading('xml-repaired', 'the file is faulty, and was read as well as it goes'),
  mapping('chords-kept', 'curves that all but coincide cross as their chords do'),
  mapping('dashed-line-closes', 'a dashed line would close off an area, and is not sawn there'),
  mapping('dashed-line-outside', 'dashed lines lie outside of all regions, and are not sawn'),
  mapping('hidden-lines-dropped', 'lines under opaque fills were dropped'),
  mapping('no-region', 'the lines close off no area'),
  mapping('sliver-kept', 'a strip between two lines stays, since merging it would lose a line'),
  mapping('sliver-merged', 'a strip between two lines was merged into its neighbour'),
  planning('drill-start', 'a hole is drilled where it shows, or none fits'),
  planning('sheet-moves', 'the schedule of the recesses may not be the shortest'),
  planning('stack-too-high', 'a stack is higher than the saw takes'),
  planning('unused-sheet', 'a sheet of the stack is not needed'),
  planning('way-in', 'the waste around the drawing is too narrow to saw in through'),
];
