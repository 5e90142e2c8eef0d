/** The 95 % interval of a share by Wilson's score (E. B. Wilson, 1927), which holds near 0 and 1 too. */
export function wilson(part: number, whole: number): readonly [low: number, high: number] {
  if (whole === 0) return [0, 1];
  const z = 1.96;
  const p = part / whole;
  const middle = (p + z ** 2 / (2 * whole)) / (1 + z ** 2 / whole);
  const half = (z / (1 + z ** 2 / whole)) * Math.sqrt((p * (1 - p)) / whole + z ** 2 / (4 * whole ** 2));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

/** A share with its interval, as text: `93.1 % (91.0–94.8)`. */
export function share(part: number, whole: number): string {
  if (whole === 0) return '-';
  const [low, high] = wilson(part, whole);
  const percent = (value: number): string => (100 * value).toFixed(1);
  return `${percent(part / whole)} % (${percent(low)}–${percent(high)})`;
}

/** The value below which this share of the values lies. */
export function quantileOf(values: readonly number[], at: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(at * sorted.length))] ?? NaN;
}
