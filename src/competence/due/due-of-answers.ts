import { dayOf } from '../dates.ts';
import { countsFrom } from '../log/instants.ts';
import { practiceAt } from '../practice/practice.ts';
import type { Due, DueAsked } from './due.ts';
import { makeDue } from './make-due.ts';

/** Appeals that nobody has settled. */
function openAppeals({ log, now, people }: DueAsked): Due[] {
  const here = new Set(people.map(({ person }) => person));
  const settled = new Set(
    log
      .of('appeal.settled')
      .filter((one) => countsFrom(one) <= now)
      .map(({ body }) => body.appeal),
  );
  return log
    .of('practical.answered')
    .filter((one) => one.body.answer === 'appeals' && countsFrom(one) <= now)
    .filter((one) => here.has(one.by) && !settled.has(one.id))
    .map((appeal) => {
      const signed = log
        .of('practical.signed')
        .find(({ body }) => body.signoff === appeal.body.signoff);
      const { bench, work } = signed?.body.statement ?? {};
      return makeDue({
        kind: 'appeal',
        person: appeal.by,
        bench: bench?.id ?? null,
        works: work === undefined ? [] : [work],
        of: [appeal.id],
        day: dayOf(appeal.received),
        who: ['trainer', 'employer'],
      });
    });
}

/** Practice its supervisor has still to confirm, and who practised waits for. */
const openPractice = ({ log, now, people }: DueAsked): Due[] =>
  people.flatMap(({ person }) =>
    practiceAt(log, person, now)
      .sessions.filter(({ state }) => state === 'awaits')
      .map(({ bench, endedAt, id, work }) =>
        makeDue({
          kind: 'practice',
          person,
          bench,
          works: [work],
          of: [id],
          day: dayOf(endedAt),
          who: ['trainer'],
        }),
      ),
  );

/** What somebody waits for an answer to. */
export const dueOfAnswers = (asked: DueAsked): Due[] => [
  ...openAppeals(asked),
  ...openPractice(asked),
];
