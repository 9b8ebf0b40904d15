import { authorisationsOf } from '../../competence/index.ts';
import type { Workshop } from './workshop.ts';

/** The people who hold an authorisation at a bench that has not ended, each once. */
export function authorisedAt(
  { people, events, units, nameOf }: Workshop,
  bench: string,
  at: string,
): string[] {
  return people
    .map(({ person }) => person)
    .filter((person) =>
      authorisationsOf({ events, person, at, units, nameOf }).some(
        ({ statement, state }) => statement.bench.id === bench && state !== 'ended',
      ),
    );
}
