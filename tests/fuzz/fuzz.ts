import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { type Random, seedRandom } from '../../src/assessment/index.ts';
import { type Problem, readBench } from '../../src/bench/index.ts';
import { parseText } from '../../src/cli/grade-input.ts';
import {
  adviseFor,
  compareRules,
  gradeBench,
  readRack,
  reportGrade,
} from '../../src/grading/index.ts';
import { readFaults, readLimitSet } from '../../src/limits/index.ts';
import { loadFaultCatalogue, loadLimitSets } from '../../src/store/content-files.ts';
import { makeBenchFile } from '../helpers/bench.ts';
import { spoilText, spoilValue } from './mutate.ts';

/** What came of a run: how many files of each kind, and how many were still taken. */
export type FuzzCount = Record<string, { files: number; taken: number }>;

const sets = loadLimitSets('content', 'no-such-folder');
const catalogue = loadFaultCatalogue();
const gb = sets.get('gb');

/** A whole bench, with everything that may be left out. */
const FULL_BENCH = makeBenchFile({
  blade: {
    handFeedMark: true,
    mounted: 'right',
    condition: { cracks: [{ length: 3, at: 'rim' }] },
  },
  arbor: { motorPower: 5500, flanges: 'matched', nut: 'tight' },
  knife: { condition: 'straight', deflection: 1 },
  guard: { carriedBy: 'frame', whole: true },
  underPlates: { apart: 120, beyond: 60 },
  people: { bystander: { x: -3000, z: 800 }, operator: { age: 30 }, pushStick: { notched: true } },
  exposure: {
    noise: [
      { level: 97, hours: 0.5 },
      { level: 80, hours: 6 },
    ],
    peak: 120,
    protection: 20,
    dust: { level: 1, respirable: 0.3, wood: 'mixed' },
  },
  extraction: { kind: 'below', running: true, hose: 'sound', bag: 'room' },
  place: { storage: { stock: 'racked', solvents: false } },
});

const text = (path: string): string => readFileSync(`content/${path}`, 'utf8');
const FILES = {
  bench: {
    value: FULL_BENCH,
    json: JSON.stringify(FULL_BENCH),
    yaml: text('benches/practice-bench.yaml'),
  },
  limits: { value: parse(text('limits/eu.yaml')), yaml: text('limits/de-site.yaml') },
  faults: { value: parse(text('faults/knife.yaml')), yaml: text('faults/table.yaml') },
  rack: { value: parse(text('racks/alder-lane.yaml')), yaml: text('racks/alder-lane.yaml') },
};

/** A refusal is one sentence on one line, and not a page of it. @throws Error */
function checkRefusal({ path, message }: Problem): void {
  if (typeof path !== 'string' || !/^.+\.$/s.test(message) || message.length > 2000) {
    throw new Error(`refused in a way nobody can read: ${JSON.stringify({ path, message })}`);
  }
}

/** All that can be done with a bench, done once. @throws when anything does */
function useBench(value: unknown): boolean {
  const read = readBench(value);
  if (!read.ok) {
    checkRefusal(read.error);
    return false;
  }
  const { bench } = read;
  const grade = gradeBench({ bench, sets: [...sets.values()], catalogue, uncertainty: 0.5 });
  for (const [id, measured] of Object.entries(grade.measures)) {
    if (typeof measured === 'number' && !Number.isFinite(measured)) {
      throw new Error(`${id} is ${measured}`);
    }
  }
  const report = JSON.stringify(reportGrade(grade));
  if (/:(NaN|Infinity)/.test(report)) throw new Error('a report that is no JSON');
  if (gb !== undefined) compareRules({ bench, sets: [gb], catalogue });
  const missed = grade.results.find(({ holds }) => holds === false);
  if (missed !== undefined) adviseFor(missed, bench);
  return true;
}

function useContent(read: { ok: true } | { ok: false; error: Problem }): boolean {
  if (!read.ok) checkRefusal(read.error);
  return read.ok;
}

/** Kinds of file, each with its share in a thousand; YAML is slow to read, so there is less of it. */
const KINDS: readonly [name: string, share: number, use: (random: Random) => boolean][] = [
  ['bench values', 560, (random) => useBench(spoilValue(FILES.bench.value, random))],
  [
    'bench JSON',
    300,
    (random) => {
      const parsed = parseText(spoilText(FILES.bench.json, random));
      return parsed.ok && useBench(parsed.value);
    },
  ],
  [
    'bench YAML',
    20,
    (random) => {
      const parsed = parseText(spoilText(FILES.bench.yaml, random));
      return parsed.ok && useBench(parsed.value);
    },
  ],
  [
    'limit sets',
    50,
    (random) =>
      useContent(
        readLimitSet(spoilValue(FILES.limits.value, random), { known: sets, changes: 'any' }),
      ),
  ],
  ['fault files', 40, (random) => useContent(readFaults(spoilValue(FILES.faults.value, random)))],
  ['racks', 20, (random) => useContent(readRack(spoilValue(FILES.rack.value, random)))],
  [
    'content YAML',
    10,
    (random) => {
      const from = random.pick([FILES.limits.yaml, FILES.faults.yaml, FILES.rack.yaml]);
      const parsed = parseText(spoilText(from, random));
      if (!parsed.ok) return false;
      const extending = { known: sets, changes: 'stricter' } as const;
      return [
        readLimitSet(parsed.value, extending),
        readFaults(parsed.value),
        readRack(parsed.value),
      ]
        .map(useContent)
        .some((taken) => taken);
    },
  ],
];

const TOTAL = KINDS.reduce((sum, [, share]) => sum + share, 0);

/**
 * Spoils and reads `count` files. The same seed spoils the same files.
 * @throws Error naming the file's number and kind, so that it can be made again alone
 */
export function fuzz(seed: string, count: number, from = 0): FuzzCount {
  const counted: FuzzCount = Object.fromEntries(
    KINDS.map(([name]) => [name, { files: 0, taken: 0 }]),
  );
  for (let i = from; i < from + count; i++) {
    const random = seedRandom(`${seed} ${i}`);
    let left = random.whole(0, TOTAL - 1);
    const kind = KINDS.find(([, share]) => {
      left -= share;
      return left < 0;
    });
    if (kind === undefined) continue;
    const [name, , use] = kind;
    const counts = counted[name];
    if (counts === undefined) continue;
    counts.files += 1;
    try {
      if (use(random)) counts.taken += 1;
    } catch (error) {
      throw new Error(`file ${i} of seed "${seed}" (${name}): ${String(error)}`, { cause: error });
    }
  }
  return counted;
}
