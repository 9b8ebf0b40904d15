import type { Bench } from '../../bench/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { clutterPieces } from './clutter.ts';
import { extractionPieces } from './extraction.ts';
import { floorState } from './floor-state.ts';
import { glarePieces } from './glare.ts';
import { type RackedKnife, rackSection } from './knife-rack.ts';
import { litterPieces } from './litter.ts';
import { buildPeople } from './people.ts';
import { dimmed, type RoomShades } from './place.ts';
import { roomFittings } from './room-fittings.ts';
import { frame, poured, type Section } from './sections.ts';
import { stackPieces } from './stacks.ts';
import { storagePieces } from './storage.ts';
import { furniturePieces } from './workshops.ts';

const aroundPieces = (bench: Bench, shades: RoomShades): Piece[] => [
  ...dimmed(bench, [
    ...roomFittings(bench, shades),
    ...furniturePieces(bench),
    ...storagePieces(bench),
    ...stackPieces(bench),
  ]),
  ...clutterPieces(bench),
  ...litterPieces(bench),
  ...floorState(bench),
  ...glarePieces(bench),
  ...extractionPieces(bench),
];

/**
 * What stands round the bench, to be added to one already drawn: the workshop and all that lies in it
 * as one section, so that it costs one mesh for each surface; and the people.
 */
export const createAround = (
  shades: RoomShades,
  rack: readonly RackedKnife[] = [],
): readonly Section[] => [
  poured(
    'around',
    'place',
    'bench',
    (b) => aroundPieces(b, shades),
    (b, l) => [
      frame(l),
      l.fenceFace,
      l.hoodRim,
      l.hoodDepth,
      l.tipRadius,
      l.depth,
      l.tilt,
      l.halfAtTable,
      b.guard?.rear,
      b.place,
      b.extraction,
      b.underGuard,
      b.job.stock,
      b.job.widthOfCut,
      b.controls.isolatorBlocked,
    ],
  ),
  {
    name: 'people',
    part: 'people',
    on: 'bench',
    reads: (b, l) => [b.people, b.job, b.controls, l.floor, l.halfAtTable, l.fenceFace, l.outfeed],
    shadow: 'throws',
    build: buildPeople,
  },
  ...(rack.length === 0 ? [] : [rackSection(rack)]),
];
