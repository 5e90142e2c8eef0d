/**
 * Five lathes as they stand in small shops. All figures are invented within what is common; amounts in micrometres on the
 * diameter unless the name says otherwise. `spring`: share of a cut of half a millimetre that stands after it. `backlash`: lost
 * where it was not taken up. `warming`: kelvin of the part for each millimetre of diameter taken off 25 mm work.
 */
export type MachineKind = {
  readonly name: string;
  readonly dial: { readonly divisionUm: number; readonly perTurn: number; readonly reads: 'diameter' | 'radius' };
  readonly settingDivisions: number;
  readonly slides: number;
  readonly spring: number;
  readonly scale: number;
  readonly backlash: number;
  readonly wear: number;
  readonly taper: number;
  readonly growth: number;
  readonly warming: number;
  readonly rubsBelow: number;
  readonly deepest: number;
};

export const MACHINE_KINDS: readonly MachineKind[] = [
  {
    name: 'worn inch lathe, dial by radius',
    dial: { divisionUm: 25.4, perTurn: 100, reads: 'radius' },
    settingDivisions: 0.1,
    slides: 4,
    spring: 0.06,
    scale: 0.004,
    backlash: 250,
    wear: 0.6,
    taper: 6,
    growth: 1.5,
    warming: 4,
    rubsBelow: 18,
    deepest: 2000,
  },
  {
    name: 'toolroom inch lathe, dial by diameter',
    dial: { divisionUm: 25.4, perTurn: 200, reads: 'diameter' },
    settingDivisions: 0.1,
    slides: 2,
    spring: 0.02,
    scale: 0.001,
    backlash: 60,
    wear: 0.3,
    taper: 2,
    growth: 0.8,
    warming: 4,
    rubsBelow: 15,
    deepest: 2500,
  },
  {
    name: 'metric lathe, dial by radius',
    dial: { divisionUm: 20, perTurn: 200, reads: 'radius' },
    settingDivisions: 0.1,
    slides: 3,
    spring: 0.04,
    scale: 0.003,
    backlash: 150,
    wear: 0.5,
    taper: 4,
    growth: 1,
    warming: 4,
    rubsBelow: 18,
    deepest: 2000,
  },
  {
    name: 'light bench lathe, dial by radius',
    dial: { divisionUm: 25.4, perTurn: 40, reads: 'radius' },
    settingDivisions: 0.12,
    slides: 5,
    spring: 0.13,
    scale: 0.005,
    backlash: 200,
    wear: 0.8,
    taper: 7,
    growth: 1.5,
    warming: 5,
    rubsBelow: 22,
    deepest: 700,
  },
  {
    name: 'lathe with a readout, by diameter',
    dial: { divisionUm: 10, perTurn: 400, reads: 'diameter' },
    settingDivisions: 0.3,
    slides: 2.5,
    spring: 0.04,
    scale: 0.001,
    backlash: 0,
    wear: 0.5,
    taper: 3,
    growth: 1,
    warming: 4,
    rubsBelow: 18,
    deepest: 2000,
  },
];
