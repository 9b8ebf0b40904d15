import { Group, type Object3D } from 'three';
import { type Bench, type Guard, knifeOutline } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { type GuardPose, guardOverWork, LEAF_SLANT } from '../motion/guard-over-work.ts';
import { box } from '../shape/box.ts';
import { slotOutline } from '../shape/outlines.ts';
import { type Piece, pour } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import type { Palette } from '../surface/palette.ts';
import { armPieces } from './guard-arms.ts';
import { beamOf, casting, OVER_ROOF } from './guard-beam.ts';
import { fingerPieces, fingerPinPieces } from './guard-fingers.ts';
import { hangers } from './guard-hangers.ts';
import { hood, sidePlates } from './guard-hood.ts';
import { flapRunner } from './guard-shape.ts';
import { GUARD_STOP, layoutOf } from './layout.ts';

/**
 * The crown guard from the carriage or the arms that hold it down, each piece that moves in a group of
 * its own, so that it can be posed without being made again.
 */
export function buildGuard(bench: Bench, palette: Palette): Group {
  const { guard } = bench;
  const whole = new Group();
  if (guard === null) return whole;
  const layout = layoutOf(bench);
  const pose = guardOverWork(bench, null) as GuardPose;
  const body = new Group();
  const part = (name: string, parent: Group, pieces: readonly Piece[]): void => {
    if (pieces.length === 0) return;
    const group = pour('guard', pieces, palette);
    group.name = name;
    parent.add(group);
  };
  body.name = 'guard-body';
  whole.add(body);
  part('guard-hood-group', body, [
    ...hood(guard, layout, pose.flapTurn),
    ...sidePlates(guard, layout),
    ...(guard.fingers === 'none' ? [] : fingerPinPieces(guard, layout)),
    ...(guard.kind === 'self-closing' ? leafPins(bench, guard) : []),
    ...carrier(bench, guard),
  ]);
  part('guard-leaves', body, guard.kind === 'self-closing' ? leaves(bench, guard) : []);
  part('guard-finger-group', body, guard.fingers === 'none' ? [] : fingerPieces(layout));
  if (guard.kind === 'counterweighted' && guard.carriedBy !== 'knife') {
    const beam = beamOf(bench, layout);
    part('guard-arm-upper', whole, armPieces(beam, 'upper'));
    part('guard-arm-lower', whole, armPieces(beam, 'lower'));
  }
  poseGuard(whole, bench, pose);
  return whole;
}

/** Puts every moving piece of a built guard where its pose says. */
export function poseGuard(root: Object3D, bench: Bench, pose: GuardPose): void {
  const { guard } = bench;
  if (guard === null) return;
  const layout = layoutOf(bench);
  const beam = beamOf(bench, layout);
  const set = (name: string, at: readonly [number, number, number], turn = 0): void => {
    const group = root.getObjectByName(name);
    group?.position.set(...at);
    if (group) group.rotation.z = turn;
  };
  set('guard-body', [pose.back, pose.rim - layout.hoodRim, 0]);
  set('guard-finger-group', [guard.rear - 20, layout.hoodRim + 20, 0], pose.fingerTurn);
  if (pose.leaves) set('guard-leaves', [pose.leaves.back, pose.leaves.edge - GUARD_STOP, 0]);
  set('guard-arm-upper', [beam.to, beam.up + ARM_APART, 0], pose.armTurn);
  set('guard-arm-lower', [beam.to, beam.up - ARM_APART, 0], pose.armTurn);
}

/** mm of each arm above and below the middle of the two. */
export const ARM_APART = 17;

/** What joins the hood to what carries it: posts and carriage, the lugs of its arms, or the knife. */
function carrier(bench: Bench, guard: Guard): Piece[] {
  const layout = layoutOf(bench);
  if (guard.carriedBy === 'knife') return onKnife(bench, guard);
  if (guard.kind !== 'counterweighted') return hangers(bench, guard, layout);
  const x = (guard.front + guard.rear) / 2;
  const roof = layout.hoodRim + layout.hoodDepth;
  const y = roof + OVER_ROOF;
  const pins = [y - ARM_APART, y + ARM_APART].flatMap((at) =>
    [1, -1].map((side) => hexagon([x, at, side * 17], [0, 0, side], 17, 8)),
  );
  return [
    casting(box([x - 70, roof - 4, -16], [x + 70, roof + 9, 16], 3)),
    casting(
      prism({
        plane: 'side',
        outline: [
          { x: x - 52, y: roof + 6 },
          { x: x + 52, y: roof + 6 },
          { x: x + 19, y: y + 32 },
          { x: x - 19, y: y + 32 },
        ],
        from: -5,
        to: 5,
        chamfer: 1.5,
      }),
    ),
    ...pins.map((solid): Piece => ({ surface: 'steel', colour: COLOURS.blackSteel, solid })),
  ];
}

/** A shoe over the back of the knife that the hood is bolted to; none where the knife is off. */
function onKnife(bench: Bench, guard: Guard): Piece[] {
  const { knife, arbor } = bench;
  if (knife === null) return [];
  const { hoodRim, hoodDepth } = layoutOf(bench);
  const { tip } = knifeOutline(knife, arbor.depth);
  const [y0, y1] = [Math.min(tip.y - 26, hoodRim + 12), hoodRim + hoodDepth * 0.66];
  const x = Math.min(tip.x + 6, guard.rear - 70);
  const half = knife.thickness / 2 + 7;
  return [
    casting(box([x, y0, knife.lateral - half], [x + 46, y1, knife.lateral + half], 3)),
    ...[x + 13, x + 33].flatMap((at) =>
      [1, -1].map(
        (side): Piece => ({
          surface: 'steel',
          colour: COLOURS.blackSteel,
          solid: hexagon([at, y0 + 14, knife.lateral + side * half], [0, 0, side], 13, 7),
        }),
      ),
    ),
  ];
}

/** x of the two pins each leaf hangs on, and how far up the hood they are. */
function pinPlaces(bench: Bench, guard: Guard): readonly Point[] {
  const layout = layoutOf(bench);
  const { front, rear, nose, tail } = flapRunner(guard, layout);
  const y = layout.hoodRim + 13;
  return [
    { x: front + nose + (rear - front) * 0.08, y },
    { x: rear - tail - (rear - front) * 0.08, y },
  ];
}

function leafPins(bench: Bench, guard: Guard): Piece[] {
  const { hoodHalf: half } = layoutOf(bench);
  return pinPlaces(bench, guard).flatMap(({ x, y }) =>
    [1, -1].map(
      (side): Piece => ({
        surface: 'steel',
        colour: COLOURS.blackSteel,
        solid: turned(
          [x, y, side * (half - 1)],
          [0, 0, side],
          [
            [0, 4.6],
            [4.6, 4.6],
            [4.6, 10],
            [8, 10],
            [9.4, 8],
            [9.4, 0],
          ],
        ),
      }),
    ),
  );
}

/** The leaf on each side, shut: it slides up on two pins in slanting slots as the work comes under. */
function leaves(bench: Bench, guard: Guard): Piece[] {
  const layout = layoutOf(bench);
  const { hoodHalf: half } = layout;
  const { front, rear, nose, tail, rise, top } = flapRunner(guard, layout);
  const outline: Point[] = [
    { x: front + 7, y: top },
    { x: front, y: top - 7 },
    { x: front, y: GUARD_STOP + rise },
    { x: front + nose, y: GUARD_STOP },
    { x: rear - tail, y: GUARD_STOP },
    { x: rear, y: GUARD_STOP + rise },
    { x: rear, y: top - 7 },
    { x: rear - 7, y: top },
  ];
  const slots = pinPlaces(bench, guard).map(({ x, y }) => {
    // lifted, the leaf's lower end of the slot comes up to the pin
    const low = GUARD_STOP + 10;
    return slotOutline({ x: x - (y - low) * LEAF_SLANT, y: low }, 5, { x, y }, 5, 8);
  });
  return [half + 1, -half - 3].map((z) => ({
    surface: 'steel',
    colour: COLOURS.groundSteel,
    solid: prism({ plane: 'side', outline, holes: slots, from: z, to: z + 2, chamfer: 0.5 }),
    mesh: 'guard-flaps',
  }));
}
