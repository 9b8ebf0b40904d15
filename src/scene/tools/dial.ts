import { BufferAttribute, BufferGeometry, Mesh, MeshLambertMaterial } from 'three';
import { add, cross, scale, unit, type Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import { type Made, makeTool, slab, squared } from './made.ts';

const RADIUS = 28;
/** mm from the contact point to the middle of the dial */
const STEM = 66;
const PIXELS = 512;

/**
 * A dial gauge on its stand: its plunger on the contact point, its face to the eye, its needle where
 * the reading is. One turn is a millimetre, as on the drawn close-up.
 * @param out from the part toward the gauge
 * @param reading mm; null leaves the needle at nought
 */
export function makeDial(contact: Vec, out: Vec, eye: Vec, reading: number | null): Made {
  const made = makeTool();
  const face = squared(eye, out);
  const at = (along: number, toward = 0): Vec =>
    add(contact, add(scale(out, along), scale(face, toward)));
  const steel = (solid: Made['pieces'][number]['solid'], colour: string) =>
    made.pieces.push({ surface: 'steel', colour, solid });
  steel(bar(contact, at(14), 1.8, 14), COLOURS.brightSteel);
  steel(bar(at(14), at(STEM - RADIUS + 2), 4, 18), COLOURS.groundSteel);
  const shell = [
    [-12, 0],
    [-12, RADIUS - 2],
    [0, RADIUS],
    [2, RADIUS],
    [2, RADIUS - 3],
    [0.3, RADIUS - 3],
    [0.3, 0],
  ] as const;
  steel(turned(at(STEM), face, shell, { segments: 48 }), COLOURS.blackSteel);
  // arm back to a post that stands on the table
  const back = at(STEM, -34);
  const foot: Vec = [back[0], 0, back[2]];
  steel(bar(at(STEM, -11), back, 4, 16), COLOURS.groundSteel);
  steel(bar(foot, add(back, [0, 24, 0]), 5, 18), COLOURS.brightSteel);
  steel(slab(add(foot, [-25, 0, -20]), add(foot, [25, 0, -20]), [0, 34, 0], [0, 0, 40]), '#2f4a63');
  addFace(made, at(STEM, 0.6), face, out, reading ?? 0);
  return made;
}

function addFace(made: Made, middle: Vec, face: Vec, out: Vec, reading: number): void {
  const up: Vec = Math.abs(face[1]) > 0.9 ? scale(out, -1) : squared([0, 1, 0], face);
  const right = unit(cross(up, face));
  const positions: number[] = [];
  const uv: number[] = [];
  const colours: number[] = [];
  const rim = (i: number) => {
    const turn = (i * Math.PI) / 24;
    return [Math.cos(turn), Math.sin(turn)] as const;
  };
  for (let i = 0; i < 48; i++) {
    // wound so that it faces the eye: right, up and face are right-handed
    for (const [x, y] of [[0, 0] as const, rim(i), rim(i + 1)]) {
      const r = RADIUS - 3;
      positions.push(...add(middle, add(scale(right, x * r), scale(up, y * r))));
      uv.push((x + 1) / 2, (y + 1) / 2);
      colours.push(1, 1, 1);
    }
  }
  const disc = new BufferGeometry();
  disc.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  disc.setAttribute('uv', new BufferAttribute(new Float32Array(uv), 2));
  disc.setAttribute('color', new BufferAttribute(new Float32Array(colours), 3));
  disc.computeVertexNormals();
  const map = letteringTexture(PIXELS, PIXELS, (pen) => drawFace(pen, reading));
  const material = new MeshLambertMaterial({ vertexColors: true, map });
  const mesh = new Mesh(disc, material);
  mesh.name = 'tool-dial-face';
  made.extras.push(mesh);
  made.owned.push(map, material);
}

/** A hundred marks to the turn, figured every ten; the small hand counts whole turns. */
function drawFace(pen: CanvasRenderingContext2D, reading: number): void {
  const half = PIXELS / 2;
  pen.fillStyle = '#eceded';
  pen.fillRect(0, 0, PIXELS, PIXELS);
  pen.translate(half, half);
  pen.fillStyle = pen.strokeStyle = '#101315';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.font = figuresFont(40, 700);
  const ray = (turns: number, from: number, to: number, width: number, x = 0, y = 0) => {
    const [dx, dy] = [Math.sin(turns * 2 * Math.PI), -Math.cos(turns * 2 * Math.PI)];
    pen.lineWidth = width;
    pen.beginPath();
    pen.moveTo(x + dx * from * half, y + dy * from * half);
    pen.lineTo(x + dx * to * half, y + dy * to * half);
    pen.stroke();
  };
  for (let i = 0; i < 100; i++) {
    ray(i / 100, i % 10 === 0 ? 0.82 : i % 5 === 0 ? 0.86 : 0.9, 0.97, i % 10 === 0 ? 5 : 2.5);
    if (i % 10 !== 0) continue;
    const turn = (i / 100) * 2 * Math.PI;
    pen.fillText(String(i), Math.sin(turn) * half * 0.68, -Math.cos(turn) * half * 0.68);
  }
  for (let i = 0; i < 10; i++) ray(i / 10, 0.15, 0.19, 2.5, 0, half * 0.36);
  ray(reading / 10, 0, 0.14, 5, 0, half * 0.36);
  ray(reading, -0.16, 0.92, 7);
}
