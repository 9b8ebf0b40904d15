import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { slotOutline } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { inset, prism } from '../shape/prism.ts';
import type { Solid } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { arborPulley, PULLEY_Z, pulley } from './arbor.ts';
import { layoutOf } from './layout.ts';

/** Motor, belts and their cover, in the frame of the bench. */
export function drivePieces(bench: Bench): Piece[] {
  const { depth, floor } = layoutOf(bench);
  const top = { x: 0, y: -depth };
  const motor = { x: 90, y: Math.max(floor + 190, -depth - 440) };
  const wheel = arborPulley(depth);
  const belt = (z: number): Piece => {
    const outer = slotOutline(top, wheel, motor, 72, 14);
    return {
      surface: 'enamel',
      colour: COLOURS.rubber,
      solid: prism({
        plane: 'side',
        outline: outer,
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
      ? [cover(slotOutline(top, wheel + 18, motor, 108, 14))]
      : [belt(PULLEY_Z - 10), belt(PULLEY_Z + 10)]),
  ];
}

function cover(outline: { x: number; y: number }[]): Piece {
  return {
    surface: 'enamel',
    colour: COLOURS.machine,
    solid: prism({ plane: 'side', outline, from: PULLEY_Z - 40, to: PULLEY_Z + 46, chamfer: 10 }),
  };
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
