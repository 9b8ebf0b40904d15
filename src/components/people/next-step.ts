import type { AttemptRecord } from '../../attempts/index.ts';
import { addDays, dayOf, nameWork, sayDay, type WorkStatus } from '../../competence/index.ts';

/** One person's standing with one kind of work on one bench. */
export type StandingRow = {
  readonly bench: { readonly id: string; readonly asset: string; readonly title: string };
  readonly work: string;
  readonly status: WorkStatus;
};

export type NextStep = { readonly say: string; readonly href: string; readonly name: string };

/** A sign-off this close to its end is worth a word, days. */
const NOTICE_DAYS = 60;

const LESSON: NextStep = {
  say: 'Begin with the lesson on the riving knife and the guard. Then walk round a bench.',
  href: '/lessons/riving-knife',
  name: 'Open the lesson',
};

/** What spoils an attempt whatever its score: what could have hurt somebody, or a critical fault or setting missed. */
function shortfall({ grade }: AttemptRecord): string | null {
  if (grade === null) return null;
  if (grade.critical.length > 0) return 'you did something that could have hurt somebody';
  const missed = grade.missed.find(({ critical }) => critical);
  if (missed !== undefined) return `you walked past: ${missed.title.toLowerCase()}`;
  const setting = grade.settings.find(({ critical, verdict }) => critical && verdict !== 'within');
  if (setting !== undefined && setting.verdict !== 'advice') {
    return `this did not stand where the limit wants it: ${setting.title.toLowerCase()}`;
  }
  const left = grade.left.find(({ critical }) => critical);
  return left === undefined ? null : `you left this behind: ${left.title.toLowerCase()}`;
}

function stepOnScreen(
  attempts: readonly AttemptRecord[],
  tasks: readonly { readonly id: string; readonly title: string }[],
): NextStep | null {
  const graded = attempts.filter(({ grade }) => grade !== null);
  if (graded.length === 0) return LESSON;
  for (const { id, title } of tasks) {
    const href = `/bench/${id}`;
    const last = graded.find(({ task }) => task.id === id);
    if (last === undefined) {
      return { say: `You have not done this one yet: ${title}.`, href, name: title };
    }
    const why = shortfall(last);
    if (why !== null)
      return { say: `Last time ${why}. Do it once more on a fresh bench.`, href, name: title };
  }
  return null;
}

function stepBeforeEnd(standings: readonly StandingRow[], now: string): NextStep | null {
  const soon = addDays(dayOf(now), NOTICE_DAYS);
  const ending = standings
    .filter(({ status }) => status.state === 'signed-off' || status.state === 'ended')
    .filter(({ status }) => status.until !== null && status.until <= soon)
    .sort((a, b) => ((a.status.until ?? '') < (b.status.until ?? '') ? -1 : 1))[0];
  if (ending === undefined) return null;
  const { bench, work, status } = ending;
  const verb = status.state === 'ended' ? 'ended' : 'ends';
  return {
    say: `Your sign-off for ${nameWork(work)} on ${bench.title} (${bench.asset}) ${verb} on ${sayDay(status.until ?? '')}. Ask your trainer for a new practical.`,
    href: '#practicals',
    name: 'See what is signed',
  };
}

/**
 * What a trainee should do next, from their record alone.
 * @param attempts newest first
 * @param tasks in the order they are best done
 */
export function nextStep(
  attempts: readonly AttemptRecord[],
  standings: readonly StandingRow[],
  tasks: readonly { readonly id: string; readonly title: string }[],
  now: string,
): NextStep {
  const ending = stepBeforeEnd(standings, now);
  if (ending !== null) return ending;
  const onScreen = stepOnScreen(attempts, tasks);
  if (onScreen !== null) return onScreen;
  const isSigned = standings.some(({ status }) => status.state === 'signed-off');
  return isSigned
    ? {
        say: 'Keep your eye in: walk round a fresh bench now and then.',
        href: '/bench/walk-round',
        name: 'Walk round a bench',
      }
    : {
        say: 'You are ready to be watched. Ask your trainer for a practical at a real bench.',
        href: '#practicals',
        name: 'See what is signed',
      };
}
