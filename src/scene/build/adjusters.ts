import { Group, Mesh, MeshLambertMaterial } from 'three';
import type { Bench } from '../../bench/index.ts';
import { degreesToRadians } from '../../geometry/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { flatStrip } from '../shape/strip.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import { type Layout, layoutOf, TABLE_THICKNESS } from './layout.ts';

/** mm the frame stands in from the edges of the table. */
export const APRON_IN = 34;
/** The plate on the front of the frame with both scales: y and z of its corners, mm. */
const PLATE = { bottom: -152, top: -48, left: -100, right: 56 };
/** Radius at which the tilt is read about the line where blade and table meet; z of the rise pointer. */
const TILT_RADIUS = 86;
const RISE = { z: 27, foot: -145, long: 88 };
/** A turn of the wheel: mm of rise, degrees of tilt. Common practice, no source. */
const PER_TURN = { rise: 4, tilt: 3 };

/** Handwheels for rise and fall and for tilt, turned as far as they have been, and their two pointers. */
export function adjusterPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const { tableFront, halfWidth, projection, tilt } = layout;
  const x = tableFront + APRON_IN;
  const y = -TABLE_THICKNESS - 88;
  const rise = wheel(98, (layout.depth / PER_TURN.rise) * 2 * Math.PI);
  const lean = wheel(78, (bench.arbor.tilt / PER_TURN.tilt) * 2 * Math.PI);
  const aside = turnAbout('y', -Math.PI / 2);
  const at = (pieces: readonly Piece[], to: Vec, turn: (v: Vec) => Vec = (v) => v): Piece[] =>
    pieces.map((piece) => ({ ...piece, solid: movedSolid(piece.solid, turn, to) }));
  const out = (r: number, side: number) => ({
    x: -r * Math.cos(tilt) + side * Math.sin(tilt),
    y: -r * Math.sin(tilt) - side * Math.cos(tilt),
  });
  const rises = RISE.foot + projection * riseScale(bench);
  const pointer = (outline: { x: number; y: number }[], mesh: string): Piece => ({
    surface: 'enamel',
    colour: COLOURS.bakelite,
    solid: prism({ plane: 'end', outline, from: x - 5, to: x - 2 }),
    mesh,
  });
  return [
    ...at(rise, [x, y, -Math.min(165, halfWidth * 0.36)]),
    ...(halfWidth > 200
      ? at(
          lean,
          [tableFront + Math.min(440, bench.table.infeed * 0.7), y, -halfWidth + APRON_IN],
          aside,
        )
      : []),
    pointer([out(52, -4), out(52, 4), out(TILT_RADIUS, 0)], 'tilt-pointer'),
    pointer(
      [
        { x: rises - 4, y: RISE.z - 14 },
        { x: rises + 4, y: RISE.z - 14 },
        { x: rises, y: RISE.z },
      ],
      'rise-pointer',
    ),
  ];
}

/** One wheel about the x axis through the origin, standing out toward the operator. */
function wheel(radius: number, turn: number): Piece[] {
  const rim = turned(
    [-62, 0, 0],
    [-1, 0, 0],
    [
      [-8, radius - 14],
      [-6, radius - 4],
      [0, radius],
      [6, radius - 4],
      [8, radius - 14],
      [0, radius - 19],
      [-8, radius - 14],
    ],
    { segments: 40, smooth: 'profile' },
  );
  const at = (r: number, angle: number, along: number): Vec => [
    along,
    r * Math.cos(angle),
    r * Math.sin(angle),
  ];
  const spokes = [0, 1, 2].map((i) => {
    const angle = turn + (i * 2 * Math.PI) / 3 + 0.3;
    return bar(at(10, angle, -60), at(radius - 14, angle, -60), 7, 12);
  });
  const grip = turned(
    at(radius - 10, turn + 0.8, -66),
    [-1, 0, 0],
    [
      [0, 8],
      [6, 12],
      [44, 10],
      [56, 13],
      [62, 9],
      [63, 0],
    ],
    { segments: 16, smooth: 'profile' },
  );
  const paint = (solid: Solid, colour: string): Piece => ({ surface: 'enamel', colour, solid });
  return [
    { surface: 'steel', colour: COLOURS.groundSteel, solid: bar([0, 0, 0], [-78, 0, 0], 13) },
    ...[rim, ...spokes].map((solid) => paint(solid, COLOURS.machineDark)),
    paint(grip, COLOURS.bakelite),
  ];
}

/** The highest the scale goes, mm of blade above the table, and mm of scale for each. */
const riseMost = ({ arbor }: Bench): number => Math.ceil(arbor.largestBlade / 2 / 20) * 20;
const riseScale = (bench: Bench): number => RISE.long / riseMost(bench);

const PIXELS_PER_MM = 5;

/** The engraved plate: degrees of tilt round the line of the table, mm of blade above it. */
export function buildAdjusterScales(bench: Bench): Group {
  const { tableFront } = layoutOf(bench);
  const [width, height] = [PLATE.right - PLATE.left, PLATE.top - PLATE.bottom];
  const map = letteringTexture(width * PIXELS_PER_MM, height * PIXELS_PER_MM, (pen) =>
    drawPlate(pen, bench),
  );
  const material = new MeshLambertMaterial({ vertexColors: true, map });
  const geometry = flatStrip(
    [tableFront + APRON_IN - 1.2, PLATE.bottom, PLATE.left],
    [0, 0, width],
    [0, height, 0],
  );
  const mesh = new Mesh(geometry, material);
  mesh.name = 'adjuster-scales';
  mesh.userData.part = 'arbor';
  mesh.receiveShadow = true;
  const group = new Group();
  group.name = 'adjuster-scales';
  group.add(mesh);
  group.userData.owned = [material, map];
  return group;
}

function drawPlate(pen: CanvasRenderingContext2D, bench: Bench): void {
  pen.scale(PIXELS_PER_MM, PIXELS_PER_MM);
  pen.fillStyle = '#d9d8d0';
  pen.fillRect(0, 0, PLATE.right - PLATE.left, PLATE.top - PLATE.bottom);
  pen.fillStyle = pen.strokeStyle = '#15181a';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.font = figuresFont(6.4, 700);
  const at = (y: number, z: number): readonly [number, number] => [z - PLATE.left, PLATE.top - y];
  const line = (from: readonly [number, number], to: readonly [number, number]): void => {
    pen.beginPath();
    pen.moveTo(...from);
    pen.lineTo(...to);
    pen.lineWidth = 0.35;
    pen.stroke();
  };
  for (let degrees = 0; degrees <= 50; degrees++) {
    const [c, s] = [Math.cos(degreesToRadians(degrees)), Math.sin(degreesToRadians(degrees))];
    const long = degrees % 10 === 0 ? 7 : degrees % 5 === 0 ? 5 : 3;
    const on = (r: number) => at(-r * c, -r * s);
    line(on(TILT_RADIUS + 1), on(TILT_RADIUS + 1 + long));
    if (degrees % 10 === 0) pen.fillText(String(degrees), ...on(TILT_RADIUS + 12.5));
  }
  const step = riseScale(bench);
  for (let mm = 0; mm <= riseMost(bench); mm += 5) {
    const y = RISE.foot + mm * step;
    const long = mm % 20 === 0 ? 8 : mm % 10 === 0 ? 5.5 : 3.5;
    line(at(y, RISE.z + 1), at(y, RISE.z + 1 + long));
    if (mm % 20 === 0) pen.fillText(String(mm), ...at(y, RISE.z + 17));
  }
}

/** What the sections of both are made from. */
export const readsAdjusters = (bench: Bench, { depth, tilt, projection }: Layout): unknown => [
  depth,
  tilt,
  projection,
  bench.arbor.largestBlade,
];
