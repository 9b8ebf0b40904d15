import type { StandingRow } from '../../components/people/next-step.ts';
import { standingOf, type Workshop } from '../_desk/workshop.ts';

/** Where a person stands with every kind of work on every bench of the register. */
export function standingsOf(workshop: Workshop, person: string, at: string): StandingRow[] {
  return workshop.benches.flatMap((bench) =>
    bench.work.map((work) => ({
      bench,
      work,
      status: standingOf(workshop, { person, bench: bench.id, work, at }),
    })),
  );
}
