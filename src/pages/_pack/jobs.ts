import type { Site, Viewer } from '../../accounts/index.ts';
import type { PackRequest } from './gather.ts';
import { type MadePack, makePack } from './make-pack.ts';

/** How long a made pack is kept, minutes. It is kept in memory alone, and for whoever asked for it. */
export const KEPT_MINUTES = 15;
const MOST_KEPT = 12;
const MOST_AT_ONCE = 3;

export type PackJob = {
  readonly org: string;
  readonly person: string;
  readonly startedAt: number;
  state: 'making' | 'ready' | 'failed';
  /** records proved, of all there are to prove; 0 of 0 while the log is read */
  done: number;
  all: number;
  pack: MadePack | null;
  /** comes when it is made, or could not be */
  readonly settled: Promise<void>;
};

const jobs = new Map<string, PackJob>();

/** Lets go of what is too old, and of the oldest where there are too many. One being made is never let go. */
function tidy(now: number): void {
  for (const [id, { startedAt, state }] of jobs) {
    const isOld = now - startedAt > KEPT_MINUTES * 60_000;
    if (state !== 'making' && (isOld || jobs.size > MOST_KEPT)) jobs.delete(id);
  }
}

/**
 * Begins to make a pack, and goes on while nobody waits. The same id again is the same pack.
 * @returns whether it was begun; `busy` when enough are being made already
 */
export function startPack(
  id: string,
  viewer: Viewer,
  request: PackRequest,
  { site, verifier }: { readonly site: Site; readonly verifier: string },
): 'begun' | 'busy' {
  tidy(Date.now());
  if (jobs.has(id)) return 'begun';
  const making = [...jobs.values()].filter(({ state }) => state === 'making');
  if (making.length >= MOST_AT_ONCE) return 'busy';
  const progress = (done: number, all: number) => {
    job.done = done;
    job.all = all;
  };
  const settled = Promise.resolve()
    .then(() => makePack(request, site, verifier, progress))
    .then((pack) => {
      job.pack = pack;
      job.state = 'ready';
    })
    .catch((error: unknown) => {
      console.error(error);
      job.state = 'failed';
    });
  const { org, person } = viewer;
  const job: PackJob = {
    org,
    person,
    startedAt: Date.now(),
    state: 'making',
    done: 0,
    all: 0,
    pack: null,
    settled,
  };
  jobs.set(id, job);
  return 'begun';
}

/** A pack by its id, for whoever asked for it; null for anybody else and for one let go. */
export function packJob(id: string, viewer: Viewer): PackJob | null {
  tidy(Date.now());
  const job = jobs.get(id);
  return job?.person === viewer.person && job.org === viewer.org ? job : null;
}

/** The job once it is settled, or after so many ms. */
export const waitFor = (job: PackJob, ms: number): Promise<void> =>
  Promise.race([job.settled, new Promise<void>((done) => setTimeout(done, ms))]);
