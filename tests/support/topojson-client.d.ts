declare module 'topojson-client' {
  /** Indices of the geometries that share an arc with each geometry. */
  export function neighbors(geometries: readonly unknown[]): number[][];
  /** A geometry with its arcs put together. */
  export function feature(
    topology: unknown,
    geometry: unknown,
  ): {
    readonly geometry:
      | { readonly type: 'Polygon'; readonly coordinates: [number, number][][] }
      | { readonly type: 'MultiPolygon'; readonly coordinates: [number, number][][][] }
      | null;
  };
}
