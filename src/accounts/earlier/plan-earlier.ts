import { isDay } from '../../competence/index.ts';
import { type ReadTable, readTable, type TableProblem, type TableRow } from '../bulk/read-table.ts';
import { plainName } from '../groups.ts';

/** Most rows of one table, and most characters of it. */
export const MOST_EARLIER = 1_000;
export const LONGEST_EARLIER = 500_000;

const COLUMNS = ['person', 'training', 'machine', 'givenBy', 'day', 'until', 'paper'] as const;
export type EarlierColumn = (typeof COLUMNS)[number];
export type EarlierProblem = TableProblem<EarlierColumn>;
type Row = TableRow<EarlierColumn>;

export const EARLIER_MACHINES = ['saw-bench', 'other-saw', 'other-machine', 'general'] as const;
export type EarlierMachine = (typeof EARLIER_MACHINES)[number];

/** Longest words of a cell, characters. */
export const LONGEST_WORDS = { training: 120, givenBy: 80, paper: 80 } as const;
/** Nobody at work today was trained before this year. */
const FIRST_YEAR = 1950;
const LAST_YEAR = 2100;

const HEADINGS: Readonly<Record<string, EarlierColumn>> = {
  person: 'person',
  training: 'training',
  schulung: 'training',
  machine: 'machine',
  maschine: 'machine',
  'given by': 'givenBy',
  'gegeben von': 'givenBy',
  day: 'day',
  tag: 'day',
  until: 'until',
  'gültig bis': 'until',
  paper: 'paper',
  papier: 'paper',
};

/** How a kind of machine may be written: as here, or in the words of either language. */
const MACHINE_WORDS: Readonly<Record<string, EarlierMachine>> = {
  'saw-bench': 'saw-bench',
  'saw bench': 'saw-bench',
  tischkreissäge: 'saw-bench',
  'other-saw': 'other-saw',
  'other saw': 'other-saw',
  'andere säge': 'other-saw',
  'other-machine': 'other-machine',
  'other machine': 'other-machine',
  'andere maschine': 'other-machine',
  general: 'general',
  allgemein: 'general',
};

/** Somebody of the organisation, by all that a table may call them. */
export type KnownPerson = {
  readonly person: string;
  readonly name: string;
  readonly email: string;
};

/** One row to be entered. */
export type PlannedEarlier = {
  readonly row: number;
  readonly person: string;
  readonly name: string;
  readonly training: string;
  readonly machine: EarlierMachine;
  readonly givenBy: string;
  readonly day: string;
  readonly until: string | null;
  readonly paper: string;
};

export type EarlierPlan = {
  readonly good: readonly PlannedEarlier[];
  /** by row */
  readonly problems: readonly EarlierProblem[];
};

export const readEarlier = (text: string): ReadTable<EarlierColumn> =>
  readTable(text, {
    columns: COLUMNS,
    headings: HEADINGS,
    needed: ['person'],
    mostRows: MOST_EARLIER,
    longest: LONGEST_EARLIER,
  });

/** What makes two rows the same training of the same person. */
export const sameTraining = (one: {
  readonly person: string;
  readonly training: string;
  readonly day: string;
}): string => JSON.stringify([one.person, plainName(one.training), one.day]);

/** A day as 2021-05-04 or 4.5.2021; null for what is no day from 1950 to 2100. */
function dayFrom(typed: string): string | null {
  const parts = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(typed);
  const [, date = '', month = '', year = ''] = parts ?? [];
  const day = parts === null ? typed : `${year}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`;
  if (!isDay(day)) return null;
  return day >= `${FIRST_YEAR}` && day < `${LAST_YEAR + 1}` ? day : null;
}

/** What is wrong with the words of a cell, or null. */
function slipInWords(column: keyof typeof LONGEST_WORDS, typed: string): string | null {
  if (typed === '') return column === 'paper' ? null : `${column}.missing`;
  if ([...typed].length > LONGEST_WORDS[column]) return `${column}.long`;
  if (/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(typed) || !typed.isWellFormed()) return 'signs';
  // a spreadsheet that opens it again would run it
  return /^[=+\-@]/.test(typed) ? 'formula' : null;
}

function whoIs(typed: string, people: readonly KnownPerson[]): readonly KnownPerson[] {
  const plain = plainName(typed);
  return people.filter(
    ({ person, name, email }) =>
      person === typed || plainName(email) === plain || plainName(name) === plain,
  );
}

/** The problems of one row, by its columns, and what it says where there are none. */
function judgeRow(row: Row, people: readonly KnownPerson[], today: string) {
  const problems: EarlierProblem[] = [];
  const against = (column: EarlierColumn, key: string, put: EarlierProblem['put'] = {}) =>
    problems.push({ row: row.row, column, key, put });
  const found = whoIs(row.person, people);
  if (row.person === '') against('person', 'person.missing');
  else if (found.length === 0) against('person', 'person.unknown');
  else if (found.length > 1) against('person', 'person.several', { count: found.length });
  for (const column of ['training', 'givenBy', 'paper'] as const) {
    const slip = slipInWords(column, row[column]);
    if (slip !== null) against(column, slip, { most: LONGEST_WORDS[column] });
  }
  const machine = MACHINE_WORDS[row.machine.toLowerCase()];
  if (row.machine === '') against('machine', 'machine.missing');
  else if (machine === undefined) against('machine', 'machine.unknown');
  const day = dayFrom(row.day);
  const until = row.until === '' ? null : dayFrom(row.until);
  const years = { first: FIRST_YEAR, last: LAST_YEAR };
  if (row.day === '') against('day', 'day.missing');
  else if (day === null) against('day', 'day.none', years);
  else if (day > today) against('day', 'day.later');
  if (row.until !== '' && until === null) against('until', 'day.none', years);
  else if (until !== null && day !== null && until < day) against('until', 'until.before');
  const [who] = found;
  if (problems.length > 0 || who === undefined || machine === undefined || day === null) {
    return { problems, planned: null };
  }
  const { training, givenBy, paper } = row;
  const { person, name } = who;
  const planned = { row: row.row, person, name, training, machine, givenBy, day, until, paper };
  return { problems, planned };
}

/**
 * What entering a table of earlier training would do, and every reason against a row of it. Enters nothing.
 * @param stated what is stated already, as `sameTraining` says it
 * @param today the last day a training can have been
 */
export function planEarlier(
  text: string,
  known: { readonly people: readonly KnownPerson[]; readonly stated: ReadonlySet<string> },
  today: string,
): EarlierPlan {
  const { rows, problems } = readEarlier(text);
  const good: PlannedEarlier[] = [];
  const seen = new Map<string, number>();
  for (const row of rows) {
    const judged = judgeRow(row, known.people, today);
    problems.push(...judged.problems);
    if (judged.planned === null) continue;
    const same = sameTraining(judged.planned);
    const before = seen.get(same);
    const put = { before: before ?? 0 };
    if (before !== undefined) {
      problems.push({ row: row.row, column: null, key: 'twice', put });
    } else if (known.stated.has(same)) {
      problems.push({ row: row.row, column: null, key: 'stated', put: {} });
    } else good.push(judged.planned);
    seen.set(same, before ?? row.row);
  }
  problems.sort((a, b) => (a.row ?? 0) - (b.row ?? 0));
  return { good, problems };
}
