import type { OpenShare, Site } from '../../accounts/index.ts';
import { type Matrix, matrixAt } from '../../competence/index.ts';
import type { Workshop } from '../_desk/workshop.ts';
import type { PackRequest } from './gather.ts';
import { type MadePack, makePack } from './make-pack.ts';

/** Who might do what at an instant, of those a link shows. Employers run no machine and are left out. */
export function sharedMatrix(
  { bench, people }: Pick<OpenShare, 'bench' | 'people'>,
  { events, nameOf, people: here, units }: Workshop,
  instant: string,
): Matrix {
  const runs = here.filter(({ role }) => role !== 'employer').map(({ person }) => person);
  const log = { events, people: here, units, nameOf };
  return matrixAt(log, instant, {
    people: people.length === 0 ? runs : people,
    ...(bench === null ? {} : { benches: [bench] }),
  });
}

/** Packs made for links, kept for a short time so that a link opened again and again costs nothing. */
const made = new Map<string, { readonly at: number; readonly pack: Promise<MadePack> }>();
const KEPT_FOR = 10 * 60_000;
const MOST_KEPT = 8;

/** The pack behind a link as of now, made anew once the log has grown or ten minutes have passed. */
export async function sharedPack(
  link: OpenShare,
  request: PackRequest,
  site: Site,
  verifier: string,
): Promise<MadePack> {
  const { language, paper } = request.choice;
  const key = [link.id, language, paper, await site.store.checkpoint()].join(' ');
  const now = Date.now();
  for (const [old, { at }] of made) {
    if (now - at > KEPT_FOR || made.size >= MOST_KEPT) made.delete(old);
  }
  const known = made.get(key);
  if (known !== undefined) return known.pack;
  const pack = makePack(request, site, verifier);
  made.set(key, { at: now, pack });
  pack.catch(() => made.delete(key));
  return pack;
}
