import { type BenchGrade, stopsWork } from '../grading/index.ts';
import {
  isDecided,
  type Limit,
  type LimitSet,
  REMEDIES,
  type Result,
  sayLimit,
  saySettling,
  saySource,
  sayValue,
} from '../limits/index.ts';
import { alignRows, type Row } from './align-rows.ts';

export const SAY_VERDICT: Readonly<Record<Result['verdict'], string>> = {
  within: 'within',
  outside: 'OUTSIDE',
  'too-close': 'TOO CLOSE',
  'not-applicable': 'not applicable',
  advice: 'advice',
};

/** Gives each source a number, in the order of first use. */
class SourceList {
  readonly said: string[] = [];
  number(result: Result): string {
    const said = saySource(result.source);
    if (!this.said.includes(said)) this.said.push(said);
    return `[${this.said.indexOf(said) + 1}]`;
  }
}

function resultRow(result: Result, limit: Limit | undefined, sources: SourceList): Row {
  const verdict = SAY_VERDICT[result.verdict];
  return [
    stopsWork(result) ? `${verdict}, stops the work` : verdict,
    result.title,
    sayValue(result.value, result.unit, 'mm'),
    limit === undefined ? '' : sayLimit(limit, result, 'mm'),
    result.limit,
    sources.number(result),
  ];
}

/** A grade for a person at a terminal. */
export function drawGrade(grade: BenchGrade, sets: readonly LimitSet[]): string {
  const limits = new Map(sets.flatMap((set) => set.limits.map((limit) => [limit.id, limit])));
  const shown = grade.results.filter(({ verdict }) => verdict !== 'not-applicable');
  const sources = new SourceList();
  const decided = shown.filter(isDecided).length;
  const lines = [
    `${grade.fit ? 'FIT TO RUN' : 'NOT FIT TO RUN'} under ${sets.map(({ title }) => title).join(' + ')}`,
    `Score ${grade.score === null ? 'none' : grade.score.toFixed(1)} of 100 over ${decided} settings; ${grade.results.length - shown.length} limits do not apply to this job.`,
    '',
    ...alignRows([
      ['Verdict', 'Setting', 'Value', 'Limit', 'Rule', 'Source'],
      ...shown.map((result) => resultRow(result, limits.get(result.limit), sources)),
    ]),
    '',
    ...sources.said.map((said, index) => `[${index + 1}] ${said}`),
    '',
  ];
  const open = shown.flatMap((result) => {
    const said = saySettling(result, 'mm');
    return said === null ? [] : [`  ${result.title}: ${said}`];
  });
  if (open.length > 0) lines.push('Too close to call:', ...new Set(open), '');
  if (grade.faults.length === 0) lines.push('No fault found.');
  else {
    lines.push(`${grade.faults.length} found wrong:`);
    lines.push(
      ...alignRows(
        grade.faults.map((fault) => [
          fault.critical ? '  STOP' : `  ${fault.severity}`,
          fault.title,
          fault.remedies.map((id) => REMEDIES[id].title.toLowerCase()).join(', or '),
        ]),
      ),
    );
  }
  lines.push('', ...sets.map(({ title, caution }) => `${title}: ${caution}`));
  return `${lines.join('\n')}\n`;
}
