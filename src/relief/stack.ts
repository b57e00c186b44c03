/** One flat board of one thickness and material. */
export interface Sheet {
  /** Unique within its stack, for example `s1`. */
  readonly id: string;
  /** mm, above 0. */
  readonly thickness: number;
  /** Free text, for example `basswood plywood`. */
  readonly material: string;
  /** What the face shows, for example `walnut stain`. */
  readonly face?: string;
  /** CSS colour for pictures; lower-case `#rrggbb`. */
  readonly color?: string;
  /** Direction of the grain, degrees from +x towards +y; null or absent: no grain (fibreboard). */
  readonly grain?: number | null;
  /** Size of the board, mm. */
  readonly width?: number;
  readonly height?: number;
  /** How many such boards there are. Default 1. */
  readonly count?: number;
}

/** The sheets held together and sawn at once, **front (where the pattern is stuck) to back**. */
export interface Stack {
  readonly sheets: readonly Sheet[];
}
