import { Matrix, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { asDiameter, millimetres, type Diameter } from '../../src/measure/index.ts';
import { jawForceN, ringGives, squeezedOutOfRound } from '../../src/trade/index.ts';

/**
 * A second opinion by straight beam elements: the arc from under one jaw to half way to the next, whose ends neither turn nor
 * leave their radius line; half of the jaw's force at the first. R, E·I and the force are 1; stretching is made next to nothing.
 */
function byElements(jaws: number): { readonly inward: number; readonly outward: number } {
  const pieces = 60;
  const stiff = 1e6;
  const at = (node: number): number => ((Math.PI / jaws) * node) / pieces;
  const freedoms = 3 * (pieces + 1);
  const stiffness = Matrix.zeros(freedoms, freedoms);
  for (let piece = 0; piece < pieces; piece += 1) {
    const [a, b] = [at(piece), at(piece + 1)];
    const [dx, dy] = [Math.cos(b) - Math.cos(a), Math.sin(b) - Math.sin(a)];
    const l = Math.hypot(dx, dy);
    const [c, s] = [dx / l, dy / l];
    const [axial, shear, moment] = [stiff / l, 12 / l ** 3, 6 / l ** 2];
    const local = new Matrix([
      [axial, 0, 0, -axial, 0, 0],
      [0, shear, moment, 0, -shear, moment],
      [0, moment, 4 / l, 0, -moment, 2 / l],
      [-axial, 0, 0, axial, 0, 0],
      [0, -shear, -moment, 0, shear, -moment],
      [0, moment, 2 / l, 0, -moment, 4 / l],
    ]);
    const turn = Matrix.zeros(6, 6);
    for (const node of [0, 3]) {
      turn.set(node, node, c);
      turn.set(node, node + 1, s);
      turn.set(node + 1, node, -s);
      turn.set(node + 1, node + 1, c);
      turn.set(node + 2, node + 2, 1);
    }
    const whole = turn.transpose().mmul(local).mmul(turn);
    for (let i = 0; i < 6; i += 1)
      for (let j = 0; j < 6; j += 1)
        stiffness.set(3 * piece + i, 3 * piece + j, stiffness.get(3 * piece + i, 3 * piece + j) + whole.get(i, j));
  }
  // Springs far stiffer than the ring hold both ends from turning and from going sideways.
  for (const [node, angle] of [
    [0, 0],
    [pieces, at(pieces)],
  ] as const) {
    const side = [-Math.sin(angle), Math.cos(angle)] as const;
    for (const i of [0, 1] as const)
      for (const j of [0, 1] as const)
        stiffness.set(3 * node + i, 3 * node + j, stiffness.get(3 * node + i, 3 * node + j) + 1e9 * side[i] * side[j]);
    stiffness.set(3 * node + 2, 3 * node + 2, stiffness.get(3 * node + 2, 3 * node + 2) + 1e9);
  }
  const load = Matrix.zeros(freedoms, 1);
  load.set(0, 0, -0.5);
  const moved = solve(stiffness, load);
  const angle = at(pieces);
  const outward = moved.get(3 * pieces, 0) * Math.cos(angle) + moved.get(3 * pieces + 1, 0) * Math.sin(angle);
  return { inward: -moved.get(0, 0), outward };
}

describe('a thin ring in the jaws', () => {
  test.each([2, 3, 4, 6])('%d equal jaws: as beam elements give it, to half a percent', (jaws) => {
    const [formula, elements] = [ringGives(jaws), byElements(jaws)];
    expect(Math.abs(formula.inward / elements.inward - 1)).toBeLessThan(0.005);
    expect(Math.abs(formula.outward / elements.outward - 1)).toBeLessThan(0.005);
  });

  test('two forces across: .149 and .137 of W·R³/EI on the diameter, as every text has it (from memory)', () => {
    const { inward, outward } = ringGives(2);
    expect((2 * inward).toFixed(3)).toBe('0.149');
    expect((2 * outward).toFixed(3)).toBe('0.137');
  });

  const mm = (value: number): Diameter => asDiameter(millimetres(value));
  // Wall 4 on 54 mean, 25 long, steel: I = 25·4³/12 = 133.3 mm⁴; (.01593 + .01426)·1000·27³/(200 000·133.3) = .0223 mm. By hand.
  const sleeve = { outer: mm(58), bore: mm(50), held: millimetres(25), modulusGPa: 200, jaws: 3 } as const;
  test('a sleeve of 50 by 58, 25 long, with 1000 N a jaw springs .022 mm on the radius', () => {
    expect(squeezedOutOfRound(sleeve, 1000) / 1_000_000).toBeCloseTo(0.0223, 4);
  });
  test('twice the force is twice the error, and six jaws leave under an eighth of what three do', () => {
    const three = squeezedOutOfRound(sleeve, 1000);
    expect(Math.abs(squeezedOutOfRound(sleeve, 2000) - 2 * three)).toBeLessThanOrEqual(1);
    expect(squeezedOutOfRound({ ...sleeve, jaws: 6 }, 1000) * 8).toBeLessThan(three);
  });

  // 2·300·50/(3·.2·58). By hand.
  test('each of three jaws presses 862 N so that a cut of 300 N at 50 does not turn what is held at 58', () => {
    expect(Math.round(jawForceN(300, mm(50), mm(58), 3))).toBe(862);
  });
});
