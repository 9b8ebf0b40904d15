import type { Group } from 'three';
import type { Bench, Part } from '../../bench/index.ts';
import { type Piece, pour } from '../shape/pieces.ts';
import type { Palette } from '../surface/palette.ts';
import { buildAdjusterScales, readsAdjusters } from './adjusters.ts';
import { carriagePieces, spindlePieces } from './arbor.ts';
import { bladePieces } from './blade.ts';
import { buildBladeMarks } from './blade-marks.ts';
import { controlPieces } from './controls.ts';
import { drivePieces } from './drive.ts';
import { fencePieces, railPieces } from './fence.ts';
import { buildFenceScale } from './fence-scale.ts';
import { buildGuard } from './guard.ts';
import { guardSupportPieces } from './guard-support.ts';
import { insertPieces } from './insert.ts';
import { knifePieces } from './knife.ts';
import { type Layout, layoutOf } from './layout.ts';
import { mitreGaugePieces } from './mitre-gauge.ts';
import { packingPieces } from './packing.ts';
import { placePieces, type RoomShades } from './place.ts';
import { pushStickPieces } from './push-stick.ts';
import { standPieces } from './stand.ts';
import { stockPieces } from './stock.ts';
import { tablePieces } from './table.ts';
import { tableStatePieces } from './table-state.ts';
import { underGuardPieces } from './under-guard.ts';

/**
 * What a section hangs on: the bench itself, the parts that lean with a tilted arbor, the arbor axis,
 * or the spindle that turns.
 */
export type Carrier = 'bench' | 'leaning' | 'arbor' | 'spindle';

export type Section = {
  readonly name: string;
  readonly part: Part;
  readonly on: Carrier | ((bench: Bench) => Carrier);
  /** everything the builder reads: the section is made again when, and only when, this changes */
  readonly reads: (bench: Bench, layout: Layout) => unknown;
  /** whether it throws a shadow worth drawing: what lies under the table does not */
  readonly shadow: 'throws' | 'none';
  readonly build: (bench: Bench, palette: Palette) => Group;
};

/** A section made of pieces poured together. */
export const poured = (
  name: string,
  part: Part,
  on: Section['on'],
  pieces: (bench: Bench) => Piece[],
  reads: Section['reads'],
  shadow: Section['shadow'] = 'throws',
): Section => ({
  name,
  part,
  on,
  reads,
  shadow,
  build: (bench, palette) => {
    const group = pour(part, pieces(bench), palette);
    group.name = name;
    if (shadow === 'none') for (const mesh of group.children) mesh.castShadow = false;
    return group;
  },
});

/** What is fitted to the spindle like the blade: turned round when that is mounted backwards. */
const onSpindle = (section: Section): Section => ({
  ...section,
  build: (bench, palette) => {
    const group = section.build(bench, palette);
    if (bench.blade.mounted === 'backwards') group.rotation.y = Math.PI;
    return group;
  },
});

export const frame = ({ floor, tableFront, tableRear, halfWidth, outfeed, mouth }: Layout) => [
  floor,
  tableFront,
  tableRear,
  halfWidth,
  outfeed,
  mouth,
];

/** A knife on the arbor or its frame leans with the blade; one on the table stays upright with it. */
const knifeCarrier = (bench: Bench): Carrier =>
  bench.knife?.carriedBy === 'table' ? 'bench' : 'leaning';

const readsGuard: Section['reads'] = (b, l) => [
  b.guard,
  b.arbor,
  l.hoodRim,
  l.hoodDepth,
  l.hoodHalf,
  l.halfAtTable,
  l.tipRadius,
  l.halfWidth,
  l.floor,
  b.blade.diameter,
];

export const createSections = (shades: RoomShades): readonly Section[] => [
  poured(
    'place',
    'place',
    'bench',
    (b) => placePieces(b, shades),
    (b, l) => {
      const { setting, walkwaysMarked, light, lightAround, uniformityAround } = b.place;
      return [frame(l), setting, walkwaysMarked, light, lightAround, uniformityAround];
    },
  ),
  poured('stand', 'table', 'bench', standPieces, (b, l) => [
    frame(l),
    b.place.foundation,
    readsAdjusters(b, l),
  ]),
  {
    name: 'adjuster-scales',
    part: 'arbor',
    on: 'bench',
    reads: (b, l) => [frame(l), b.arbor.largestBlade],
    shadow: 'none',
    build: buildAdjusterScales,
  },
  poured('table', 'table', 'bench', tablePieces, (b, l) => [frame(l), b.table.level]),
  poured('table-state', 'table', 'bench', tableStatePieces, (b, l) => [
    b.table.sound,
    b.table.offcuts,
    b.table.stained,
    b.blade.kerf,
    l.mouth,
    l.halfWidth,
  ]),
  poured(
    'insert',
    'insert',
    'bench',
    insertPieces,
    (b, l) => [l.mouth, b.insert, b.blade.diameter, b.blade.kerf, b.arbor, b.knife],
    'none',
  ),
  poured('carriage', 'arbor', 'arbor', carriagePieces, (_, l) => l.depth, 'none'),
  poured(
    'spindle',
    'arbor',
    'spindle',
    spindlePieces,
    (b) => [
      b.blade.plate,
      b.blade.diameter,
      b.blade.bore,
      b.arbor.collar,
      b.arbor.flanges,
      b.arbor.nut,
      b.arbor.depth,
    ],
    'none',
  ),
  onSpindle(poured('blade', 'blade', 'spindle', bladePieces, (b) => b.blade)),
  onSpindle({
    name: 'blade-marks',
    part: 'blade',
    on: 'spindle',
    reads: (b) => [b.blade, b.arbor.collar],
    shadow: 'none',
    build: buildBladeMarks,
  }),
  poured(
    'packing',
    'insert',
    'leaning',
    packingPieces,
    (b, l) => [b.arbor.packing, l.rootRadius, l.depth, b.blade.plate],
    'none',
  ),
  poured('knife', 'knife', knifeCarrier, knifePieces, (b) => [
    b.knife,
    b.arbor.depth,
    b.blade.diameter,
  ]),
  {
    name: 'guard',
    part: 'guard',
    on: (b) => (b.guard?.leans === false ? 'bench' : 'leaning'),
    reads: (b, l) => [readsGuard(b, l), b.knife, l.guardStock, l.workLong, l.ready],
    shadow: 'throws',
    build: (bench, palette) => {
      const group = buildGuard(bench, palette);
      group.name = 'guard';
      return group;
    },
  },
  poured('guard-support', 'guard', 'bench', guardSupportPieces, readsGuard),
  poured(
    'under-guard',
    'under-guard',
    'arbor',
    underGuardPieces,
    (b, l) => [
      b.underGuard,
      b.underPlates,
      b.underPacked,
      b.arbor.collar,
      b.underPacked === true && b.blade.kerf,
      l.halfAtTable,
      b.extraction === undefined,
      l.tipRadius,
      l.depth,
      l.floor,
      b.blade.plate,
    ],
    'none',
  ),
  poured(
    'drive',
    'drive',
    'bench',
    drivePieces,
    (b, l) => [b.driveGuard, b.driveBelt, l.depth, l.floor],
    'none',
  ),
  poured('rail', 'fence', 'bench', railPieces, (_, l) => frame(l)),
  {
    name: 'fence-scale',
    part: 'fence',
    on: 'bench',
    reads: (b, l) => [frame(l), b.blade.kerf],
    shadow: 'none',
    build: buildFenceScale,
  },
  poured('fence', 'fence', 'bench', fencePieces, (b, l) => [
    b.fence,
    l.fenceFace,
    l.fenceTurn,
    l.halfAtTable,
    l.tableFront,
  ]),
  poured('stock', 'stock', 'bench', stockPieces, (b, l) => [
    b.job,
    l.halfAtTable,
    l.fenceFace,
    l.tableFront,
    l.floor,
    b.blade.kerf,
  ]),
  poured('mitre-gauge', 'fence', 'bench', mitreGaugePieces, (b, l) => [
    b.job,
    frame(l),
    l.ready,
    l.fenceFace,
    l.hoodHalf,
    b.blade.kerf,
  ]),
  poured('push-stick', 'push-stick', 'bench', pushStickPieces, (b, l) => [
    b.people.pushStick,
    b.job,
    b.controls.isolated,
    l.fenceFace,
    l.halfAtTable,
    l.tableFront,
    l.halfWidth,
  ]),
  poured('controls', 'controls', 'bench', controlPieces, (b, l) => [
    b.controls,
    frame(l),
    b.people.operator.x,
    b.people.operator.z,
    b.arbor.runDown,
    l.depth,
  ]),
];

export const carrierOf = ({ on }: Section, bench: Bench): Carrier =>
  typeof on === 'string' ? on : on(bench);

/** The part of the bench that decides a section, as text to compare. */
export const sectionKey = (section: Section, bench: Bench): string =>
  JSON.stringify([carrierOf(section, bench), section.reads(bench, layoutOf(bench))]);
