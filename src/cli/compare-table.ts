import type { RuleCell, RuleComparison, RuleRow } from '../grading/index.ts';
import { type LimitSet, sayLimit, saySource, sayValue } from '../limits/index.ts';
import { alignRows, type Row } from './align-rows.ts';
import { SAY_VERDICT } from './grade-table.ts';

const limitOf = (set: LimitSet, id: string) => set.limits.find((limit) => limit.id === id);

/** What one set says of a topic: verdict, value, figure and source of its gravest result. */
function cellRow({ set, results, stops }: RuleCell, sets: ReadonlyMap<string, LimitSet>): Row {
  const [gravest] = results;
  if (gravest === undefined) return [`  ${set}`, 'says nothing', '', '', ''];
  const limit = limitOf(sets.get(set) as LimitSet, gravest.limit);
  const verdict = SAY_VERDICT[gravest.verdict];
  return [
    `  ${set}`,
    stops ? `${verdict}, stops the work` : verdict,
    sayValue(gravest.value, gravest.unit, 'mm'),
    limit === undefined ? '' : sayLimit(limit, gravest, 'mm'),
    saySource(gravest.source),
  ];
}

/** Rows of every topic share their columns, so that figures stand below each other. */
function drawRows(rows: readonly RuleRow[], sets: ReadonlyMap<string, LimitSet>): string[] {
  const cells = rows.map(({ cells: all }) => all.map((cell) => cellRow(cell, sets)));
  const lines = alignRows(cells.flat());
  return rows.flatMap(({ topic }, row) => {
    const first = cells.slice(0, row).flat().length;
    return [topic.title, ...lines.slice(first, first + (cells[row]?.length ?? 0))];
  });
}

/** The same bench under several rules, for a person at a terminal: where they part, and why. */
export function drawComparison({ grades, rows, faults }: RuleComparison): string {
  const sets = new Map(grades.map(({ set }) => [set.id, set]));
  const flips = rows.filter(({ agreement }) => agreement === 'flips');
  const oneSided = rows.filter(({ agreement }) => agreement === 'one-sided');
  const lines = [
    'SAME BENCH, OTHER RULES',
    ...alignRows(
      grades.map(({ set, grade }) => [
        `  ${set.id}`,
        grade.fit ? 'fit to run' : 'NOT FIT TO RUN',
        grade.score === null ? 'no score' : `score ${grade.score.toFixed(1)}`,
        set.title,
      ]),
    ),
    '',
    flips.length === 0 ? 'No verdict flips between these sets.' : 'Where the verdict flips:',
    ...drawRows(flips, sets),
    '',
  ];
  if (oneSided.length > 0) {
    lines.push('Refused by some, not spoken of by others:', ...drawRows(oneSided, sets), '');
  }
  if (faults.length > 0) {
    lines.push(
      'Found wrong under some only:',
      ...alignRows(faults.map(({ fault, under }) => [`  ${fault.title}`, under.join(', ')])),
      '',
    );
  }
  return `${lines.join('\n')}\n`;
}
