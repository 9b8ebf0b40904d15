import { benchStateAt } from '../bench-state/bench-state.ts';
import { addDays, type Day, dayOf, startOfDay } from '../dates.ts';
import { countsFrom } from '../log/instants.ts';
import type { Due, DueAsked } from './due.ts';
import { makeDue } from './make-due.ts';

/** Days back within which a bench counts as in use. Our own choice, without a source. */
const IN_USE_DAYS = 7;

/** Whether a bench was checked, practised at or watched at in the last days. */
function isInUse({ log, now, today }: DueAsked, bench: string): boolean {
  const first: Day = addDays(today, -IN_USE_DAYS);
  const days = [
    ...log
      .of('bench.checked')
      .filter((one) => one.body.bench === bench && countsFrom(one) <= now)
      .map((one) => dayOf(new Date(countsFrom(one)).toISOString())),
    ...log
      .of('practice.noted')
      .filter((one) => one.body.bench === bench && countsFrom(one) <= now)
      .map(({ body }) => dayOf(body.endedAt)),
    ...log
      .of('practical.signed')
      .filter((one) => one.body.statement.bench.id === bench && countsFrom(one) <= now)
      .map(({ body }) => body.statement.observedAt),
  ];
  return days.some((day) => day >= first && day <= today);
}

/** Machines out of service, and machines in use that nobody has checked today. */
export const dueAtBenches = (asked: DueAsked): Due[] =>
  asked.benches.flatMap(({ id }): Due[] => {
    const { lastCheck, since, state } = benchStateAt(asked.log, id, asked.now);
    if (state === 'out-of-service') {
      return [
        makeDue({
          kind: 'bench-out',
          bench: id,
          of: [id],
          day: dayOf(since ?? asked.at),
          who: ['trainer', 'employer'],
        }),
      ];
    }
    const isChecked = lastCheck !== null && Date.parse(lastCheck.at) >= startOfDay(asked.today);
    if (isChecked || !isInUse(asked, id)) return [];
    return [
      makeDue({
        kind: 'no-check',
        bench: id,
        of: [id, asked.today],
        day: asked.today,
        who: ['trainer'],
      }),
    ];
  });
