import { fillDemoWorkshop, type Site } from '../../src/accounts/index.ts';
import { addDays, dayOf } from '../../src/competence/index.ts';
import { makeTempSite } from '../accounts/temp-site.ts';
import { authoriseDemo } from '../helpers/authorise-demo.ts';
import { signOffDemo } from '../helpers/sign-off-demo.ts';

export type DemoWithLeave = {
  readonly site: Site;
  readonly org: string;
  /** Mira Holt's leave, from yesterday and for 25 days more */
  readonly leave: string;
  /** Has another of the trainees signed off. */
  readonly signOff: (name: string) => Promise<string[]>;
  readonly remove: () => Promise<void>;
};

/** The invented workshop on a store of its own, in which one trainee was signed off and given leave. */
export async function openDemoWithLeave(): Promise<DemoWithLeave> {
  const { site, remove, dataDir: data, database } = await makeTempSite();
  const filled = await fillDemoWorkshop(site, 'a passphrase of some length');
  if (!filled.ok) throw new Error(filled.refusal.message);
  const row = await site.store.db.selectFrom('organisation').select('id').executeTakeFirstOrThrow();
  const beside = { data, database, url: 'http://localhost' } as never;
  const basis = await signOffDemo(beside, 'Mira Holt');
  const today = dayOf(new Date().toISOString());
  const days = { from: addDays(today, -1), until: addDays(today, 25) };
  const leave = await authoriseDemo(beside, { name: 'Mira Holt', basis, ...days });
  return { site, org: row.id, leave, signOff: (name) => signOffDemo(beside, name), remove };
}
