import { grid, randomSegments } from './generate/line-sets.js';
import { scene } from './generate/scene.js';
import { mosaic, tJunctions } from './generate/t-junctions.js';
import { rounded, type Workload } from './generate/workload.js';

/** A workload by name, made when it is asked for, with the number of runs of fast and slow peers. */
export interface BenchWorkload {
  readonly name: string;
  readonly make: () => Workload;
  /** Also run twice in fresh processes, for the cold time. */
  readonly cold: boolean;
}

const workload = (name: string, make: () => Workload, cold = false): BenchWorkload => ({ name, make, cold });

/** Everything that docs/performance.md shows, smallest first. */
export const WORKLOADS: readonly BenchWorkload[] = [
  workload('scene, 1 k segments', () => scene(1_000), true),
  workload('scene, 10 k segments', () => scene(10_000), true),
  workload('scene, 100 k segments', () => scene(100_000)),
  workload('random, 100 k segments', () => randomSegments(100_000)),
  workload('grid, 300 × 300 lines', () => grid(300)),
  workload('T-junctions, 100 k, full doubles', () => tJunctions(100_000)),
  workload('T-junctions, 100 k, 3 decimals', () => rounded(tJunctions(100_000), 3)),
  workload('T-junctions, 100 k, 2 decimals', () => rounded(tJunctions(100_000), 2)),
  workload('mosaic, 25 k outlines, 3 decimals', () => rounded(mosaic(25_000), 3)),
  workload('scene, 1 M segments', () => scene(1_000_000)),
];
