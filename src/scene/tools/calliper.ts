import { Mesh, MeshLambertMaterial } from 'three';
import { add, cross, dot, scale, subtract, unit, type Vec } from '../shape/solid.ts';
import { flatStrip } from '../shape/strip.ts';
import { bar } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import { type Made, makeTool, slab } from './made.ts';

const BEAM = { length: 232, breadth: 16, thick: 3.4, before: 34 };
const JAW = { length: 40, breadth: 10, tip: 3.2 };

/**
 * A vernier calliper closed on the piece from `from` to `to`, or spread between two faces. Its beam
 * stands off toward the hand; its jaws come down from there.
 */
export function makeCalliper(
  from: Vec,
  to: Vec,
  options: { hand: Vec; face: Vec; grip: 'outside' | 'inside' },
): Made {
  const made = makeTool();
  const along = unit(subtract(to, from));
  const { hand } = options;
  const side = cross(along, hand);
  const face =
    dot(side, options.face) < 0 || Math.abs(dot(side, options.face)) < 0.1 ? scale(side, -1) : side;
  const width = Math.hypot(...subtract(to, from));
  const at = (u: number, v: number, w: number): Vec =>
    add(from, add(scale(along, u), add(scale(hand, v), scale(face, w))));
  const block = (
    u: readonly [number, number],
    v: readonly [number, number],
    w: readonly [number, number],
  ) =>
    slab(
      at(u[0], v[0], w[0]),
      at(u[1], v[0], w[0]),
      scale(hand, v[1] - v[0]),
      scale(face, w[1] - w[0]),
    );
  const steel = (solid: ReturnType<typeof block>, colour: string = COLOURS.brightSteel) =>
    made.pieces.push({ surface: 'steel', colour, solid });
  const outer = options.grip === 'outside' ? -1 : 1;
  const half = JAW.tip / 2;
  const near = [0, outer * JAW.breadth] as const;
  const far = [width, width - outer * JAW.breadth] as const;
  const low = (pair: readonly [number, number]) => [Math.min(...pair), Math.max(...pair)] as const;
  // jaws: flat measuring faces that reach a little past the piece, thinner at their tips
  for (const jaw of [near, far]) {
    steel(block(low(jaw), [6, JAW.length + 2], [-half, half]));
    steel(
      block(low([jaw[0], jaw[0] + (jaw[1] - jaw[0]) * 0.4]), [-6, 6], [-half * 0.8, half * 0.8]),
    );
  }
  const start = Math.min(near[0], near[1]) - BEAM.before * 0.2;
  const v: readonly [number, number] = [JAW.length, JAW.length + BEAM.breadth];
  const t = BEAM.thick / 2;
  steel(block([start, start + BEAM.length], v, [-t, t]));
  const slideFrom = Math.min(...far) - 4;
  steel(
    block([slideFrom, slideFrom + 46], [v[0] - 5, v[1] + 4], [-t - 1.2, t + 1.2]),
    COLOURS.groundSteel,
  );
  steel(
    bar(at(slideFrom + 30, v[0] - 5, 0), at(slideFrom + 30, v[0] - 12, 0), 5, 16),
    COLOURS.groundSteel,
  );
  addScale(made, at, { from: 0, length: start + BEAM.length - 2, v, lift: t + 0.03 });
  return made;
}

/** The beam's own scale, zero at the fixed jaw's face; it shows on both sides of the slide. */
function addScale(
  made: Made,
  at: (u: number, v: number, w: number) => Vec,
  mark: { from: number; length: number; v: readonly [number, number]; lift: number },
): void {
  const perMm = 6;
  const low = at(0, mark.v[0], mark.lift);
  const right = subtract(at(mark.length, mark.v[0], mark.lift), low);
  const up = subtract(at(0, mark.v[1], mark.lift), low);
  const out = subtract(at(0, 0, 1), at(0, 0, 0));
  const edge = dot(cross(right, up), out) > 0 ? 'bottom' : 'top';
  const map = letteringTexture(Math.round(mark.length * perMm), BEAM.breadth * perMm, (pen) =>
    graduateBeam(pen, mark.length, perMm, edge),
  );
  const material = new MeshLambertMaterial({
    vertexColors: true,
    map,
    polygonOffset: true,
    polygonOffsetFactor: -1,
    polygonOffsetUnits: -2,
  });
  const strip =
    edge === 'bottom' ? flatStrip(low, right, up) : flatStrip(add(low, up), right, scale(up, -1));
  const mesh = new Mesh(strip, material);
  mesh.name = 'tool-calliper-scale';
  made.extras.push(mesh);
  made.owned.push(map, material);
}

/** Millimetres along the jaws' edge, figured in centimetres as on a vernier. */
function graduateBeam(
  pen: CanvasRenderingContext2D,
  length: number,
  perMm: number,
  edge: 'top' | 'bottom',
): void {
  const { width, height } = pen.canvas;
  pen.fillStyle = '#d6d8d8';
  pen.fillRect(0, 0, width, height);
  pen.fillStyle = '#101315';
  pen.font = figuresFont(4 * perMm, 700);
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  const down = (mm: number) => (edge === 'top' ? mm * perMm : height - mm * perMm);
  for (let mm = 0; mm <= length; mm++) {
    const tall = mm % 10 === 0 ? 7 : mm % 5 === 0 ? 5.4 : 3.8;
    pen.fillRect(mm * perMm - 0.5, Math.min(down(0), down(tall)), 1, tall * perMm);
    if (mm % 10 === 0) pen.fillText(String(mm / 10), mm * perMm, down(10.4));
  }
}
