import { type Bench, boreRadius, collarRadius } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle, roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import type { Vec } from '../shape/solid.ts';
import { bar, hexagon, type ProfilePoint, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';

/** z where the pulley runs, mm. */
export const PULLEY_Z = 262;

/** What turns with the blade, about the arbor axis: collars, nut, shaft and pulley. */
export function spindlePieces(bench: Bench): Piece[] {
  const half = bench.blade.plate / 2;
  const radius = collarRadius(bench);
  const { flanges, nut } = bench.arbor;
  const bore = boreRadius(bench.blade);
  // one of an unlike pair is from another machine
  const outer = flanges === 'unlike' ? Math.max(bore + 5, radius * 0.68) : radius;
  const collar = (direction: 1 | -1, thick: number, radius: number) => {
    // undercut in the middle, so that only the rim bears on the plate
    const profile: ProfilePoint[] = [
      [0, radius * 0.7],
      [0, radius],
      [thick * 0.55, radius],
      [thick, radius * 0.86],
      [thick, 0],
    ];
    return turned([0, 0, direction * half], [0, 0, direction], profile, { segments: 40 });
  };
  const nutFrom = -half - 13 - (nut === 'loose' ? 7 : 0);
  const grip = Math.max(8, Math.min(46, radius));
  return [
    { surface: 'steel', colour: COLOURS.groundSteel, solid: collar(-1, 13, outer) },
    { surface: 'steel', colour: COLOURS.groundSteel, solid: collar(1, 15, radius) },
    ...(flanges === 'dirty' ? dirtOn(radius, half) : []),
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: hexagon([0, 0, nutFrom], [0, 0, -1], grip, 20),
    },
    {
      surface: 'steel',
      colour: COLOURS.brightSteel,
      solid: bar([0, 0, -half - 43], [0, 0, 40], Math.min(12, bore)),
    },
    {
      surface: 'steel',
      colour: COLOURS.brightSteel,
      solid: bar([0, 0, 10], [0, 0, PULLEY_Z + 30], 19),
    },
    ...pulley(arborPulley(bench.arbor.depth), PULLEY_Z),
  ];
}

/** Resin and chips squeezed out from between flange and plate: a ragged rim on both sides. */
function dirtOn(radius: number, half: number): Piece[] {
  const random = seededRandom(17);
  const outline = circle(0, 0, 1, 48).map(({ x, y }) => {
    const out = radius + 0.8 + 5.5 * random() ** 2;
    return { x: x * out, y: y * out };
  });
  return [-1, 1].map((side) => ({
    surface: 'enamel' as const,
    colour: COLOURS.resin,
    solid: prism({ plane: 'side', outline, from: side * half, to: side * (half + 1.4) }),
  }));
}

/** Radius of the pulley on the arbor, mm: no more than the room under the table. */
export const arborPulley = (depth: number): number => Math.min(58, Math.max(16, depth - 70));

/** A two-groove pulley about the z axis through the origin. */
export function pulley(radius: number, z: number, at: Vec = [0, 0, 0]): Piece[] {
  const grooves: ProfilePoint[] = [
    [-22, 0],
    [-22, radius],
    [-17, radius],
    [-12, radius - 11],
    [-8, radius - 11],
    [-3, radius],
    [3, radius],
    [8, radius - 11],
    [12, radius - 11],
    [17, radius],
    [22, radius],
    [22, 0],
  ];
  return [
    {
      surface: 'iron',
      colour: COLOURS.ironEdge,
      solid: turned([at[0], at[1], at[2] + z], [0, 0, 1], grooves, { segments: 32 }),
    },
  ];
}

/** The bearing housing and the swinging carriage that raises and lowers the arbor; about its axis. */
export function carriagePieces(bench: Bench): Piece[] {
  // a shallow arbor has a slim housing, or it would stand out of the table
  const slim = Math.min(1, Math.max(0.2, (bench.arbor.depth - 16) / 60));
  const profile = [
    [0, 20],
    [0, 46],
    [16, 52],
    [30, 44],
    [160, 44],
    [174, 52],
    [190, 46],
    [190, 20],
  ].map(([along, radius]): ProfilePoint => [along as number, (radius as number) * slim]);
  const housing = turned([0, 0, 30], [0, 0, 1], profile, { segments: 32 });
  const web = prism({
    plane: 'side',
    outline: roundedRectangle([-54, -250], [54, 10 * slim - 20 * (1 - slim)], 26),
    holes: [circle(0, -150, 30, 20)],
    from: 60,
    to: 88,
    chamfer: 3,
  });
  const bolts = [-1, 1].flatMap((x) =>
    [50, 205].map((z) =>
      hexagon([x * 30 * slim, 34 * slim, z], [x * 0.6, 1, 0], 17 * slim, 9 * slim),
    ),
  );
  return [
    { surface: 'enamel', colour: COLOURS.machineDark, solid: housing },
    { surface: 'enamel', colour: COLOURS.machineDark, solid: web },
    {
      surface: 'enamel',
      colour: COLOURS.machineDark,
      solid: box([-54, -60, 88], [54, -30, 200], 4),
    },
    ...bolts.map((solid): Piece => ({ surface: 'steel', colour: COLOURS.blackSteel, solid })),
  ];
}
