import type { Bench } from '../../bench/index.ts';
import { distance, type Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import { slotOutline } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { inset, prism } from '../shape/prism.ts';
import type { Solid } from '../shape/solid.ts';
import { bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { arborPulley, PULLEY_Z, pulley } from './arbor.ts';
import { layoutOf } from './layout.ts';

/** Motor, belts and their cover, in the frame of the bench. */
export function drivePieces(bench: Bench): Piece[] {
  const { depth, floor } = layoutOf(bench);
  const top = { x: 0, y: -depth };
  const motor = { x: 90, y: Math.max(floor + 190, -depth - 440) };
  const wheel = arborPulley(depth);
  const state = bench.driveBelt ?? 'sound';
  const belt = (z: number): Piece => {
    const tight = slotOutline(top, wheel, motor, 72, 14);
    const outer = state === 'slack' ? sagging(tight) : tight;
    return {
      surface: 'enamel',
      colour: COLOURS.rubber,
      solid: prism({
        plane: 'side',
        outline: state === 'worn' ? frayed(outer) : outer,
        holes: [inset(outer, 9)],
        from: z - 6,
        to: z + 6,
        chamfer: 1,
      }),
    };
  };
  return [
    ...motorPieces(motor, floor),
    ...pulley(72, PULLEY_Z, [motor.x, motor.y, 0]),
    ...(bench.driveGuard === 'cover'
      ? cover(slotOutline(top, wheel + 18, motor, 108, 14), top, motor)
      : []),
    belt(PULLEY_Z - 10),
    belt(PULLEY_Z + 10),
  ];
}

/** The long runs between the pulleys, where the outline leaps from one wheel to the other. */
function runsOf(outline: readonly Point[]): Point[] {
  return outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length] as Point;
    if (distance(a, b) < 60) return [a];
    return Array.from({ length: 16 }, (_, k) => ({
      x: a.x + ((b.x - a.x) * k) / 16,
      y: a.y + ((b.y - a.y) * k) / 16,
    }));
  });
}

/** A slack belt: both runs bow outward and down between the wheels. */
function sagging(outline: readonly Point[]): Point[] {
  const points = runsOf(outline);
  const ys = points.map(({ y }) => y);
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const middle = points.reduce((sum, { x }) => sum + x, 0) / points.length;
  return points.map(({ x, y }) => {
    const share = (y - low) / (high - low);
    const bow = 4 * share * (1 - share);
    return { x: x + Math.sign(x - middle) * 30 * bow * bow, y: y - 12 * bow };
  });
}

/** A worn belt: bites and loose threads along its back. */
function frayed(outline: readonly Point[]): Point[] {
  const random = seededRandom(61);
  return inset(runsOf(outline), 0).map((p, i, all) => {
    const before = all[(i + all.length - 1) % all.length] as Point;
    const after = all[(i + 1) % all.length] as Point;
    const length = distance(before, after) || 1;
    const out = (random() < 0.4 ? 1 : -0.35) * 5 * random();
    return {
      x: p.x + ((after.y - before.y) / length) * out,
      y: p.y - ((after.x - before.x) / length) * out,
    };
  });
}

/** A sheet cover, slotted at its side so that the belts can be looked at, on two screws. */
function cover(outline: Point[], top: Point, motor: Point): Piece[] {
  const along = { x: motor.x - top.x, y: motor.y - top.y };
  const length = Math.hypot(along.x, along.y);
  const [ux, uy] = [along.x / length, along.y / length];
  const slots = [0.3, 0.42, 0.54, 0.66].map((share): Point[] => {
    const [x, y] = [top.x + along.x * share, top.y + along.y * share];
    return [
      [-62, -9],
      [62, -9],
      [62, 9],
      [-62, 9],
    ].map(([a, b]) => ({
      x: x - uy * (a as number) + ux * (b as number),
      y: y + ux * (a as number) + uy * (b as number),
    }));
  });
  const sheet = (from: number, to: number, holes: readonly Point[][], chamfer: number): Piece => ({
    surface: 'enamel',
    colour: COLOURS.machine,
    solid: prism({ plane: 'side', outline, holes, from, to, chamfer }),
    mesh: 'drive-cover',
  });
  const wall = inset(outline, 3);
  return [
    sheet(PULLEY_Z + 42, PULLEY_Z + 46, slots, 1.5),
    {
      ...sheet(PULLEY_Z - 40, PULLEY_Z + 42, [wall], 0),
      mesh: 'drive-cover',
    },
    ...[0.08, 0.88].map(
      (share): Piece => ({
        surface: 'steel',
        colour: COLOURS.groundSteel,
        solid: hexagon(
          [top.x + along.x * share, top.y + along.y * share, PULLEY_Z + 46],
          [0, 0, 1],
          17,
          8,
        ),
      }),
    ),
  ];
}

function motorPieces({ x, y }: { x: number; y: number }, floor: number): Piece[] {
  const paint = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.boxDark, solid });
  const body = turned(
    [x, y, -90],
    [0, 0, 1],
    [
      [0, 0],
      [0, 70],
      [14, 88],
      [46, 92],
      [46, 100],
      [262, 100],
      [262, 90],
      [282, 84],
      [290, 60],
      [290, 0],
    ],
    { segments: 32 },
  );
  const fins = Array.from({ length: 9 }, (_, i) => {
    const angle = -0.5 + (i * (Math.PI + 1)) / 8;
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
    return prism({
      plane: 'side',
      outline: [
        { x: x + dx * 98 - dy * 3, y: y + dy * 98 + dx * 3 },
        { x: x + dx * 98 + dy * 3, y: y + dy * 98 - dx * 3 },
        { x: x + dx * 110 + dy * 2, y: y + dy * 110 - dx * 2 },
        { x: x + dx * 110 - dy * 2, y: y + dy * 110 + dx * 2 },
      ],
      from: -36,
      to: 164,
    });
  });
  return [
    paint(body),
    ...fins.map(paint),
    paint(box([x - 40, y + 96, -10], [x + 40, y + 142, 90], 5)),
    paint(box([x - 110, y - 120, -40], [x + 110, y - 92, 170], 4)),
    {
      surface: 'enamel',
      colour: COLOURS.machineDark,
      solid: box([x - 150, floor + 20, -60], [x + 150, y - 118, 190], 6),
    },
    {
      surface: 'steel',
      colour: COLOURS.brightSteel,
      solid: bar([x, y, 190], [x, y, PULLEY_Z + 26], 16),
    },
  ];
}
