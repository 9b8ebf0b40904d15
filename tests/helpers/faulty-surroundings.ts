import type { BenchOverrides } from './bench.ts';
import { knifeAround } from './oracle-case.ts';
import { soundUnder } from './sound-under.ts';

/** Faults of fields a bench file may leave out: fault, how, the change, and the set it takes to say so. */
type Row = readonly [fault: string, how: string, bench: BenchOverrides, set?: string];

const FITTINGS: readonly Row[] = [
  ['blade-backwards', 'teeth the wrong way', { blade: { mounted: 'backwards' } }],
  [
    'tool-not-for-hand-feed',
    'grooving without the mark',
    { job: { cut: 'groove' }, blade: { handFeedMark: false } },
  ],
  [
    'tool-not-for-hand-feed',
    'grooving without the mark under eu',
    { job: { cut: 'groove' }, blade: { handFeedMark: false } },
    'eu',
  ],
  ['broken-tooth', 'two points snapped', { blade: { condition: { broken: [3, 21] } } }],
  ['resin-build-up', 'a crust', { blade: { condition: { resin: true } } }],
  ['packing-worn', 'crumbled', { arbor: { packing: 'worn' } }],
  ['flanges-wrong', 'two sizes', { arbor: { flanges: 'unlike' } }],
  ['flanges-wrong', 'resin on them', { arbor: { flanges: 'dirty' } }],
  ['nut-loose', 'by hand', { arbor: { nut: 'loose' } }],
  ['knife-damaged', 'bent', { knife: { condition: 'bent' } }],
  ['knife-damaged', 'worn', { knife: { condition: 'worn' } }],
  ['knife-not-rigid', '2.1 mm under 500 N', { knife: { deflection: 2.1 } }, 'eu'],
  ['knife-edge-too-flat', '1 mm over', { arbor: { largestBlade: 406 } }, 'hk'],
  ['knife-edge-too-flat', '4 mm over', { arbor: { largestBlade: 400 } }, 'za'],
  ['knife-covers-too-little', 'edge 13 mm off', { ...soundUnder('jp'), ...knifeAround(13) }, 'jp'],
  ['knife-too-low', 'a 600 mm blade, tip 249 up', { ...largeBlade(249) }, 'hk'],
  [
    'guard-not-self-acting',
    'a hood that follows the work is asked for',
    { guard: { height: 50 } },
    'us',
  ],
  [
    'guard-too-high',
    '26 above the table',
    { job: { stock: { thickness: 20 } }, guard: { height: 26 } },
    'jp',
  ],
  ['guard-damaged', 'cracked', { guard: { whole: false } }],
  ['guard-on-knife', 'a 400 mm blade', { guard: { carriedBy: 'knife' } }, 'eu'],
  ['belt-slack', 'slack', { driveBelt: 'slack' }],
  ['belt-slack', 'worn', { driveBelt: 'worn' }],
  ['fence-not-straight', 'dented', { fence: { straight: false } }],
  ['fence-as-stop', 'crosscutting to length', { job: { cut: 'crosscut', stop: 'fence' } }],
  ['insert-loose', 'lifts', { insert: { firm: false } }],
  ['wide-insert', 'both gaps over 5 under de', { insert: { gaps: [5.1, 5.2] } }, 'de'],
  ['offcuts-on-table', 'splinters', { table: { offcuts: true } }],
  ['under-packed', 'chips', { underPacked: true }],
];

const PLATES = { underGuard: 'side-plates' } as const;

const AROUND: readonly Row[] = [
  ['under-plates-wrong', '151 apart', { ...PLATES, underPlates: { apart: 151, beyond: 50 } }, 'hk'],
  ['under-plates-wrong', '49 past', { ...PLATES, underPlates: { apart: 150, beyond: 49 } }, 'hk'],
  ['stop-over-blade', 'past the blade', { controls: { stopOverBlade: true } }],
  [
    'stop-over-blade',
    'past the blade under us',
    { ...soundUnder('us'), controls: { stopOverBlade: true } },
    'us',
  ],
  ['stop-dead', 'nothing happens', { controls: { stopWorks: false } }],
  ['start-open', 'stands proud', { controls: { startShrouded: false } }],
  ['isolator-unmarked', 'no name on it', { controls: { isolatorMarked: false } }],
  ['isolator-blocked', 'a trolley', { controls: { isolatorBlocked: true } }],
  ['key-left-in-lock', 'in the lock', { controls: { isolated: true, lockKey: 'in-lock' } }],
  ['glare', 'low sun', { place: { glare: true } }],
  ['light-flickers', 'one phase', { place: { flicker: true } }],
  ['dim-surround', '299 lx', { place: { lightAround: 299 } }, 'eu'],
  ['dim-surround', 'uneven', { place: { uniformityAround: 0.29 } }, 'eu'],
  ['stock-leaning', 'sheets', { place: { storage: { stock: 'leaning' } } }],
  ['blades-loose', 'on a shelf', { place: { storage: { blades: 'loose' } } }],
  ['storage-in-the-way', 'bins', { place: { storage: { blocksWay: true } } }],
  ['solvents-near', 'thinner', { place: { storage: { solvents: true } } }],
  ['stock-metal', 'nails', { job: { stock: { metal: true } } }],
  ['stock-not-flat', 'bowed', { job: { stock: { shape: 'bowed' } } }],
  ['stock-not-flat', 'cupped', { job: { stock: { shape: 'cupped' } } }],
  ['stock-not-flat', 'twisted', { job: { stock: { shape: 'twisted' } } }],
  ['round-stock-loose', 'nothing holds it', { job: { stock: { shape: 'round' } } }],
  ['round-stock-loose', 'no cradle', { job: { cradle: false, stock: { shape: 'round' } } }],
  ['loose-knots', 'dark rings', { job: { stock: { looseKnots: true } } }],
  ['push-stick-no-notch', 'square end', { people: { pushStick: { notched: false } } }],
  [
    'push-stick-no-notch',
    'square end under nz',
    { people: { pushStick: { notched: false } } },
    'nz',
  ],
  ['bystander-in-line', 'behind the operator', { people: { bystander: { x: -3000, z: 40 } } }],
  ['take-off-too-near', 'beside the table', { people: { takeOff: takeOffAt(1249) } }],
  [
    'hand-too-near',
    '119 for narrow work',
    { job: { widthOfCut: 119 }, people: { pushStick: { usedForLast: 119 } } },
    'de',
  ],
  ['gloves', 'on', { people: { operator: { gloves: true } } }],
  ['loose-hair', 'hangs', { people: { operator: { hair: 'loose' } } }],
  ['jewellery', 'a ring', { people: { operator: { jewellery: true } } }],
  ['too-young', '17', { ...soundUnder('us'), people: { operator: { age: 17 } } }, 'us'],
];

const noise = (level: number, hours = 8): BenchOverrides => ({
  exposure: { noise: [{ level, hours }] },
});
const dust = (level: number, wood: 'softwood' | 'hardwood' | 'mixed'): BenchOverrides => ({
  exposure: { dust: { level, wood } },
});

const EXPOSED: readonly Row[] = [
  ['noise-over-figure', '80 dB(A)', noise(80)],
  ['noise-over-figure', '85 dB(A) for half a shift more than allowed', noise(85.1), 'au'],
  ['noise-over-figure', '141 dB(C)', { exposure: { peak: 141 } }, 'au'],
  ['noise-over-figure', 'a dose over 100 %', { ...soundUnder('us'), ...noise(90.1) }, 'us'],
  ['dust-over-figure', 'softwood 5.1', dust(5.1, 'softwood')],
  ['dust-over-figure', 'hardwood 3.1', dust(3.1, 'hardwood')],
  ['dust-over-figure', 'oak 2.1 under eu', dust(2.1, 'hardwood'), 'eu'],
  [
    'dust-over-figure',
    'respirable 5.1 under us',
    { ...soundUnder('us'), exposure: { dust: { level: 6, respirable: 5.1, wood: 'mixed' } } },
    'us',
  ],
  ['extraction-missing', 'nothing', extracted({ kind: 'none', running: false })],
  ['extraction-off', 'no air', extracted({ running: false })],
  ['extraction-hose', 'off its spigot', extracted({ hose: 'loose' })],
  ['extraction-hose', 'split', extracted({ hose: 'split' })],
  ['extraction-full', 'caked', extracted({ bag: 'full' })],
];

/** A 600 mm blade with its knife, the tip so high above the table. */
function largeBlade(tip: number): BenchOverrides {
  return {
    blade: { diameter: 600 },
    arbor: { depth: 40, largestBlade: 620, speed: 2000 },
    knife: { edgeRadius: 305, along: 0, up: 0, reach: 40 + tip },
    guard: { front: -300, rear: 300 },
    fence: { end: -300 },
  };
}

function takeOffAt(x: number) {
  return { x, z: 0, sleeves: 'close', footwear: 'safety', eyes: 'glasses', ears: 'muffs' };
}

function extracted(over: NonNullable<BenchOverrides['extraction']>): BenchOverrides {
  return {
    extraction: { kind: 'above-and-below', running: true, hose: 'sound', bag: 'room', ...over },
  };
}

export const FAULTY_SURROUNDINGS: readonly Row[] = [...FITTINGS, ...AROUND, ...EXPOSED];
