import type { Day } from '../dates.ts';
import type { PracticalSigned } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { practiceAt } from '../practice/practice.ts';
import { onDay, type Told, tell } from '../told/told.ts';
import { isSignedOff, needsSecond } from './deciding.ts';
import type { Evidence } from './evidence.ts';
import type { Place, Watched } from './practicals.ts';

/** One thing asked for, and whether it is there. */
export type RuleLine = {
  readonly rule: 'practicals' | 'practice' | 'second' | 'current';
  readonly met: boolean;
  readonly told: Told;
};

/** What there is, against what a unit asks for. */
export type Weighed = {
  /** the first thing missing, as the reason a person is not there yet; null when nothing is */
  readonly missing: Told | null;
  readonly isNewEnough: (event: PracticalSigned) => boolean;
  /** every rule, with the end of the newest practical where one stands or stood */
  readonly lines: (ends: { readonly until: Day; readonly state: string } | null) => RuleLine[];
};

type Scales = {
  readonly log: Log;
  readonly now: number;
  readonly place: Place;
  readonly evidence: Evidence;
  /** newest first */
  readonly held: readonly Watched[];
  readonly waiting: readonly Watched[];
};

/** A practical that did not hold: what came before it counts no more. */
const isBreak = (one: Watched): boolean =>
  !isSignedOff(one) ||
  one.event.altered === true ||
  one.withdrawal !== null ||
  one.disagreed !== null ||
  one.stop !== null ||
  one.watchAgain;

/** The unbroken run of practicals that held, newest first. */
function runOf(held: readonly Watched[]): Watched[] {
  const end = held.findIndex(isBreak);
  return end === -1 ? [...held] : held.slice(0, end);
}

type Had = { readonly practicals: number; readonly days: readonly Day[] };

function tellPracticals({ practicals, days }: Evidence, had: Had): RuleLine {
  const met = had.practicals >= practicals && had.days.length >= days;
  const seen = { days: had.days };
  const put = { needed: practicals, days, had: had.practicals, seen };
  const some = met ? 'rule.practicals.met' : 'rule.practicals.some';
  if (practicals === 1) {
    const told = met ? tell('rule.practical.met', { seen }) : tell('rule.practical.none');
    return { rule: 'practicals', met, told };
  }
  return {
    rule: 'practicals',
    met,
    told: tell(had.practicals === 0 ? 'rule.practicals.none' : some, put),
  };
}

function practiceLine({ log, now, place, evidence }: Scales): RuleLine[] {
  const { practice } = evidence;
  if (practice === null) return [];
  const sum = practiceAt(log, place.person, now).confirmed.find(
    ({ bench, work }) => bench === place.bench && work === place.work,
  );
  const [had, hadHours] = [sum?.sessions ?? 0, sum?.hours ?? 0];
  const met = had >= practice.sessions && hadHours >= practice.hours;
  // rounded down, so that what is missing never looks as if it were there
  const shown = Math.floor(hadHours * 10) / 10;
  const put = { needed: practice.sessions, hours: practice.hours, had, hadHours: shown };
  return [
    { rule: 'practice', met, told: tell(met ? 'rule.practice.met' : 'rule.practice.some', put) },
  ];
}

/** Whether a second trainer agreed to what there is, where the organisation asks for one. */
function secondLine({ log, now, held, waiting }: Scales): RuleLine[] {
  const newest = [...waiting, ...held].find(({ event }) => needsSecond(log, event, now));
  if (newest === undefined) return [];
  const met = waiting.length === 0 && newest.agreed && newest.disagreed === null;
  return [{ rule: 'second', met, told: tell(met ? 'rule.cosign.met' : 'rule.cosign.none') }];
}

/** Holds the practicals and the practice of one place against what the unit asks for. Pure. */
export function weighEvidence(scales: Scales): Weighed {
  const { evidence, held } = scales;
  const isNewEnough = ({ body }: PracticalSigned) =>
    Number(body.statement.unit.version) >= evidence.since;
  const run = runOf(held).filter(({ event }) => isNewEnough(event));
  const days = [...new Set(run.map(({ event }) => event.body.statement.observedAt))].sort();
  const practicals = tellPracticals(evidence, { practicals: run.length, days });
  const practice = practiceLine(scales);
  const lacking = practice.find(({ met }) => !met);
  const missing = practicals.met
    ? lacking && { kind: 'too-little-practice' as const, put: lacking.told.put }
    : { kind: 'too-few' as const, put: practicals.told.put };
  return {
    missing: missing ?? null,
    isNewEnough,
    lines: (ends) => [
      practicals,
      ...practice,
      ...secondLine(scales),
      ...(ends === null
        ? []
        : [
            {
              rule: 'current' as const,
              met: ends.state === 'signed-off',
              told: tell(ends.state === 'signed-off' ? 'rule.current.met' : 'rule.current.none', {
                until: onDay(ends.until),
              }),
            },
          ]),
    ],
  };
}
