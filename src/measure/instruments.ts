import { micrometres, nanometres, NM_PER_INCH, thou, type Length } from './length.ts';

/** What kind of instrument took a reading. */
export type InstrumentKind = 'caliper' | 'micrometer' | 'telescoping-gauge' | 'depth-micrometer' | 'rule' | 'indicator' | 'readout';

/**
 * An instrument as data. `resolution` is the smallest step that can be read; `permissibleError` the largest error that a
 * sound one shows at a size; both are lengths. `source` says where the figures come from.
 */
export type Instrument = {
  readonly kind: InstrumentKind;
  readonly name: string;
  readonly resolution: Length;
  readonly permissibleError: (size: Length) => Length;
  readonly source: string;
};

const constantError = (error: Length) => (): Length => error;

/** Of a caliper: .001 in over the first 6 in and .001 more for each further 6 in begun (TB 9-5210-208-35). */
function caliperError(size: Length): Length {
  const sixInches = 6 * NM_PER_INCH;
  return thou(Math.max(1, Math.ceil(Math.abs(size) / sixInches)));
}

export const INSTRUMENTS: Readonly<Record<InstrumentKind, Instrument>> = {
  caliper: {
    kind: 'caliper',
    name: 'caliper',
    resolution: nanometres(12_700),
    permissibleError: caliperError,
    source: 'error: TB 9-5210-208-35 (.001 in to 6 in, then .001 per further 6); resolution .0005 in / 0.01 mm: common practice, no source',
  },
  micrometer: {
    kind: 'micrometer',
    name: 'micrometer',
    resolution: nanometres(2_540),
    permissibleError: constantError(thou(0.1)),
    source: '±.0001 in for 0–1 in (ASME B89.1.13, from memory); resolution .0001 in: common practice, no source',
  },
  'telescoping-gauge': {
    kind: 'telescoping-gauge',
    name: 'telescoping gauge',
    resolution: nanometres(2_540),
    permissibleError: constantError(thou(0.5)),
    source: 'common practice, no source: half a thou by feel, over the micrometer that reads it',
  },
  'depth-micrometer': {
    kind: 'depth-micrometer',
    name: 'depth micrometer',
    resolution: nanometres(25_400),
    permissibleError: constantError(thou(1)),
    source: 'common practice, no source',
  },
  rule: {
    kind: 'rule',
    name: 'rule',
    resolution: nanometres(396_875),
    permissibleError: constantError(nanometres(396_875)),
    source: 'common practice, no source: a sixty-fourth',
  },
  indicator: {
    kind: 'indicator',
    name: 'dial indicator',
    resolution: nanometres(12_700),
    permissibleError: constantError(micrometres(13)),
    source: 'common practice, no source: one division',
  },
  readout: {
    kind: 'readout',
    name: 'digital readout',
    resolution: nanometres(5_000),
    permissibleError: constantError(micrometres(10)),
    source: 'common practice, no source',
  },
};
