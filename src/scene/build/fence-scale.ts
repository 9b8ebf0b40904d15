import { Group, Mesh, MeshLambertMaterial } from 'three';
import type { Bench } from '../../bench/index.ts';
import { flatStrip } from '../shape/strip.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import { layoutOf } from './layout.ts';

const STRIP = { width: 21, inFrom: 3 };
const PIXELS_PER_MM = 4;

/**
 * A graduated strip let into the operator's edge of the table: zero at the side of the kerf, so that
 * the pointer on the fence reads the width of the cut.
 */
export function buildFenceScale(bench: Bench): Group {
  const layout = layoutOf(bench);
  const zero = bench.blade.kerf / 2;
  const longest = Math.min(Math.max(80, layout.halfWidth - 14 - zero), 1000);
  const map = letteringTexture(
    Math.ceil(longest * PIXELS_PER_MM),
    STRIP.width * PIXELS_PER_MM,
    (pen) => drawScale(pen, longest),
  );
  const material = new MeshLambertMaterial({
    vertexColors: true,
    map,
    polygonOffset: true,
    polygonOffsetFactor: -2,
    polygonOffsetUnits: -2,
  });
  const x = layout.tableFront + STRIP.inFrom;
  // read from the operator's side: figures upright toward the rail, rising to the right
  const geometry = flatStrip([x, 0.15, zero], [0, 0, longest], [STRIP.width, 0, 0]);
  const mesh = new Mesh(geometry, material);
  mesh.name = 'fence-scale';
  mesh.userData.part = 'fence';
  mesh.receiveShadow = true;
  const group = new Group();
  group.name = 'fence-scale';
  group.add(mesh);
  group.userData.owned = [material, map];
  return group;
}

function drawScale(pen: CanvasRenderingContext2D, longest: number): void {
  const { width, height } = pen.canvas;
  pen.fillStyle = '#d9d8d0';
  pen.fillRect(0, 0, width, height);
  pen.fillStyle = '#15181a';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.font = figuresFont(34, 700);
  const scale = width / longest;
  for (let mm = 0; mm <= longest; mm++) {
    const tall = mm % 10 === 0 ? 0.5 : mm % 5 === 0 ? 0.36 : 0.24;
    pen.fillRect(mm * scale - 0.7, 0, 1.4, height * tall);
    if (mm % 20 === 0 && mm > 0 && mm < longest - 8)
      pen.fillText(String(mm), mm * scale, height * 0.76);
  }
}
