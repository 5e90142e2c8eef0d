/**
 * What is believed before anything is read, and how much the coach dares. Common practice, no source, unless said; chosen on
 * simulated journals with seeds other than the reported ones (docs/coach.md).
 */
export const PRIOR = {
  /** Growth from one end of a journal to the other, standard deviation in nm: a light lathe springs away by twice that. */
  taperNm: 8_000,
  /** How far the taper moves from cut to cut: a little always, and a share of what one cut is deeper than the other. */
  taperDriftNm: 600,
  taperShare: 0.01,
  /** Error of the dial's scale: a share of what is dialled. */
  scale: 0.01,
  /** Share of a cut's depth that stands after it, and comes off with the next lighter one. */
  spring: { mean: 0.06, spread: 0.06 },
  /** How well the tool's edge is known where it was touched off, in nm on the part, and how far it drifts from cut to cut. */
  touchedOffNm: 15_000,
  /** The same where nobody said that it was touched off. */
  notTouchedOffNm: 50_000,
  driftNm: 1_000,
  /** Setting a dial by eye: standard deviation in divisions. */
  settingShare: 0.1,
  /** Slides, bearings, chip: standard deviation in nm on the part. */
  slidesNm: 3_000,
  /** What a cut takes varies by this share of its depth. */
  depthShare: 0.01,
  /** A cut thinner than the tool takes may take all of it or nothing: a share of its depth. */
  rubbingShare: 0.4,
  /** A reading whose place nobody said lies anywhere along the journal: the standard deviation of that, 1/√12 of the length. */
  unplacedShare: 0.29,
} as const;

/**
 * The chance of going under the low limit that the coach takes with a cut, and with a stretch of filing (there are more of them),
 * the first of which meets a file or cloth that nobody has measured yet and that may be three times as keen as it is thought; and
 * the chance that an end which is accepted at the edge of the guard band lies outside. Each also as a number of standard
 * deviations of the normal distribution, one-sided (standard table). The guard band is wider than the usual two (2.3 %): a size
 * comes down from above and is judged again after every stretch, each time with another chance to be passed.
 */
export const RISK = {
  cut: { chance: 0.0005, deviations: 3.29 },
  filing: { chance: 0.00003, deviations: 4.01 },
  firstFiling: { chance: 0.0000003, deviations: 5 },
  acceptance: { chance: 0.01, deviations: 2.33 },
} as const;
