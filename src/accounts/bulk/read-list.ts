import { type ReadTable, readTable, type TableProblem, type TableRow } from './read-table.ts';

/** Most people in one list. */
export const MOST_ROWS = 500;
/** Most characters of a list: 500 rows of the longest names, and room for quotes. */
export const LONGEST_LIST = 200_000;

export const COLUMNS = ['name', 'role', 'group'] as const;
export type Column = (typeof COLUMNS)[number];
export type ListRow = TableRow<Column>;
export type ListProblem = TableProblem<Column>;
export type ReadList = ReadTable<Column>;

/** What the columns are called in a first line, in either language, and what office programs make of it. */
const HEADINGS: Readonly<Record<string, Column>> = {
  name: 'name',
  role: 'role',
  rolle: 'role',
  group: 'group',
  gruppe: 'group',
};

/** Reads a table of name, role and group. */
export const readList = (given: string): ReadList =>
  readTable(given, {
    columns: COLUMNS,
    headings: HEADINGS,
    needed: ['name'],
    mostRows: MOST_ROWS,
    longest: LONGEST_LIST,
  });
