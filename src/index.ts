/**
 * From one line drawing to a checked cutting job for a layered wooden picture.
 *
 * ```
 * readDrawing → mapRegions → buildRelief → planCuts → checkRelief → writeSheets
 * ```
 *
 * Each step takes and returns plain data; nothing here touches a file, a page or the network.
 * @module
 */

export { BLADES, type Blade } from '../shared/tables/blades.js';
export {
  type Bit,
  FRACTIONAL_DRILLS,
  METRIC_DRILLS,
  NUMBER_DRILLS,
  STANDARD_BITS,
} from '../shared/tables/drills.js';
export { type CheckedRelief, type CheckMemo, checkAgain } from './checks/check-again.js';
export type * from './checks/check-options.js';
export { checkRelief } from './checks/check-relief.js';
export { mergeCheckOptions } from './checks/merge-check-options.js';
export { readCheckOptions } from './checks/read-check-options.js';
export type { RuleFinding, RuleGroup } from './checks/rule.js';
export type { OptionsOf, RuleId } from './checks/rules.js';
export { STAGE_RULES, type Stage, type StageRule } from './checks/stage-rules.js';
export { decodeDrawing } from './drawing/decode-drawing.js';
export type * from './drawing/drawing.js';
export { readDrawing } from './drawing/read-drawing.js';
export {
  DEFAULT_READ_LIMITS,
  DEFAULT_READ_OPTIONS,
  type ReadLimits,
  type ReadOptions,
  type ResolvedReadOptions,
  resolveReadOptions,
  type ScaleTo,
} from './drawing/read-options.js';
export { type ErrorPlace, PlystepError, type PlystepErrorCode } from './error.js';
export type { Finding, FindingLevel, SourcePlace } from './finding.js';
export type { BoxTree } from './geometry/box-tree.js';
export type { ArcCurve, CubicCurve, Curve, LineCurve, QuadraticCurve } from './geometry/curve.js';
export type { Bounds, Point } from './geometry/point.js';
export { nearestName } from './nearest-name.js';
export { type CheckedFile, type CheckReport, checkReport } from './output/check-json.js';
export { writePlanHtml } from './output/plan-html.js';
export {
  type LumpEntry,
  type PassEntry,
  type PlanRegion,
  type PlanReport,
  planReport,
  type StartEntry,
  type StepEntry,
  type WasteEntry,
} from './output/plan-json.js';
export { writePlanMarkdown } from './output/plan-markdown.js';
export { type PlanDocumentOptions, writePlanText } from './output/plan-text.js';
export {
  type RegionEntry,
  type RegionsReport,
  regionsReport,
  type VeinEntry,
} from './output/regions-json.js';
export {
  type IndexedFile,
  type SheetIndex,
  type SheetIndexEntry,
  sheetIndex,
  sheetIndexHtml,
} from './output/sheet-index.js';
export { visibleText } from './output/visible-text.js';
export { DRAWING_FILE, writeDrawing } from './output/write-drawing.js';
export { DEFAULT_OVERVIEW_OPTIONS, type OverviewOptions, writeOverview } from './output/write-overview.js';
export {
  DEFAULT_SHEET_OPTIONS,
  type SheetDrawing,
  type SheetOptions,
  writeSheets,
} from './output/write-sheets.js';
export {
  ARRANGE_DEFAULTS,
  type ArrangeOptions,
  arrangeLines,
  arrangeLinesAsync,
} from './plane/arrange-lines.js';
export type { Arrangement, Provenance } from './plane/arrangement.js';
export { edgeCurves, loopCurves } from './plane/edge-curves.js';
export { type LineSet, packLines } from './plane/line-set.js';
export { completeMapOptions, MAP_DEFAULTS, mapRegions, mapRegionsAsync } from './plane/map-regions.js';
export { regionAt } from './plane/region-at.js';
export { findRegionAt, findRegionsIn, indexRegions, type RegionIndex } from './plane/region-index.js';
export type * from './plane/region-map.js';
export { OUTSIDE } from './plane/region-map.js';
export {
  borderBetween,
  nestingLevel,
  pathOut,
  regionsAround,
  type WalkStep,
  walkAround,
} from './plane/region-queries.js';
export { type RegionFeature, regionFeatures, regionRings } from './plane/region-rings.js';
export type { AsyncOptions } from './plane/steps.js';
export { verifyArrangement } from './plane/verify-arrangement.js';
export { verifyRegionMap } from './plane/verify-region-map.js';
export { buildRelief, type ReliefChange, renumber } from './relief/build-relief.js';
export { type DepthMark, formatDepthMark, parseDepthMark } from './relief/depth-mark.js';
export { parseSidecar } from './relief/parse-sidecar.js';
export { parseStack } from './relief/parse-stack.js';
export { parseThickness } from './relief/parse-thickness.js';
export { readStack } from './relief/read-stack.js';
export type * from './relief/relief.js';
export { formatSidecar, type Sidecar, type SidecarSettings, staleSidecar } from './relief/sidecar.js';
export type * from './relief/stack.js';
export { VERSION } from './version.js';
export type { BridgeMemo } from './workshop/bridge-memo.js';
export type { SceneBridge } from './workshop/bridges.js';
export { completeWorkshop } from './workshop/complete-workshop.js';
export { type CopiesRow, type CopiesTable, copiesAtOnce, type TradeSet } from './workshop/copies-at-once.js';
export type * from './workshop/cut-plan.js';
export { DEFAULT_WORKSHOP } from './workshop/default-workshop.js';
export {
  type BridgeCase,
  NEEDED_WIDTH_DEFAULTS,
  type NeededWidth,
  type NeededWidthOptions,
  neededWidth,
} from './workshop/needed-width.js';
export { type PlannedAgain, planAgain, planCuts } from './workshop/plan-cuts.js';
