/**
 * The planar subdivision of a set of lines, as typed arrays. Grid steps are 2⁻¹⁰ mm; y points down; "left" is
 * left as seen on the page (a walk along +x has −y on its left); face -1 is the outside.
 */
export interface Arrangement {
  /** Nodes, by y, then x; grid steps. */
  readonly nodeX: Int32Array;
  readonly nodeY: Int32Array;
  /** Edges, by `edgeFrom`, then `edgeTo`; always `edgeFrom < edgeTo`; no two with the same ends. */
  readonly edgeFrom: Uint32Array;
  readonly edgeTo: Uint32Array;
  /** Face on the left and right of each edge. Equal for veins and connectors. */
  readonly edgeLeft: Int32Array;
  readonly edgeRight: Int32Array;
  /** Half-edges out of node v, by rising angle from +x to +y: `out[outStart[v] … outStart[v + 1] - 1]`. */
  readonly outStart: Int32Array;
  readonly out: Int32Array;
  /** Half-edge `2e` runs from `edgeFrom[e]` to `edgeTo[e]`, `2e + 1` back; the one that follows on its left face. */
  readonly next: Int32Array;
  readonly faceCount: number;
  /** A half-edge on the outline of each face. */
  readonly faceFirst: Int32Array;
  /** mm², holes taken off. */
  readonly faceArea: Float64Array;
  /** The face that directly encloses the connected line work that a face belongs to. */
  readonly faceInside: Int32Array;
  /** Length of border with the outside, mm. */
  readonly faceOutsideLength: Float64Array;
  /** Faces that share border of positive length with face f: `adjacencyFace[adjacencyStart[f] …]`, ascending. */
  readonly adjacencyStart: Uint32Array;
  readonly adjacencyFace: Uint32Array;
  /** Length of each common border, mm. */
  readonly adjacencyLength: Float64Array;
  /** Connected parts of the line work, by their topmost, then leftmost node. */
  readonly componentCount: number;
  /** The face that each part lies in, and a half-edge of the walk around it. */
  readonly componentFace: Int32Array;
  readonly componentFirst: Int32Array;
  /** Where edges come from; see `Provenance`. */
  readonly provenance: Provenance;
  readonly counts: {
    /** Ends and corners that were put on another line or moved to another end. */
    readonly welded: number;
  };
}

/** Which input segment drew which edge. */
export interface Provenance {
  /** Pieces, in the order of the input: `2 · edge`, plus 1 where the piece runs from `edgeTo` to `edgeFrom`. */
  readonly pieceEdge: Int32Array;
  /** The welded segment of each piece: index into the three arrays below. */
  readonly pieceSegment: Int32Array;
  /** Input vertex that starts the input segment from which a welded segment was split. */
  readonly segmentVertex: Int32Array;
  /** Place on that input segment where the welded segment starts, 0 to 1; null: no segment was split. */
  readonly segmentT: Float64Array | null;
}
