import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { benchStateOf } from '../../competence/index.ts';
import { draftFor } from './draft-for.ts';
import { enterTogether } from './enter-together.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { shopOf, whyNotWrite } from './workshop.ts';

const why = 'must be text of 1 to 300 characters';
const ServiceSchema = z.object({
  /** made where the button is, so that pressing it twice enters once */
  id: z.uuidv7({ error: 'must be a UUID of version 7' }),
  bench: z.string({ error: 'must be a bench' }),
  /** out of service: why; back in service: what was done and how it was found sound */
  reason: z.string({ error: why }).trim().min(1, { error: why }).max(300, { error: why }),
});

export type ServiceMove = 'take-out' | 'return';

/** Takes a bench out of service, or returns it. Whoever sees a danger may take it out; a trainer returns it. */
export async function moveService(
  viewer: Viewer | null,
  move: ServiceMove,
  input: unknown,
  site: Site,
): Promise<Done<{ readonly bench: string }>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (!can(viewer, `bench.${move}`, { org: viewer.org })) {
    return refusedFor(403, '', 'machine.no.return-right');
  }
  const read = ServiceSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    if (path !== 'reason') return refused(400, path, message);
    return refusedFor(400, path, move === 'return' ? 'machine.no.done' : 'machine.no.reason');
  }
  const { id, bench, reason } = read.data;
  const { benches, events } = await shopOf(viewer.org, site);
  if (!benches.some((one) => one.id === bench)) return refusedFor(404, 'bench', 'desk.no-bench');
  const { state } = benchStateOf(events, bench, new Date().toISOString());
  const isOut = state === 'out-of-service';
  const draft =
    move === 'return'
      ? draftFor(viewer, 'bench.returned', { id, about: bench, body: { bench, done: reason } })
      : draftFor(viewer, 'bench.taken-out', { id, about: bench, body: { bench, reason } });
  // asked only of what is new: a second press finds the bench moved already, by itself
  const entered = await enterTogether(draft, site, async () => {
    if (isOut === (move === 'take-out')) {
      return refusedFor(409, '', isOut ? 'machine.no.out-already' : 'machine.no.not-out');
    }
    return { ok: true, value: [] };
  });
  return entered.ok ? { ok: true, value: { bench } } : entered;
}
