/** A star-shaped ring: radii at even angles about the origin. */
export function starOf(radii: readonly number[]): Float64Array {
  return Float64Array.from(
    radii.flatMap((r, i) => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [r * Math.cos(angle), r * Math.sin(angle)];
    }),
  );
}

/** Distance from a point to the nearest segment of closed rings by brute force, negative outside (even-odd). */
export function roomAt(rings: readonly Float64Array[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  let turns = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const [ax, ay, bx, by] = [ring[i], ring[i + 1], ring[j], ring[j + 1]];
      const square = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
      least = Math.min(least, Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay)));
      turns += Math.atan2(
        (ax - x) * (by - y) - (ay - y) * (bx - x),
        (ax - x) * (bx - x) + (ay - y) * (by - y),
      );
    }
  }
  return Math.round(turns / (2 * Math.PI)) % 2 === 0 ? -least : least;
}
