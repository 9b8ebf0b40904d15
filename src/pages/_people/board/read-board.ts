import type { Site, Viewer } from '../../../accounts/index.ts';
import { answersInCourse, readCourse } from '../../../assessment/review/index.ts';
import { type AttemptMark, newestMarks, testsByPerson } from '../../../attempts/index.ts';
import {
  type Due,
  type Practice,
  practiceOf,
  type Told,
  type WorkStatus,
} from '../../../competence/index.ts';
import { loadCourse } from '../../../components/lesson/load-course.ts';
import type { BoardRow, BoardWork } from '../../../components/people/board-row.ts';
import { mostMissed } from '../../../components/people/most-missed.ts';
import { stuckOn } from '../../../components/people/stuck-on.ts';
import { answersByPerson } from '../../../learning/index.ts';
import type { Language } from '../../../words/index.ts';
import { listAuthorisations } from '../../_desk/authorise/list.ts';
import { dueOfPeople } from '../../_desk/count-due.ts';
import { byDay, dueAtMachines } from '../../_desk/due-list.ts';
import { eventsOf } from '../../_desk/events-of.ts';
import { standingOf, type Workshop, withPeople } from '../../_desk/workshop.ts';

/** Attempts of one person that a board looks at. */
const MOST_ATTEMPTS = 12;

export type Board = {
  readonly rows: readonly BoardRow[];
  readonly due: readonly Due[];
  readonly missed: ReturnType<typeof mostMissed>;
};

type Asked = {
  readonly at: string;
  readonly language: Language;
  readonly whose: Workshop['people'];
};

/** Kinds of work a person has begun, and what each still needs first. */
function worksOf(workshop: Workshop, person: string, at: string): BoardWork[] {
  const events = eventsOf(workshop, person);
  return workshop.benches.flatMap((bench) =>
    bench.work.flatMap((work): BoardWork[] => {
      const question = { person, bench: bench.id, work, at };
      const status = standingOf({ ...workshop, events }, question);
      const held = status.because.filter(({ state }) => state === 'signed-off').length;
      const isBegun = status.because.some(({ signoff }) => signoff !== null);
      if (!isBegun) return [];
      return [{ bench, work, status, held, next: nextOf(status) }];
    }),
  );
}

/** The first unit that is not signed off, with why. */
function nextOf({ because }: WorkStatus): { title: string; number: number; told: Told } | null {
  const line = because.find(({ state }) => state !== 'signed-off');
  if (line === undefined) return null;
  return { title: line.unit.title, number: line.unit.number, told: line.told };
}

const hoursOf = ({ confirmed }: Practice): number =>
  confirmed.reduce((sum, { hours }) => sum + hours, 0);

/** Bench tasks opened, by person: what the course asks for besides answers. */
const tasksOf = (attempts: readonly AttemptMark[]): string[] => [
  ...new Set(attempts.map(({ task }) => task.id)),
];

/**
 * The trainer's board of some people from one reading of each thing: attempts, tests, answers and the course
 * are read once for all of them.
 * @param whose people of the workshop
 */
export async function readBoard(
  site: Site,
  viewer: Viewer,
  shop: Workshop,
  { at, language, whose }: Asked,
): Promise<Board> {
  const ids = whose.map(({ person }) => person);
  const workshop = await withPeople(shop, ids, site);
  const [attempts, tests, answers, course] = await Promise.all([
    newestMarks(site, viewer.org, ids, MOST_ATTEMPTS),
    testsByPerson(site, viewer.org, ids),
    answersByPerson(site, viewer.org, ids),
    loadCourse(language),
  ]);
  const lessons = course.filter(({ who }) => who === 'trainee');
  const byPerson = Map.groupBy(attempts, ({ person }) => person);
  const due = byDay([
    ...(await dueAtMachines(shop, at, site)),
    ...dueOfPeople(workshop, whose, at),
  ]);
  const dueByPerson = Map.groupBy(due, ({ person }) => person);
  const leave = Map.groupBy(
    listAuthorisations(workshop, at, ids),
    ({ statement }) => statement.who.person,
  );
  const rows = whose
    .filter(({ role }) => role === 'trainee')
    .map(({ person, name }): BoardRow => {
      const own = byPerson.get(person) ?? [];
      const learnt = answersInCourse(course, answers.get(person) ?? []);
      const progress = readCourse(course, { answers: learnt, tasks: tasksOf(own) });
      return {
        person,
        name,
        lessons: {
          done: lessons.filter(({ id }) => progress.get(id)?.isDone).length,
          all: lessons.length,
        },
        tests: tests.get(person) ?? { handedIn: 0, passed: 0, waiting: 0 },
        last: own[0] ?? null,
        attempts: own.length,
        practice: hoursOf(practiceOf(eventsOf(workshop, person), person, at)),
        works: worksOf(workshop, person, at),
        leave: (leave.get(person) ?? [])
          .filter(({ status }) => status.state !== 'ended')
          .map(({ status, statement }) => ({ status, statement })),
        due: (dueByPerson.get(person) ?? []).length,
        stuck: stuckOn(own),
      };
    });
  return { rows, due, missed: mostMissed(attempts).slice(0, 6) };
}
