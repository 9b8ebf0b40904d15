import type { Speaker } from '../../../words/say.ts';
import type { MatrixReach } from './matrix-for.ts';

/** What a matrix was narrowed to, in words: for paper and for a table that leaves the site. */
export function sayChosen({ asked, groups, register }: MatrixReach, say: Speaker): string {
  const group = groups.find(({ id }) => id === asked.group);
  const bench = register.find(({ id }) => id === asked.bench);
  const chosen: [string, string | undefined][] = [
    [say('matrix.filter.person'), asked.person || undefined],
    [say('matrix.filter.group'), group?.name],
    [say('matrix.filter.bench'), bench?.asset],
    [
      say('matrix.filter.work'),
      asked.work === '' ? undefined : say.maybe(`names.work.${asked.work}`, asked.work),
    ],
    [
      say('matrix.filter.state'),
      asked.state === null ? undefined : say(`matrix.filter.state.${asked.state}`),
    ],
  ];
  const said = chosen.flatMap(([name, value]) =>
    value === undefined ? [] : [`${name}: ${value}`],
  );
  return said.length === 0 ? say('matrix.csv.nothing-chosen') : said.join('; ');
}
