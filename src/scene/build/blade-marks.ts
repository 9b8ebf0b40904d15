import { BufferAttribute, BufferGeometry, Group, Mesh, MeshLambertMaterial } from 'three';
import type { Bench, Blade } from '../../bench/index.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import { collarRadius } from './arbor.ts';

/** Radians of the plate that the marking covers, and its height, mm. */
const SPAN = 1.5;
const STEPS = 24;

/**
 * What is etched on a marked blade: greatest speed, size, teeth, and which way it turns. On both sides,
 * once above and once below the middle, so that one is in sight wherever the blade stops.
 */
export function buildBladeMarks(bench: Bench): Group {
  const group = new Group();
  group.name = 'blade-marks';
  const { blade } = bench;
  if (!blade.condition.marked) return group;
  const root = blade.diameter / 2 - blade.gulletDepth;
  const height = Math.min(17, (root - collarRadius(bench)) * 0.24);
  const radius = Math.max(collarRadius(bench) + height, root - height * 1.6);
  if (height < 3) return group;
  const map = letteringTexture(
    1024,
    Math.max(32, Math.round((1024 * height) / (SPAN * radius))),
    (pen) => etch(pen, blade),
  );
  const material = new MeshLambertMaterial({
    vertexColors: true,
    map,
    transparent: true,
    depthWrite: false,
    polygonOffset: true,
    polygonOffsetFactor: -1,
    polygonOffsetUnits: -1,
  });
  const mesh = new Mesh(ringGeometry(radius, height, blade.plate / 2 + 0.015), material);
  mesh.name = 'blade-marks';
  mesh.userData.part = 'blade';
  mesh.receiveShadow = true;
  group.add(mesh);
  group.userData.owned = [material, map];
  return group;
}

function etch(pen: CanvasRenderingContext2D, blade: Blade): void {
  const { width, height } = pen.canvas;
  pen.clearRect(0, 0, width, height);
  pen.fillStyle = 'rgba(38, 42, 46, 0.82)';
  pen.font = figuresFont(height * 0.74, 600);
  pen.textBaseline = 'middle';
  pen.textAlign = 'center';
  const text = `max ${blade.maxSpeed}/min  ${blade.diameter} × ${blade.kerf}/${blade.plate}  Z${blade.teeth}`;
  pen.fillText(text, width * 0.54, height * 0.54, width * 0.86);
}

/** Text laid round the plate, upright when it stands at the top, read from either side. */
function ringGeometry(radius: number, height: number, z: number): BufferGeometry {
  const positions: number[] = [];
  const normals: number[] = [];
  const uvs: number[] = [];
  for (const side of [1, -1]) {
    for (const middle of [Math.PI * 0.74, Math.PI * 1.74]) {
      for (let i = 0; i < STEPS; i++) {
        const corner = (step: number, v: number) => {
          const u = step / STEPS;
          // seen from the fence side the text runs clockwise, from the other side the other way
          const angle = middle + side * SPAN * (0.5 - u);
          const r = radius + (v - 0.5) * height;
          return { p: [r * Math.cos(angle), r * Math.sin(angle), side * z], t: [u, v] };
        };
        const [a, b, c, d] = [corner(i, 0), corner(i + 1, 0), corner(i + 1, 1), corner(i, 1)];
        for (const { p, t } of [a, b, c, a, c, d]) {
          positions.push(...p);
          normals.push(0, 0, side);
          uvs.push(...t);
        }
      }
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  geometry.setAttribute('normal', new BufferAttribute(new Float32Array(normals), 3));
  geometry.setAttribute('uv', new BufferAttribute(new Float32Array(uvs), 2));
  geometry.setAttribute(
    'color',
    new BufferAttribute(new Float32Array((positions.length / 3) * 4).fill(1), 4),
  );
  geometry.computeBoundingSphere();
  return geometry;
}
