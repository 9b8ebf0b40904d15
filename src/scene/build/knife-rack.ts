import { type Group, Mesh, MeshLambertMaterial } from 'three';
import { type Bench, type Knife, knifeOutline } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import { type Piece, pour } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { flatStrip } from '../shape/strip.ts';
import { bar } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { figuresFont, letteringTexture } from '../surface/lettering.ts';
import type { Palette } from '../surface/palette.ts';
import { BOARD, CELL, CURVE, MOST, rackPlace, widthFor } from './rack-place.ts';
import type { Section } from './sections.ts';

/** A riving knife that hangs in the rack: what it is marked with and how it is shaped, mm. */
export type RackedKnife = Pick<Knife, 'thickness' | 'edgeRadius' | 'reach'>;

/** mm over and under the strip of labels. */
const LABEL = { height: 40, up: 14 };

/** Riving knives on pegs, each over its thickness, so that one can be chosen to suit the blade. */
function buildKnifeRack(bench: Bench, knives: readonly RackedKnife[], palette: Palette): Group {
  const hung = knives.slice(0, MOST);
  const middle = rackPlace(bench, hung.length);
  const width = widthFor(hung.length);
  const bottom = middle.y - BOARD.height / 2;
  const face = middle.z - BOARD.thick;
  const board: Piece = {
    surface: 'timber',
    colour: COLOURS.stick,
    solid: box(
      [middle.x - width / 2, bottom, face],
      [middle.x + width / 2, bottom + BOARD.height, middle.z],
      2,
    ),
  };
  // seen from the bench the first hangs on the left, at the greater x
  const across = (i: number): number => middle.x - CURVE + ((hung.length - 1) / 2 - i) * CELL;
  const group = pour(
    'place',
    [board, ...hung.flatMap((knife, i) => hang(knife, across(i), bottom, face))],
    palette,
  );
  group.name = 'knife-rack';
  const map = letteringTexture(width * 3, LABEL.height * 3, (pen) => label(pen, hung, width));
  const material = new MeshLambertMaterial({ vertexColors: true, map });
  const strip = new Mesh(
    flatStrip(
      [middle.x + width / 2, bottom + LABEL.up, face - 1],
      [-width, 0, 0],
      [0, LABEL.height, 0],
    ),
    material,
  );
  strip.name = 'rack-labels';
  strip.userData.part = 'place';
  group.add(strip);
  group.userData.owned = [material, map];
  return group;
}

/** @param knives riving knives that hang by the bench */
export const rackSection = (knives: readonly RackedKnife[]): Section => ({
  name: 'knife-rack',
  part: 'place',
  on: 'bench',
  reads: (_, l) => [l.outfeed, l.halfWidth],
  shadow: 'none',
  build: (bench, palette) => buildKnifeRack(bench, knives, palette),
});

/** One knife, tip up, its slot over a peg; turned about so that it reads from the bench. */
function hang(racked: RackedKnife, x: number, bottom: number, face: number): Piece[] {
  const depth = racked.edgeRadius * 0.5;
  const { outline, slot } = knifeOutline(
    {
      ...racked,
      along: 0,
      up: 0,
      lateral: 0,
      play: 0,
      carriedBy: 'arbor',
      locked: true,
    },
    depth,
  );
  const low = Math.min(...outline.map((p) => p.y));
  const peg = slot[2] as Point;
  const middle = ((slot[2] as Point).x + (slot[3] as Point).x) / 2;
  const foot = bottom + LABEL.up + LABEL.height + 16 - low;
  const place = (p: Point): Point => ({ x: x - (p.x - middle), y: p.y + foot });
  return [
    {
      surface: 'steel',
      colour: COLOURS.knifeSteel,
      solid: prism({
        plane: 'side',
        outline: outline.map(place),
        holes: [slot.map(place)],
        from: face - 5 - racked.thickness,
        to: face - 5,
        chamfer: 0.3,
      }),
      mesh: 'rack-knives',
      grain: 'y',
    },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: bar([x, peg.y + foot - 6, face], [x, peg.y + foot - 6, face - 34], 5, 12),
    },
  ];
}

function label(pen: CanvasRenderingContext2D, knives: readonly RackedKnife[], width: number): void {
  pen.scale(3, 3);
  pen.fillStyle = '#d9d8d0';
  pen.fillRect(0, 0, width, LABEL.height);
  pen.fillStyle = '#15181a';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  knives.forEach(({ thickness, edgeRadius }, i) => {
    const x = width / 2 + CURVE + (i - (knives.length - 1) / 2) * CELL;
    pen.font = figuresFont(20, 700);
    pen.fillText(`${thickness.toFixed(1)} mm`, x, 13);
    pen.font = figuresFont(12, 600);
    pen.fillText(`R ${Math.round(edgeRadius)}`, x, 31);
  });
}
