import { Mesh, MeshLambertMaterial } from 'three';
import { add, cross, dot, scale, subtract, unit, type Vec } from '../shape/solid.ts';
import { flatStrip } from '../shape/strip.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import { type Made, makeTool, slab } from './made.ts';

/** Lengths rules are sold in, mm, and their breadth. */
const LENGTHS = [150, 300, 600, 1000] as const;
const BREADTH = 19;
const THICK = 0.8;

/**
 * A steel rule with its zero at `from`, graduated in half millimetres along the line to `to`, so that
 * the length can be read off it.
 */
export function makeRule(from: Vec, to: Vec, face: Vec, body: Vec): Made {
  const reach = Math.hypot(...subtract(to, from));
  const along: Vec = reach < 0.05 ? unit([1, 0, 0]) : unit(subtract(to, from));
  const length = LENGTHS.find((one) => one >= reach + 12) ?? 1000;
  const made = makeTool();
  const far = add(from, scale(along, length));
  made.pieces.push({
    surface: 'steel',
    colour: '#c9cccd',
    solid: slab(from, far, scale(body, BREADTH), scale(face, -THICK)),
  });
  const perMm = Math.min(12, 4096 / length);
  // a rule is graduated along both edges: the upper one when it lies below the line, else the lower
  const edge = dot(cross(along, body), face) < 0 ? 'top' : 'bottom';
  const map = letteringTexture(Math.round(length * perMm), Math.round(BREADTH * perMm), (pen) =>
    graduate(pen, length, perMm, edge),
  );
  const material = new MeshLambertMaterial({
    vertexColors: true,
    map,
    polygonOffset: true,
    polygonOffsetFactor: -2,
    polygonOffsetUnits: -4,
  });
  const low = add(from, scale(face, 0.04));
  const corner = edge === 'top' ? add(low, scale(body, BREADTH)) : low;
  const up = scale(body, edge === 'top' ? -BREADTH : BREADTH);
  const mesh = new Mesh(flatStrip(corner, scale(along, length), up), material);
  mesh.name = 'tool-rule-face';
  made.extras.push(mesh);
  made.owned.push(map, material);
  return made;
}

function graduate(
  pen: CanvasRenderingContext2D,
  length: number,
  perMm: number,
  edge: 'top' | 'bottom',
): void {
  const { width, height } = pen.canvas;
  pen.fillStyle = '#d3d5d5';
  pen.fillRect(0, 0, width, height);
  pen.fillStyle = '#101315';
  pen.textBaseline = 'middle';
  pen.font = figuresFont(4.1 * perMm, 700);
  const fine = perMm >= 6;
  const down = (mm: number) => (edge === 'top' ? mm * perMm : height - mm * perMm);
  for (let i = 0; i <= length * 2; i++) {
    if (i % 2 === 1 && !fine) continue;
    const tall = i % 20 === 0 ? 9.5 : i % 10 === 0 ? 7 : i % 2 === 0 ? 5 : 3;
    const line = Math.max(1, perMm * 0.13);
    pen.fillRect((i / 2) * perMm - line / 2, Math.min(down(0), down(tall)), line, tall * perMm);
  }
  for (let mm = 10; mm < length; mm += 10) {
    pen.fillText(String(mm), (mm + 0.6) * perMm, down(11.8));
  }
  pen.font = figuresFont(3.2 * perMm, 600);
  pen.fillText('mm', 2 * perMm, down(16.2));
}
