import type { AttemptMark } from '../../attempts/index.ts';
import { addDays, dayOf, type WorkStatus } from '../../competence/index.ts';
import type { Speaker } from '../../words/say.ts';

/** One person's standing with one kind of work on one bench. */
export type StandingRow = {
  readonly bench: { readonly id: string; readonly asset: string; readonly title: string };
  readonly work: string;
  readonly status: WorkStatus;
};

export type NextStep = { readonly say: string; readonly href: string; readonly name: string };

/** A sign-off this close to its end is worth a word, days. */
const NOTICE_DAYS = 60;

/** The day, and the words to say it in. */
type Asked = { readonly now: string; readonly say: Speaker };

/** A title as it stands inside a sentence: English writes it small there. */
const within = (title: string, say: Speaker): string =>
  say.language === 'en' ? title.toLowerCase() : title;

/** What spoils an attempt whatever its score: what could have hurt somebody, or a critical fault or setting missed. */
function shortfall({ grade }: AttemptMark, say: Speaker): string | null {
  if (grade === null) return null;
  if (grade.critical.length > 0) return say('book.why.hurt');
  const missed = grade.missed.find(({ critical }) => critical);
  if (missed !== undefined) return say('book.why.missed', { title: within(missed.title, say) });
  const setting = grade.settings.find(({ critical, verdict }) => critical && verdict !== 'within');
  if (setting !== undefined && setting.verdict !== 'advice') {
    return say('book.why.setting', { title: within(setting.title, say) });
  }
  const left = grade.left.find(({ critical }) => critical);
  return left === undefined ? null : say('book.why.left', { title: within(left.title, say) });
}

function stepOnScreen(
  attempts: readonly AttemptMark[],
  tasks: readonly { readonly id: string; readonly title: string }[],
  say: Speaker,
): NextStep | null {
  const graded = attempts.filter(({ grade }) => grade !== null);
  if (graded.length === 0) {
    return {
      say: say('book.step.lesson'),
      href: '/lessons/riving-knife',
      name: say('book.step.lesson.do'),
    };
  }
  for (const { id, title } of tasks) {
    const href = `/bench/${id}`;
    const last = graded.find(({ task }) => task.id === id);
    if (last === undefined) {
      return { say: say('book.step.not-done', { title }), href, name: title };
    }
    const why = shortfall(last, say);
    if (why !== null) return { say: say('book.step.again', { why }), href, name: title };
  }
  return null;
}

function stepBeforeEnd(standings: readonly StandingRow[], { now, say }: Asked): NextStep | null {
  const soon = addDays(dayOf(now), NOTICE_DAYS);
  const ending = standings
    .filter(({ status }) => status.state === 'signed-off' || status.state === 'ended')
    .filter(({ status }) => status.until !== null && status.until <= soon)
    .sort((a, b) => ((a.status.until ?? '') < (b.status.until ?? '') ? -1 : 1))[0];
  if (ending === undefined) return null;
  const { bench, work, status } = ending;
  return {
    say: say(status.state === 'ended' ? 'book.step.ended' : 'book.step.ends', {
      work: say.maybe(`names.work.${work}`, work),
      bench: bench.title,
      asset: bench.asset,
      day: say.day(status.until ?? ''),
    }),
    href: '#practicals',
    name: say('book.step.signed.do'),
  };
}

/**
 * What a trainee should do next, from their record alone.
 * @param attempts newest first
 * @param tasks in the order they are best done
 */
export function nextStep(
  attempts: readonly AttemptMark[],
  standings: readonly StandingRow[],
  tasks: readonly { readonly id: string; readonly title: string }[],
  asked: Asked,
): NextStep {
  const { say } = asked;
  const ending = stepBeforeEnd(standings, asked);
  if (ending !== null) return ending;
  const onScreen = stepOnScreen(attempts, tasks, say);
  if (onScreen !== null) return onScreen;
  const isSigned = standings.some(({ status }) => status.state === 'signed-off');
  return isSigned
    ? {
        say: say('book.step.keep'),
        href: '/bench/walk-round',
        name: say('book.step.keep.do'),
      }
    : {
        say: say('book.step.ready'),
        href: '#practicals',
        name: say('book.step.signed.do'),
      };
}
