import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { limb, type Oval, stacked } from '../shape/skin.ts';
import {
  add,
  cross,
  dot,
  lengthOf,
  movedSolid,
  type Solid,
  scale,
  subtract,
  turnAbout,
  unit,
  type Vec,
} from '../shape/solid.ts';
import { dressHead, dressNeck, dressWrist, sleeveOf } from './dress.ts';
import { shoe } from './shoes.ts';
import type { Person } from './stance.ts';

/*
 * A lay figure 1750 mm tall: no face, the proportions of a grown person. Built facing +x about its own
 * spot on the floor, then turned and set down where the bench says.
 */

/** Height of the hips, of the shoulders, and half the breadth of each, mm. */
const HIP = { y: 892, half: 92 };
const SHOULDER = { y: 1418, half: 182, x: 4 };
const ARM = { upper: 292, lower: 262 };
const LEG = { upper: 436, lower: 412 };
/** How far one foot stands before the middle and the other behind it, and out to its side. */
const FOOT = { along: 118, out: 118, ankle: 84, turned: 0.16 };

export const BODY = '#bfb3a2';
const TROUSERS = '#363d43';

const TRUNK: readonly Oval[] = [
  [842, 0, 72, 112],
  [900, 0, 110, 164],
  [985, 5, 110, 158],
  [1090, 9, 104, 150],
  [1210, 12, 114, 164],
  [1320, 10, 118, 182],
  [1395, 5, 104, 178],
  [1440, 2, 82, 132],
  [1472, 0, 62, 78],
];

const HEAD: readonly Oval[] = [
  [1514, 26, 34, 26],
  [1534, 22, 62, 48],
  [1575, 14, 88, 66],
  [1625, 8, 99, 75],
  [1675, 4, 98, 76],
  [1715, 2, 84, 66],
  [1740, 0, 50, 40],
  [1750, 0, 18, 14],
];

/** The middle joint of an arm or a leg from `a` to `b`, bent toward `toward`. */
export function bend(a: Vec, b: Vec, upper: number, lower: number, toward: Vec): [Vec, Vec] {
  const way = subtract(b, a);
  const apart = Math.min(lengthOf(way), (upper + lower) * 0.995);
  const along = unit(way);
  const share = (upper ** 2 - lower ** 2 + apart ** 2) / (2 * apart);
  const out = unit(subtract(toward, scale(along, dot(toward, along))));
  const joint = add(
    add(a, scale(along, share)),
    scale(out, Math.sqrt(Math.max(0, upper ** 2 - share ** 2))),
  );
  return [joint, add(a, scale(along, apart))];
}

/** One person as pieces, standing on a floor at height `floor`. */
export function mannequin(person: Person, floor: number): Piece[] {
  const { dress, colour } = person;
  const turn = turnAbout('y', person.facing);
  const back = turnAbout('y', -person.facing);
  const at: Vec = [person.x, floor, person.z];
  const tip = turnAbout('z', -person.lean);
  /** the upper body leans from the hips */
  const leant = (v: Vec): Vec => add(tip(subtract(v, [0, HIP.y, 0])), [0, HIP.y, 0]);
  const leaning = (solid: Solid): Solid =>
    movedSolid(solid, tip, subtract([0, HIP.y, 0], tip([0, HIP.y, 0])));
  const upper: Piece[] = [
    paint(stacked(TRUNK), colour),
    paint(
      limb([
        [[0, 1450, 0], 54],
        [[8, 1545, 0], 51],
      ]),
      BODY,
    ),
    paint(stacked(HEAD), BODY),
    ...dressHead(dress),
    ...dressNeck(dress),
    ...(person.key === 'on-belt' ? beltKey() : []),
  ].map((piece) => ({ ...piece, solid: leaning(piece.solid) }));
  const arms = ([-1, 1] as const).flatMap((side, i) => {
    const shoulder = leant([SHOULDER.x, SHOULDER.y, side * SHOULDER.half]);
    const wanted = person.hands[i] as Vec | null;
    const hand =
      wanted === null ? add(shoulder, [70, -540, side * 42]) : back(subtract(wanted, at));
    return arm(person, [shoulder, hand], side, wanted === null ? 'hanging' : 'flat');
  });
  const pieces = [...upper, ...arms, ...legs(person)];
  return pieces.map((piece) => ({ ...piece, solid: movedSolid(piece.solid, turn, at) }));
}

const paint = (solid: Solid, colour: string): Piece => ({ surface: 'wall', colour, solid });

function arm(
  { dress, colour }: Person,
  [shoulder, hand]: readonly [Vec, Vec],
  side: -1 | 1,
  wanted: 'flat' | 'hanging',
): Piece[] {
  const [elbow, wrist] = bend(shoulder, hand, ARM.upper, ARM.lower, [-0.5, -0.7, side * 0.55]);
  const inside = add(shoulder, [0, -6, -side * 14]);
  const bare = dress.sleeves === 'rolled';
  return [
    paint(
      limb([
        [inside, 66],
        [add(scale(shoulder, 0.55), scale(elbow, 0.45)), 52],
        [elbow, 45],
      ]),
      colour,
    ),
    paint(
      limb([
        [elbow, bare ? 41 : 45],
        [wrist, 29],
      ]),
      bare ? BODY : colour,
    ),
    ...sleeveOf(dress, colour, elbow, wrist),
    ...palm(dress, [elbow, wrist], side, wanted),
    ...(side < 0 ? dressWrist(dress, elbow, wrist) : []),
  ];
}

/** Four fingers as one, and the thumb; thicker, with a cuff, in a glove. */
function palm(
  dress: Person['dress'],
  [elbow, wrist]: readonly [Vec, Vec],
  side: -1 | 1,
  how: 'flat' | 'hanging',
): Piece[] {
  const forearm = unit(subtract(wrist, elbow));
  // laid flat when it reaches forward, hanging on when it hangs
  const flat = how === 'flat';
  const along = flat ? unit([forearm[0] + 0.5, forearm[1] * 0.25, forearm[2]]) : forearm;
  const up = unit(cross(cross(along, flat ? [0, 1, 0] : [0, 0, side]), along));
  const over = cross(along, up);
  const gloved = dress.gloves === true;
  const fat = gloved ? 1.28 : 1;
  const colour = gloved ? '#8d7c55' : BODY;
  const at = (a: number, o: number, u = 0): Vec =>
    add(wrist, add(scale(along, a), add(scale(over, o), scale(up, u))));
  const finger = (o: number, length: number, radius: number): Piece =>
    paint(
      limb(
        [
          [at(62, o * 0.9), radius],
          [at(62 + length, o, -9), radius * 0.82],
        ],
        8,
      ),
      colour,
    );
  const inward = side * -Math.sign(over[2] * 1e6 + 1e-9 * side);
  return [
    paint(
      limb(
        [
          [at(12, 0), 26 * fat],
          [at(52, -13), 25 * fat],
        ],
        10,
      ),
      colour,
    ),
    paint(
      limb(
        [
          [at(12, 0), 26 * fat],
          [at(52, 13), 25 * fat],
        ],
        10,
      ),
      colour,
    ),
    ...[-28, -9.5, 9.5, 28].map((o, i) =>
      finger(o * fat, [66, 78, 80, 70][i] as number, 10.5 * fat),
    ),
    paint(
      limb(
        [
          [at(22, inward * 24), 13 * fat],
          [at(66, inward * 50, -4), 10.5 * fat],
        ],
        8,
      ),
      colour,
    ),
    ...(gloved
      ? [
          paint(
            limb([
              [at(-46, 0), 47],
              [at(4, 0), 36],
            ]),
            colour,
          ),
        ]
      : []),
  ];
}

/** One foot before the other, a stride that a push cannot upset. */
function legs({ dress }: Person): Piece[] {
  const feet = ([-1, 1] as const).map((side) => {
    // the left foot leads
    const solid = (piece: Piece): Piece => ({
      ...piece,
      solid: movedSolid(piece.solid, turnAbout('y', -side * FOOT.turned), [
        -side * FOOT.along,
        0,
        side * FOOT.out,
      ]),
    });
    return shoe(dress).map(solid);
  });
  const middle = centreOf(feet.flat().map(({ solid }) => solid));
  return ([-1, 1] as const).flatMap((side, i) => {
    const hip: Vec = [0, HIP.y, side * HIP.half];
    const ankle: Vec = [-side * FOOT.along - middle[0], FOOT.ankle, side * FOOT.out - middle[2]];
    const [knee] = bend(hip, ankle, LEG.upper, LEG.lower, [1, 0, side * 0.12]);
    const hem = add(ankle, [-6, 44, 0]);
    return [
      paint(
        limb([
          [hip, 92],
          [add(scale(hip, 0.4), scale(knee, 0.6)), 76],
          [knee, 64],
        ]),
        TROUSERS,
      ),
      paint(
        limb([
          [knee, 64],
          [add(scale(knee, 0.6), scale(ankle, 0.4)), 63],
          [hem, 60],
        ]),
        TROUSERS,
      ),
      ...(feet[i] as Piece[]).map((piece) => ({
        ...piece,
        solid: movedSolid(piece.solid, (v) => v, [-middle[0], 0, -middle[2]]),
      })),
    ];
  });
}

/** The middle of the soles on the floor: a person stands there. */
function centreOf(solids: readonly Solid[]): Vec {
  const spots = new Map<string, readonly [number, number]>();
  for (const { positions } of solids) {
    for (let i = 0; i < positions.length; i += 3) {
      if ((positions[i + 1] as number) > 0.5) continue;
      const spot = [positions[i] as number, positions[i + 2] as number] as const;
      spots.set(spot.map((v) => v.toFixed(3)).join(), spot);
    }
  }
  const mean = (axis: 0 | 1): number =>
    [...spots.values()].reduce((sum, spot) => sum + spot[axis], 0) / spots.size;
  return [mean(0), 0, mean(1)];
}

/** A ring with one key at the right hip. */
function beltKey(): Piece[] {
  const key = box([60, 812, 166], [66, 870, 172], 1);
  return [
    paint(box([44, 786, 163], [84, 826, 175], 5), '#d9d4c8'),
    paint(key, '#c8a85a'),
    paint(
      limb(
        [
          [[63, 868, 168], 7],
          [[60, 912, 158], 5],
        ],
        8,
      ),
      '#d3d6d8',
    ),
  ];
}
