import { describe, expect, it } from 'vitest';
import { faceFor, playOf, type StackLength } from '../../src/coach/index.ts';
import { inches, thou, zero, type Length } from '../../src/measure/index.ts';

/* Invented: a pin with a collar, an arm, a washer and a keeper. Half a thou is .0127 mm; sums worked by hand. */
const length = (
  name: string,
  read: number,
  direction: StackLength['direction'],
  toFace: Length = zero,
  spread = 2_540,
): StackLength => ({
  name,
  read: inches(read),
  spread,
  direction,
  toFace,
});
const room = length('shoulder to keeper', 1.128, 'makes-room', thou(100));
const arm = length('arm', 0.9995, 'fills-room');
const washer = length('washer', 0.1235, 'fills-room', thou(10));
const wanted = { least: thou(4), most: thou(8) };

describe('end play from the lengths that were read', () => {
  it('is the room less all that fills it, uncertainties added as squares', () => {
    const { mean, spread } = playOf([room, arm, washer]);
    expect(mean).toBe(thou(5));
    expect(spread).toBeCloseTo(2_540 * Math.sqrt(3), 6);
  });
  it('is right where that is proven', () => expect(faceFor([room, arm, washer], wanted).kind).toBe('right'));

  const rows: readonly (readonly [string, readonly StackLength[], ReturnType<typeof faceFor>])[] = [
    [
      'too much: the room is faced down',
      [length('shoulder to keeper', 1.138, 'makes-room', thou(100)), arm, washer],
      { kind: 'face', faces: [{ name: 'shoulder to keeper', by: thou(9) }] },
    ],
    [
      'too little: what fills it is faced, and the arm is left as it is',
      [length('shoulder to keeper', 1.122, 'makes-room', thou(100)), arm, washer],
      { kind: 'face', faces: [{ name: 'washer', by: thou(7) }] },
    ],
    [
      'the face that can give all of it goes before the one that is known better',
      [
        length('shoulder to keeper', 1.122, 'makes-room'),
        length('arm', 0.9995, 'fills-room', thou(50), 5_000),
        length('washer', 0.1235, 'fills-room', thou(3), 1_000),
      ],
      { kind: 'face', faces: [{ name: 'arm', by: thou(7) }] },
    ],
    [
      'two share it where none can give all of it',
      [
        length('shoulder to keeper', 1.116, 'makes-room'),
        length('arm', 0.9995, 'fills-room', thou(8), 5_000),
        length('washer', 0.1235, 'fills-room', thou(10)),
      ],
      {
        kind: 'face',
        faces: [
          { name: 'washer', by: thou(10) },
          { name: 'arm', by: thou(3) },
        ],
      },
    ],
    [
      'out of reach where nothing more may be faced',
      [length('shoulder to keeper', 1.116, 'makes-room'), arm, washer],
      { kind: 'out-of-reach', short: thou(3) },
    ],
    [
      'the length that is known worst is read again where the play cannot be told',
      [length('shoulder to keeper', 1.1265, 'makes-room', zero, 60_000), arm, washer],
      { kind: 'read-again', name: 'shoulder to keeper' },
    ],
  ];
  it.each(rows)('%s', (_what, stack, advice) => expect(faceFor(stack, wanted)).toEqual(advice));
});
