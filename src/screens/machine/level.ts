/** The quietest level that the meter shows, in dB under full scale. */
const BOTTOM_DB = -80;

/** How many of the meter's segments a level lights: none at -80 dB, all at 0 dB. */
export function litSegments(db: number, segments: number): number {
  const share = (db - BOTTOM_DB) / -BOTTOM_DB;
  return Math.round(Math.min(1, Math.max(0, share)) * segments);
}
