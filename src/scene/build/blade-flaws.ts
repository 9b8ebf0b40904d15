import { type Blade, type BladeOutline, crackTooth, scratchLine } from '../../bench/index.ts';
import { distance, type Point } from '../../geometry/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { addQuad, addTriangle, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { latticeNoise, seededRandom } from '../surface/noise.ts';
import { resinCrust } from './blade-resin.ts';
import { bendAt, type TeethAndBody, type ToothLoop } from './blade-teeth.ts';

/** mm that a mark stands off the plate so that it is never lost in it. */
const LIFT = 0.02;

/** What is wrong with a blade, as it looks on the blade itself. */
export function bladeFlaws(blade: Blade, outline: BladeOutline, split: TeethAndBody): Piece[] {
  const pieces: Piece[] = [];
  const { teeth } = split;
  for (const [order, line] of outline.cracks.entries()) {
    const crack = blade.condition.cracks[order];
    // a crack on the back of a tooth goes over with the tooth
    const set = crack?.at === 'rim' ? (teeth[crackTooth(blade, crack, order)]?.set ?? 0) : 0;
    pieces.push(...crackLine(blade, line, set));
  }
  const { scratches = [] } = blade.condition;
  if (scratches.length > 0) pieces.push(scratchLines(blade, scratches));
  if (teeth.some(({ state }) => state !== 'whole')) pieces.push(brokenFaces(blade, teeth));
  if (blade.condition.sharpness !== 'sharp') pieces.push(dullEdges(blade, teeth));
  if (blade.condition.resin) pieces.push(resinCrust(blade, split));
  if (blade.condition.burnt) pieces.push(burntPatch(blade));
  return pieces;
}

/** Bright lines on the fence side of the plate alone, drawn out fine at both ends. */
function scratchLines(blade: Blade, scratches: Parameters<typeof scratchLine>[1][]): Piece {
  const solid = emptySolid();
  const z = blade.plate / 2 + LIFT;
  for (const scratch of scratches) {
    const [a, b] = scratchLine(blade, scratch).ends;
    const share = 0.35 / (distance(a, b) || 1);
    const [x, y] = [(a.x + b.x) / 2, (a.y + b.y) / 2];
    const [nx, ny] = [(b.y - a.y) * share, (a.x - b.x) * share];
    addQuad(solid, [
      [a.x, a.y, z],
      [x + nx, y + ny, z],
      [b.x, b.y, z],
      [x - nx, y - ny, z],
    ]);
  }
  return { surface: 'mark', colour: '#f2f5f6', solid, mesh: 'blade-scratch' };
}

/** Where a tooth has broken, the torn steel is pale and grained, not ground: a strip across its thickness. */
function brokenFaces(blade: Blade, teeth: readonly ToothLoop[]): Piece {
  const solid = emptySolid();
  for (const tooth of teeth) {
    if (tooth.state === 'whole') continue;
    const torn = tooth.points.slice(0, tooth.tipAt + 1).slice(-4);
    torn.slice(1).forEach((p, i) => {
      addLand(solid, blade, tooth, lifted(p), lifted(torn[i] as Point));
      for (const side of [1, -1]) {
        addSideLine(solid, blade, tooth, [torn[i] as Point, p], 1.1, side, blade.plate / 2);
      }
    });
  }
  return { surface: 'mark', colour: '#e2e6e8', solid, mesh: 'blade-break' };
}

/** Raised off the metal by the lift, along the radius. */
function lifted(p: Point): Point {
  const by = 1 + LIFT / Math.hypot(p.x, p.y);
  return { x: p.x * by, y: p.y * by };
}

/** A ribbon along a broken line on both faces of the plate, narrowing from `wide` to `narrow`. */
function faceRibbon(
  solid: Solid,
  line: readonly Point[],
  [wide, narrow]: readonly [number, number],
  halfPlate: number,
  over: (p: Point) => number,
): void {
  const last = line.length - 1;
  const edges = line.map((p, i) => {
    const before = line[Math.max(0, i - 1)] as Point;
    const after = line[Math.min(last, i + 1)] as Point;
    const length = distance(before, after) || 1;
    const [nx, ny] = [-(after.y - before.y) / length, (after.x - before.x) / length];
    const half = (wide + ((narrow - wide) * i) / last) / 2;
    return {
      left: { x: p.x + nx * half, y: p.y + ny * half },
      right: { x: p.x - nx * half, y: p.y - ny * half },
    };
  });
  const at = (p: Point, z: number): Vec => [p.x, p.y, z + over(p)];
  for (let i = 0; i < last; i++) {
    const [a, b] = [edges[i], edges[i + 1]] as [(typeof edges)[0], (typeof edges)[0]];
    const z = halfPlate + LIFT;
    addQuad(solid, [at(a.right, z), at(b.right, z), at(b.left, z), at(a.left, z)]);
    addQuad(solid, [at(a.left, -z), at(b.left, -z), at(b.right, -z), at(a.right, -z)]);
  }
}

/** A hairline: dark, widest where it opens at the edge, with the faint bruise of bent light beside it. */
function crackLine(blade: Blade, crack: readonly Point[], set: number): Piece[] {
  const dark = emptySolid();
  const over = (p: Point): number => bendAt(blade, set, Math.hypot(p.x, p.y));
  faceRibbon(dark, crack, [0.75, 0.22], blade.plate / 2, over);
  const bruise = emptySolid();
  faceRibbon(bruise, crack, [2.6, 0.8], blade.plate / 2, over);
  return [
    {
      surface: 'stain',
      colour: '#2c2522',
      solid: bruise,
      alphas: Array.from({ length: bruise.positions.length / 3 }, () => 0.22),
      mesh: 'blade-stain',
    },
    { surface: 'mark', colour: '#0b0a0a', solid: dark, mesh: 'blade-crack' },
  ];
}

/**
 * A sharp edge cannot be seen; a rounded one shows as a thin bright line along the top of the tooth
 * and down its face.
 */
function dullEdges(blade: Blade, teeth: readonly ToothLoop[]): Piece {
  const solid = emptySolid();
  const random = seededRandom(blade.teeth + 5);
  const half = blade.plate / 2;
  for (const tooth of teeth) {
    if (tooth.state !== 'whole') continue;
    if (blade.condition.sharpness === 'uneven' && random() < 0.55) continue;
    const tip = tooth.points[tooth.tipAt] as Point;
    const back = tooth.points[tooth.tipAt - 1] as Point;
    const face = tooth.points[tooth.tipAt + 1];
    const toward = (from: Point, to: Point, mm: number): Point => {
      const share = Math.min(1, mm / (distance(from, to) || 1));
      return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
    };
    const wear = Math.max(0.8, blade.gulletDepth * 0.1);
    const land = toward(tip, back, wear * 2.6);
    addLand(solid, blade, tooth, tip, land);
    for (const side of [1, -1]) {
      addSideLine(
        solid,
        blade,
        tooth,
        [tip, toward(tip, back, blade.gulletDepth * 0.5)],
        wear,
        side,
        half,
      );
      if (face)
        addSideLine(
          solid,
          blade,
          tooth,
          [tip, toward(tip, face, blade.gulletDepth * 0.32)],
          wear * 0.8,
          side,
          half,
        );
    }
  }
  return { surface: 'mark', colour: '#f6f8f9', solid, mesh: 'blade-dull' };
}

/** The worn top itself, across the thickness of the tooth, a hair above the old edge. */
function addLand(solid: Solid, blade: Blade, tooth: ToothLoop, tip: Point, land: Point): void {
  const half = blade.plate / 2;
  const corner = (p: Point, side: number): Vec => {
    const radius = Math.hypot(p.x, p.y);
    return [p.x, p.y, side * half + bendAt(blade, tooth.set, radius)];
  };
  addQuad(solid, [corner(land, -1), corner(tip, -1), corner(tip, 1), corner(land, 1)]);
}

/** A bright line on one side of the tooth, inside its edge from `line[0]` to `line[1]`. */
function addSideLine(
  solid: Solid,
  blade: Blade,
  tooth: ToothLoop,
  line: readonly [Point, Point],
  width: number,
  side: number,
  half: number,
): void {
  const [a, b] = line;
  const length = distance(a, b) || 1;
  // square to the edge, toward the tooth's own metal
  const across = { x: -(b.y - a.y) / length, y: (b.x - a.x) / length };
  const inside = tooth.points[tooth.points.length - 1] as Point;
  const sign = Math.sign((inside.x - a.x) * across.x + (inside.y - a.y) * across.y) || 1;
  const into = (p: Point, mm: number): Vec => {
    const x = p.x + across.x * sign * mm;
    const y = p.y + across.y * sign * mm;
    return [x, y, side * (half + LIFT) + bendAt(blade, tooth.set, Math.hypot(x, y))];
  };
  const quad = [into(a, 0), into(b, 0), into(b, width * 0.4), into(a, width)] as const;
  const facing = sign * side > 0;
  addQuad(
    solid,
    facing ? [quad[0], quad[1], quad[2], quad[3]] : [quad[3], quad[2], quad[1], quad[0]],
  );
}

/** Temper colours from the middle of a rub outward: the steel went grey-blue, purple, brown, straw. */
const TEMPER = [
  { at: 0, colour: [0.05, 0.07, 0.13], alpha: 0.85 },
  { at: 0.35, colour: [0.06, 0.09, 0.24], alpha: 0.8 },
  { at: 0.55, colour: [0.16, 0.07, 0.2], alpha: 0.75 },
  { at: 0.75, colour: [0.3, 0.14, 0.05], alpha: 0.62 },
  { at: 0.9, colour: [0.5, 0.33, 0.12], alpha: 0.3 },
  { at: 1, colour: [0.6, 0.45, 0.2], alpha: 0 },
] as const;

/**
 * A patch that has rubbed and run hot, on both faces, from the gullets inward: longer round the plate
 * than across it, with a ragged edge. Three of them round the plate, so that one is in sight however
 * the blade has stopped.
 */
function burntPatch(blade: Blade): Piece {
  const solid = emptySolid();
  const alphas: number[] = [];
  const shades: number[] = [];
  const rough = latticeNoise(9, 4, 21);
  const root = blade.diameter / 2 - blade.gulletDepth;
  const middle = { angle: (118 * Math.PI) / 180, radius: root * 0.88 };
  const spread = { angle: 0.42, radius: root * 0.13 };
  const steps = 36;
  const point = (ring: number, step: number, side: number, patch: number): Vec => {
    const turn = (step * 2 * Math.PI) / steps;
    const ragged = 0.72 + 0.42 * rough(step / steps, 0.5);
    const share = (TEMPER[ring] as (typeof TEMPER)[0]).at * ragged;
    const angle = middle.angle + (patch * 2 * Math.PI) / 3 + spread.angle * share * Math.cos(turn);
    const radius = Math.min(root - 0.4, middle.radius + spread.radius * share * Math.sin(turn));
    return [
      radius * Math.cos(angle),
      radius * Math.sin(angle),
      side * (blade.plate / 2 + LIFT / 2),
    ];
  };
  const tint = (...rings: number[]) => {
    for (const ring of rings) {
      const temper = TEMPER[ring] as (typeof TEMPER)[0];
      shades.push(...temper.colour);
      alphas.push(temper.alpha);
    }
  };
  for (const [side, patch] of [1, -1].flatMap((one) => [0, 1, 2].map((k) => [one, k] as const))) {
    for (let ring = 0; ring + 1 < TEMPER.length; ring++) {
      for (let step = 0; step < steps; step++) {
        const [a, b, c, d] = [
          point(ring, step, side, patch),
          point(ring + 1, step, side, patch),
          point(ring + 1, step + 1, side, patch),
          point(ring, step + 1, side, patch),
        ];
        addTriangle(solid, side < 0 ? [a, b, c] : [a, c, b]);
        tint(ring, ring + 1, ring + 1);
        addTriangle(solid, side < 0 ? [a, c, d] : [a, d, c]);
        tint(...(side < 0 ? [ring, ring + 1, ring] : [ring, ring, ring + 1]));
      }
    }
  }
  return { surface: 'stain', colour: '#000', solid, alphas, shades, mesh: 'blade-stain' };
}
