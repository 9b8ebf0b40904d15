import { leastTold, type MatrixCell } from '../../../competence/index.ts';
import { sayTold } from '../../../components/people/say-told.ts';
import type { Speaker } from '../../../words/say.ts';
import type { PackContent, PackPerson } from '../content.ts';
import type { Block } from './block.ts';

/** What one person may do at one place, as an inspector reads it: without the words anybody typed as a reason. */
export function sayCell(cell: MatrixCell | undefined, say: Speaker): string {
  if (cell === undefined) return say('pack.doc.cell.none');
  const { authorisation, because, otherwise, state, until } = cell;
  const late = otherwise === null ? '' : ` ${say('pack.doc.cell.late')}`;
  if (state === 'may' || state === 'may-supervised') {
    return say(`pack.doc.cell.${state}`, { day: say.day(until ?? '') }) + late;
  }
  if (authorisation === null) return say('pack.doc.cell.none') + late;
  const why = because.map(({ told }) => sayTold(leastTold(told), say)).join('; ');
  return say(`pack.doc.cell.${state}`, { why }) + late;
}

const rowOf = (
  { cells, name, role }: PackPerson,
  bench: PackContent['benches'][number],
  say: Speaker,
): string[] => [
  say('pack.doc.name-role', { name, role: say.maybe(`frame.role.${role}`, role) }),
  ...bench.work.map((work) =>
    sayCell(
      cells.find((cell) => cell.bench === bench.id && cell.work === work),
      say,
    ),
  ),
];

/** People by work, one table to each machine; on its side where there is much work. */
export function sayMatrix({ benches, instant, people }: PackContent, say: Speaker): Block[] {
  const isWide = benches.some(({ work }) => work.length > 4);
  return [
    { kind: 'page', turned: isWide ? 'on-its-side' : 'upright' },
    { kind: 'heading', level: 1, words: say('pack.doc.matrix') },
    { kind: 'text', words: say('pack.doc.matrix.say', { day: say.day(instant) }) },
    ...benches.flatMap((bench): Block[] => [
      { kind: 'heading', level: 2, words: `${bench.title}, ${bench.asset}` },
      ...(bench.service === 'out-of-service'
        ? [{ kind: 'notice' as const, words: say('pack.doc.out', { asset: bench.asset }) }]
        : []),
      {
        kind: 'table',
        caption: say('pack.doc.matrix.caption', { bench: `${bench.title}, ${bench.asset}` }),
        head: [
          say('people.col.person'),
          ...bench.work.map((work) => say.maybe(`names.work.${work}`, work)),
        ],
        rows: people.map((person) => rowOf(person, bench, say)),
        shares: [1.3, ...bench.work.map(() => 1)],
      },
    ]),
    ...(people.length === 0 ? [{ kind: 'text' as const, words: say('pack.doc.nobody') }] : []),
  ];
}
