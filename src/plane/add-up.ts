/** Counts become the places after what is counted: where a list of each begins that is filled from its end. */
export function addUp(counts: Int32Array): void {
  let sum = 0;
  for (let i = 0; i < counts.length; i++) {
    sum += counts[i];
    counts[i] = sum;
  }
}
