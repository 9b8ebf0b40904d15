import Papa from 'papaparse';
import type { Site } from '../../../accounts/index.ts';
import type { MatrixCell } from '../../../competence/index.ts';
import { isAskedFor } from '../../../competence/index.ts';
import { sayTold } from '../../../components/people/say-told.ts';
import type { Speaker } from '../../../words/say.ts';
import { type MatrixReach, type MatrixRow, PEOPLE_A_PAGE, rowsOf } from './matrix-for.ts';
import { sayChosen } from './say-chosen.ts';

/** The columns, in order. */
const COLUMNS = [
  'person-id',
  'person',
  'role',
  'bench',
  'bench-id',
  'work',
  'state',
  'state-words',
  'since',
  'until',
  'authorisation',
  'by-id',
  'by',
  'units',
  'reasons',
  'later',
] as const;

/** What a table says of itself and of names. */
export type CsvAbout = {
  readonly org: string;
  readonly organisation: string;
  /** signed note of the log the table was made from */
  readonly checkpoint: string;
  /** names stand in it only for those who may see them */
  readonly names: 'names' | 'none';
  readonly say: Speaker;
};

/**
 * Lines of a table after RFC 4180. A cell that an office program would take for a formula begins with an
 * apostrophe (OWASP, CSV injection).
 */
const toLines = (rows: readonly (readonly string[])[]): string =>
  `${Papa.unparse(
    rows.map((row) => [...row]),
    { escapeFormulae: true, newline: '\r\n' },
  )}\r\n`;

/** A line about the table, as wide as the others: every line has the same number of fields (RFC 4180, 2.4). */
const wide = (...cells: string[]): string[] => COLUMNS.map((_, place) => cells[place] ?? '');

/** What stands above the lines: instant, filters, limit sets, the signed state of the log. */
function headLines(reach: MatrixReach, { checkpoint, organisation, say }: CsvAbout): string[][] {
  const limits = reach.benches.map(({ asset, limits: set }) => `${asset}: ${set}`).join('; ');
  return [
    wide(say('matrix.csv.organisation'), organisation),
    wide(say('matrix.csv.as-of'), reach.instant),
    wide(say('matrix.csv.known'), say(`matrix.filter.known.${reach.asked.known}`)),
    wide(say('matrix.csv.chosen'), sayChosen(reach, say)),
    wide(say('matrix.csv.limits'), limits),
    wide(say('matrix.csv.checkpoint'), checkpoint),
    wide(say('matrix.csv.note'), say('matrix.say', { organisation })),
    wide(),
    COLUMNS.map((column) => say(`matrix.csv.${column}`)),
  ];
}

function lineOf(row: MatrixRow, cell: MatrixCell, reach: MatrixReach, about: CsvAbout): string[] {
  const { names, say } = about;
  const bench = reach.register.find(({ id }) => id === cell.bench);
  const called = (person: string) => (names === 'names' ? reach.nameOf(person) : '');
  const held = cell.status.because.filter(({ state }) => state === 'signed-off').length;
  const said: Record<(typeof COLUMNS)[number], string> = {
    'person-id': row.person,
    person: called(row.person),
    role: row.role === null ? '' : say.maybe(`frame.role.${row.role}`, row.role),
    bench: bench?.asset ?? '',
    'bench-id': cell.bench,
    work: say.maybe(`names.work.${cell.work}`, cell.work),
    state: cell.state,
    'state-words': say(`matrix.state.${cell.state}`),
    since: cell.since ?? '',
    until: cell.until ?? '',
    authorisation: cell.authorisation?.id ?? '',
    'by-id': cell.authorisation?.by ?? '',
    by: cell.authorisation === null ? '' : called(cell.authorisation.by),
    units: `${held}/${cell.status.because.length}`,
    reasons: cell.because.map(({ told }) => sayTold(told, say)).join('; '),
    later: cell.later.map(({ event, kind, received }) => `${received} ${kind} ${event}`).join('; '),
  };
  return COLUMNS.map((column) => said[column]);
}

/**
 * The matrix as a table, part by part: the mark that lets office programs read it as UTF-8 (without it they
 * take names with other letters for another code), lines about the table, then one line for each person,
 * bench and kind of work asked for.
 */
export async function* writeMatrixCsv(
  reach: MatrixReach,
  about: CsvAbout,
  site: Site,
): AsyncGenerator<string> {
  yield `\uFEFF${toLines(headLines(reach, about))}`;
  for (let at = 0; at < reach.people.length; at += PEOPLE_A_PAGE) {
    const some = reach.people.slice(at, at + PEOPLE_A_PAGE);
    const { rows } = await rowsOf(reach, some, about.org, site);
    const lines = rows.flatMap((row) =>
      row.cells
        .filter((cell) => isAskedFor(cell, reach.instant, reach.asked.state ?? undefined))
        .map((cell) => lineOf(row, cell, reach, about)),
    );
    if (lines.length > 0) yield toLines(lines);
  }
}
