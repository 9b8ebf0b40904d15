import { BufferAttribute, BufferGeometry, Group, Mesh, MeshLambertMaterial } from 'three';
import { type Bench, type Blade, collarRadius } from '../../bench/index.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';

/** Radians of the plate that the marking covers, and its height, mm. */
const SPAN = 1.5;
const STEPS = 24;
/** The share of the picture, at its left, that holds the arrow. */
const ARROW = 0.24;
/** Text and arrow turn about, each twice round the plate: middle and span, radians, and their stretch of the picture. */
const LAID = [0.74, 1.74].flatMap((turn) => [
  { middle: turn * Math.PI, span: SPAN, from: ARROW, to: 1 },
  { middle: (turn - 0.5) * Math.PI, span: (SPAN * ARROW) / (1 - ARROW), from: 0, to: ARROW },
]);

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
    2 * Math.max(32, Math.round((1024 * (1 - ARROW) * height) / (SPAN * radius))),
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

/** One row for each side of the plate: the arrow runs with the turn, so against the text on one and with it on the other. */
function etch(pen: CanvasRenderingContext2D, blade: Blade): void {
  const { width } = pen.canvas;
  const height = pen.canvas.height / 2;
  pen.clearRect(0, 0, width, height * 2);
  pen.fillStyle = 'rgba(38, 42, 46, 0.82)';
  pen.font = figuresFont(height * 0.74, 600);
  pen.textBaseline = 'middle';
  pen.textAlign = 'center';
  const hand = blade.handFeedMark === true ? '  MAN' : '';
  const text = `max ${blade.maxSpeed}/min  ${blade.diameter} × ${blade.kerf}/${blade.plate}  Z${blade.teeth}${hand}`;
  for (const [row, way] of [-1, 1].entries()) {
    const level = height * (row + 0.54);
    pen.fillText(text, width * (ARROW + (1 - ARROW) / 2), level, width * (1 - ARROW) * 0.97);
    drawArrow(pen, [width * ARROW * 0.5, level], [way * width * ARROW * 0.8, height * 0.3]);
  }
}

/** A solid arrow about `middle`, `long` from tail to head, signed the way it points. */
function drawArrow(
  pen: CanvasRenderingContext2D,
  [middle, level]: readonly [number, number],
  [long, half]: readonly [number, number],
): void {
  const tip = middle + long * 0.5;
  const neck = tip - long * 0.42;
  const end = tip - long;
  pen.beginPath();
  for (const [x, y] of [
    [tip, 0],
    [neck, half],
    [neck, half * 0.36],
    [end, half * 0.36],
    [end, -half * 0.36],
    [neck, -half * 0.36],
    [neck, -half],
  ] as const) {
    pen.lineTo(x, level + y);
  }
  pen.fill();
}

/** Text laid round the plate, upright when it stands at the top, read from either side. */
function ringGeometry(radius: number, height: number, z: number): BufferGeometry {
  const positions: number[] = [];
  const normals: number[] = [];
  const uvs: number[] = [];
  for (const side of [1, -1]) {
    for (const { middle, span, from, to } of LAID) {
      const steps = Math.ceil((STEPS * span) / SPAN);
      for (let i = 0; i < steps; i++) {
        const corner = (step: number, v: number) => {
          const along = step / steps;
          // seen from the fence side the text runs clockwise, from the other side the other way
          const angle = middle + side * span * (0.5 - along);
          const r = radius + (v - 0.5) * height;
          // the upper row of the picture is for the fence side
          const row = side > 0 ? 0.5 : 0;
          return {
            p: [r * Math.cos(angle), r * Math.sin(angle), side * z],
            t: [from + (to - from) * along, row + v / 2],
          };
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
