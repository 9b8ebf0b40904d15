import Papa from 'papaparse';

/** Most people in one list. */
export const MOST_ROWS = 500;
/** Most characters of a list: 500 rows of the longest names, and room for quotes. */
export const LONGEST_LIST = 200_000;

export const COLUMNS = ['name', 'role', 'group'] as const;
export type Column = (typeof COLUMNS)[number];

/** A line of the list as it stands there. `row` counts lines of the table from 1, a heading being one. */
export type ListRow = { readonly row: number } & Readonly<Record<Column, string>>;

/** Something about the list as a whole, or about a row, that stops it from being read. */
export type ListProblem = {
  /** null for the whole list */
  readonly row: number | null;
  readonly column: Column | null;
  /** its sentence in the sheet `bulk` */
  readonly key: string;
  readonly put: Readonly<Record<string, string | number>>;
};

export type ReadList = { readonly rows: readonly ListRow[]; readonly problems: ListProblem[] };

/** What the columns are called in a first line, in either language, and what office programs make of it. */
const HEADINGS: Readonly<Record<string, Column>> = {
  name: 'name',
  role: 'role',
  rolle: 'role',
  group: 'group',
  gruppe: 'group',
};

const whole = (key: string, put: ListProblem['put'] = {}): ReadList => ({
  rows: [],
  problems: [{ row: null, column: null, key, put }],
});

/**
 * The text of a file: UTF-8, with or without its mark at the start. Null for anything else, such as the old
 * code pages of an office program, since a name would be read with wrong letters.
 */
export function decodeList(bytes: Uint8Array): string | null {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    // two bytes to a letter read as UTF-8 leave a zero beside every letter
    return text.includes('\0') ? null : text;
  } catch {
    return null;
  }
}

function columnsOf(first: readonly string[]): readonly (Column | null)[] | null {
  const named = first.map((cell) => HEADINGS[cell.trim().toLowerCase()] ?? null);
  return named[0] === null && !named.includes('name') ? null : named;
}

/**
 * Reads a table of name, role and group, cells parted by commas, semicolons or tabs. The first line may name
 * its columns, in any order; without one they stand in the order above. Empty lines are passed over.
 */
export function readList(given: string): ReadList {
  if (given.length > LONGEST_LIST) return whole('long', { most: LONGEST_LIST });
  const text = given.replace(/^\uFEFF/, '');
  if (text.trim() === '') return whole('empty');
  const parsed = Papa.parse<string[]>(text, {
    delimitersToGuess: [',', ';', '\t'],
    skipEmptyLines: false,
  });
  const problems = parsed.errors
    .filter(({ type }) => type === 'Quotes')
    .map(({ row = 0 }): ListProblem => ({ row: row + 1, column: null, key: 'quotes', put: {} }))
    // one sentence to a row
    .filter(({ row }, i, all) => all.findIndex((one) => one.row === row) === i);
  const lines = parsed.data
    .map((cells, i) => ({ cells, row: i + 1 }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const columns = columnsOf(lines[0]?.cells ?? []);
  const body = columns === null ? lines : lines.slice(1);
  if (columns !== null && !columns.includes('name')) return whole('no-name');
  if (body.length === 0) return whole('empty');
  if (body.length > MOST_ROWS) return whole('rows', { most: MOST_ROWS, rows: body.length });
  const order = columns ?? COLUMNS;
  const torn = new Set(problems.map(({ row }) => row));
  const rows: ListRow[] = [];
  for (const { cells, row } of body) {
    if (torn.has(row)) continue;
    const extra = cells.findIndex((cell, i) => i >= order.length && cell.trim() !== '');
    if (extra >= 0) {
      problems.push({ row, column: null, key: 'cells', put: { most: order.length } });
      continue;
    }
    const cellOf = (column: Column) => (cells[order.indexOf(column)] ?? '').trim();
    rows.push({ row, name: cellOf('name'), role: cellOf('role'), group: cellOf('group') });
  }
  return { rows, problems };
}
