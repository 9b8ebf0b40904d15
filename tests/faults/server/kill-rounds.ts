import type { EventDraft } from '../../../src/records/index.ts';
import { seeded } from '../../helpers/seeded.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import type { Engine } from './engine.ts';
import { findWrong } from './independent-log.ts';
import { makeOffers } from './offers.ts';
import { type Part, type Phase, playRound } from './play-round.ts';
import { startWriter, type WritingProcess } from './writing-process.ts';

export type Killed = {
  readonly rounds: number;
  /** rounds in which two or three processes wrote at once */
  readonly together: number;
  /** rounds after which no process had the store open any more */
  readonly emptied: number;
  /** processes killed before they had opened the store, while they sent what they were given, and while they wrote */
  readonly killed: Readonly<Record<Phase, number>>;
  readonly offered: number;
  readonly acknowledged: number;
  /** acknowledged to two processes that had sent it at the same moment */
  readonly acknowledgedTwice: number;
  /** offered, not acknowledged, and found in the log: the answer was lost and the event was not */
  readonly answersLost: number;
  readonly lost: number;
  readonly doubled: number;
  readonly torn: number;
  readonly wrong: readonly string[];
};

const YEAR_MS = 365 * 24 * 60 * 60 * 1000;
/** How long a process may go on writing before it is killed, and sending what it was given, ms. */
const LATE_MS = { opening: 5, given: 5, writing: 60 };

/** How many write in a round: one alone in every second, two or three in the others. */
function drawSize(round: number, random: () => number): number {
  if (round % 2 === 0) return 1;
  return random() < 0.7 ? 2 : 3;
}

function drawEnd(process: WritingProcess, random: () => number): NonNullable<Part['end']> {
  const where = random();
  const first = process.hasOpened() ? 'given' : 'opening';
  const phase = where < 0.1 ? first : where < 0.25 ? 'given' : 'writing';
  return { phase, lateMs: random() * LATE_MS[phase] };
}

/** New drafts that two processes are given at once: one event, and two that belong together. */
const drawShared = (): EventDraft[][] => [
  [draftInvitation()],
  [draftInvitation(), draftInvitation()],
];

type Scene = { round: number; engine: Engine; given: EventDraft[][] };

/** Who does what in a round. The first one always dies, and it alone has a clock that is out, in every third round. */
function castParts(crew: WritingProcess[], scene: Scene, random: () => number): Part[] {
  const { engine, given, round } = scene;
  const clockOffset = round % 3 === 0 ? Math.round((random() - 0.5) * 10 * YEAR_MS) : 0;
  return crew.map((process, at) => {
    const order = {
      place: engine.place,
      keyFile: engine.keyFile,
      given: at < 2 ? given : [],
      clockOffset: at === 0 ? clockOffset : 0,
      hands: 1 + Math.floor(random() * 4),
    };
    // in the first round somebody has to make the tables
    if (round === 0) return { process, order, end: { phase: 'writing', lateMs: LATE_MS.writing } };
    const isDoomed = at === 0 || random() < 0.3;
    return { process, order, end: isDoomed ? drawEnd(process, random) : null };
  });
}

function phaseOf(lines: readonly string[]): Phase {
  if (lines.includes('writing')) return 'writing';
  return lines.includes('open') ? 'given' : 'opening';
}

/**
 * Kills writing processes `rounds` times at moments of chance, with their clocks up to five years out, and reads the
 * store after each round without the site's code. In every second round two or three write at once and one or more of
 * them are killed. What nobody heard the answer to is sent again by two processes at the same moment where there are
 * two, and so are some new events.
 */
export async function killInRounds(
  engine: Engine,
  { rounds, seed, writer }: { rounds: number; seed: number; writer: string },
): Promise<Killed> {
  const random = seeded(seed);
  const offers = makeOffers();
  const killed = { opening: 0, given: 0, writing: 0 };
  const wrong: string[] = [];
  const answersLost = new Set<string>();
  const sums = { lost: 0, doubled: 0, torn: 0, together: 0, emptied: 0 };
  let crew: WritingProcess[] = [];
  let next = startWriter(writer);
  try {
    for (let round = 0; round < rounds && wrong.length === 0; round++) {
      const size = drawSize(round, random);
      while (crew.length < size) {
        crew.push(await next);
        next = startWriter(writer);
      }
      if (size > 1 && random() < 0.5) drawShared().forEach(offers.offer);
      const given = offers.open();
      const parts = castParts(crew.slice(0, size), { round, engine, given }, random);
      await playRound(parts);

      const said = parts.map(({ process }) => process.takeLines());
      for (const [at, { end }] of parts.entries()) {
        if (end !== null) killed[phaseOf(said[at] ?? [])]++;
      }
      crew = crew.filter((process) => !process.hasEnded());
      if (size > 1) sums.together++;
      if (!crew.some((process) => process.hasOpened())) sums.emptied++;

      const log = await engine.readLog();
      const found = [...offers.enter(said), ...findWrong(log, engine.keyFile)];
      wrong.push(...found.map((one) => `round ${round}: ${one}`));
      const compared = offers.compare(log.rows.map(({ id }) => id));
      for (const name of ['lost', 'doubled', 'torn'] as const) sums[name] += compared[name];
      for (const { id } of compared.answersLost) answersLost.add(id);
    }
  } finally {
    await Promise.all([...crew, await next].map((process) => process.kill(0)));
  }
  return { rounds, ...sums, ...offers.counts(), killed, answersLost: answersLost.size, wrong };
}
