import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { sheetOf } from '../relief/stack-height.js';
import { bridgesIn, type SceneBridge, type WoodScene } from './bridges.js';
import type { Workshop } from './cut-plan.js';
import type { NeededWidth } from './needed-width.js';

/** The bridges of the scenes of a plan; to be handed to the next plan for the same map. */
export interface BridgeMemo {
  readonly map: RegionMap;
  /** The function that said how wide they must be; null for the model with the workshop's numbers. */
  readonly widthFor: NeededWidth | null;
  readonly scenes: ReadonlyMap<string, readonly SceneBridge[]>;
}

/** A search that takes over what is known of scenes that did not change. */
export interface BridgeSearch {
  readonly find: (scene: WoodScene) => readonly SceneBridge[];
  /** What is known after the search: only the scenes asked for. */
  readonly memo: BridgeMemo;
  /** Scenes that were searched, and that were taken over. */
  readonly counts: { fresh: number; reused: number };
}

/**
 * Looks for bridges scene by scene. A scene is the same when its regions, its sheets and their material, the heights sawn
 * and the numbers of the model are.
 *
 * @param given the caller's own function in the place of the model, or null
 * @param widthFor that function, or the model with the workshop's numbers
 */
export function bridgeSearch(
  relief: Relief,
  workshop: Workshop,
  given: NeededWidth | null,
  widthFor: NeededWidth,
  before: BridgeMemo | null,
): BridgeSearch {
  const { map, stack } = relief;
  const fits = before !== null && before.map === map && before.widthFor === given;
  const known: BridgeMemo['scenes'] = fits ? before.scenes : new Map();
  const scenes = new Map<string, readonly SceneBridge[]>();
  const counts = { fresh: 0, reused: 0 };
  const numbers = JSON.stringify([workshop.blade.thickness, given === null ? workshop.bridges : null]);
  const find = (scene: WoodScene): readonly SceneBridge[] => {
    const sheets = scene.sheets.map((id) => sheetOf(stack, id));
    const wood = sheets.map(({ material, thickness, grain }) => [material, thickness, grain ?? null]);
    const what = [scene.regions, scene.board, scene.heightSawn, wood, scene.recesses ?? null];
    const key = `${JSON.stringify(what)} ${numbers}`;
    const old = scenes.get(key) ?? known.get(key);
    if (old === undefined) counts.fresh++;
    else counts.reused++;
    const bridges = old ?? bridgesIn(relief, workshop, scene, widthFor);
    scenes.set(key, bridges);
    return old === undefined ? bridges : bridges.map((bridge) => ({ ...bridge, where: scene.where }));
  };
  return { find, memo: { map, widthFor: given, scenes }, counts };
}
