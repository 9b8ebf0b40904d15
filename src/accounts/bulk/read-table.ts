import Papa from 'papaparse';

/** Something about a table as a whole, or about a row, that stops it from being read. */
export type TableProblem<Column extends string> = {
  /** null for the whole table */
  readonly row: number | null;
  readonly column: Column | null;
  /** its sentence in the sheet of the page */
  readonly key: string;
  readonly put: Readonly<Record<string, string | number>>;
};

/** A line of the table as it stands there. `row` counts lines from 1, a heading being one. */
export type TableRow<Column extends string> = { readonly row: number } & Readonly<
  Record<Column, string>
>;

export type ReadTable<Column extends string> = {
  readonly rows: readonly TableRow<Column>[];
  readonly problems: TableProblem<Column>[];
};

export type TableShape<Column extends string> = {
  /** in the order they stand in when no heading names them */
  readonly columns: readonly Column[];
  /** what a first line may call them, in small letters, in any language */
  readonly headings: Readonly<Record<string, Column>>;
  /** the columns a heading must name; what says so is `no-COLUMN` */
  readonly needed: readonly Column[];
  readonly mostRows: number;
  /** characters */
  readonly longest: number;
};

const whole = <Column extends string>(
  key: string,
  put: TableProblem<Column>['put'] = {},
): ReadTable<Column> => ({ rows: [], problems: [{ row: null, column: null, key, put }] });

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

/**
 * Reads a table whose cells are parted by commas, semicolons or tabs. The first line may name its columns,
 * in any order; without one they stand in the order of the shape. Empty lines are passed over.
 */
export function readTable<Column extends string>(
  given: string,
  { columns: order, headings, needed, mostRows, longest }: TableShape<Column>,
): ReadTable<Column> {
  if (given.length > longest) return whole('long', { most: longest });
  const text = given.replace(/^\uFEFF/, '');
  if (text.trim() === '') return whole('empty');
  const parsed = Papa.parse<string[]>(text, {
    delimitersToGuess: [',', ';', '\t'],
    skipEmptyLines: false,
  });
  const problems = parsed.errors
    .filter(({ type }) => type === 'Quotes')
    .map(
      ({ row = 0 }): TableProblem<Column> => ({
        row: row + 1,
        column: null,
        key: 'quotes',
        put: {},
      }),
    )
    // one sentence to a row
    .filter(({ row }, i, all) => all.findIndex((one) => one.row === row) === i);
  const lines = parsed.data
    .map((cells, i) => ({ cells, row: i + 1 }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const named = (lines[0]?.cells ?? []).map((cell) => headings[cell.trim().toLowerCase()] ?? null);
  const hasHeading = (named[0] ?? null) !== null || needed.some((column) => named.includes(column));
  const missing = hasHeading ? needed.find((column) => !named.includes(column)) : undefined;
  if (missing !== undefined) return whole(`no-${missing}`);
  const body = hasHeading ? lines.slice(1) : lines;
  if (body.length === 0) return whole('empty');
  if (body.length > mostRows) return whole('rows', { most: mostRows, rows: body.length });
  const found: readonly (Column | null)[] = hasHeading ? named : order;
  const torn = new Set(problems.map(({ row }) => row));
  const rows: TableRow<Column>[] = [];
  for (const { cells, row } of body) {
    if (torn.has(row)) continue;
    const extra = cells.findIndex((cell, i) => i >= found.length && cell.trim() !== '');
    if (extra >= 0) {
      problems.push({ row, column: null, key: 'cells', put: { most: found.length } });
      continue;
    }
    const cellOf = (column: Column) => (cells[found.indexOf(column)] ?? '').trim();
    const said = Object.fromEntries(order.map((column) => [column, cellOf(column)]));
    rows.push({ row, ...(said as Record<Column, string>) });
  }
  return { rows, problems };
}
