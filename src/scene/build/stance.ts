import type { Bench } from '../../bench/index.ts';
import type { Vec } from '../shape/solid.ts';
import { layoutOf } from './layout.ts';
import { stickInHand, stickPlace } from './push-stick.ts';
import { stockBox } from './stock.ts';

export type Operator = Bench['people']['operator'];
export type Dress = Pick<
  Operator,
  'sleeves' | 'footwear' | 'eyes' | 'ears' | 'gloves' | 'hair' | 'jewellery'
>;

export type Person = {
  readonly who: 'operator' | 'take-off' | 'bystander';
  readonly x: number;
  readonly z: number;
  /** radians about y; 0 faces the way the work goes */
  readonly facing: number;
  /** radians the body leans forward from the hips */
  readonly lean: number;
  /** where the left and the right hand reach for, mm in the bench frame; null hangs it */
  readonly hands: readonly [Vec | null, Vec | null];
  readonly dress: Dress;
  readonly colour: string;
  /** the key of the padlock hangs on the belt */
  readonly key: 'on-belt' | 'none';
};

/** mm a hand is kept off the teeth in any picture: nobody is drawn reaching in. */
const CLEAR = 160;

/** How everybody round the bench stands, and what their hands do. */
export function peopleOf(bench: Bench): readonly Person[] {
  const { operator, takeOff, bystander } = bench.people;
  return [
    operatorOf(bench, operator),
    ...(takeOff === null ? [] : [takerOf(bench, takeOff)]),
    ...(bystander === undefined
      ? []
      : [
          {
            who: 'bystander',
            x: bystander.x,
            z: bystander.z,
            facing: Math.atan2(bystander.z, -bystander.x),
            lean: 0,
            hands: [null, null],
            dress: { sleeves: 'close', footwear: 'safety', eyes: 'glasses', ears: 'none' },
            colour: '#7d766c',
            key: 'none',
          } as const,
        ]),
  ];
}

/** Both hands on the work, or one on the stick once the whole piece is in the last part of the cut. */
function operatorOf(bench: Bench, at: Operator): Person {
  const { from, to } = stockBox(bench);
  const { isolated, lockKey } = bench.controls;
  const { halfAtTable } = layoutOf(bench);
  const top = to[1] + 22;
  const furthest = -halfAtTable - CLEAR - 110;
  const x = Math.min(furthest, Math.max(from[0] + 60, at.x + 430));
  const middle = (from[2] + to[2]) / 2;
  const spread = Math.min(120, (to[2] - from[2]) * 0.3);
  const stick = stickInHand(bench) ? stickPlace(bench) : null;
  const working = !isolated && at.x < 0 && x > from[0];
  return {
    who: 'operator',
    x: at.x,
    z: at.z,
    // turned a little to the work, as one who stands beside the line of cut is
    facing: at.x < 0 ? Math.max(-0.28, Math.min(0.28, at.z / 1000)) : Math.PI,
    lean: working ? 0.16 : 0.03,
    hands: working
      ? [
          [Math.min(furthest, x + 90), top, middle - spread],
          stick === null ? [x - 60, top, middle + spread] : [stick.x + 40, 40, stick.z],
        ]
      : [null, null],
    dress: at,
    colour: '#46545e',
    key: isolated && lockKey === 'with-person' ? 'on-belt' : 'none',
  };
}

/** The taker-off waits at the end of the table, or reaches over it from beside. */
function takerOf(bench: Bench, at: Operator): Person {
  const { outfeed, halfAtTable } = layoutOf(bench);
  const aside = at.x < outfeed && Math.abs(at.z) > 300;
  const facing = aside ? (Math.sign(at.z) * Math.PI) / 2 : at.x < 0 ? 0 : Math.PI;
  const reach = at.x < outfeed ? 430 : 330;
  const x = Math.max(halfAtTable + CLEAR, at.x + reach * Math.cos(facing));
  const z = at.z - reach * Math.sin(facing);
  const hand = (side: number): Vec => [
    x + side * Math.sin(facing),
    60,
    z + side * Math.cos(facing),
  ];
  return {
    who: 'take-off',
    x: at.x,
    z: at.z,
    facing,
    lean: at.x < outfeed ? 0.2 : 0.05,
    hands: [hand(-110), hand(110)],
    dress: at,
    colour: '#59604f',
    key: 'none',
  };
}
