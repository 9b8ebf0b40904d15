import { canKeep, keepNow, sendToWorker } from '../../offline/index.ts';
import { fetchKit, sayNotKept } from '../kit.ts';
import type { Reply } from '../post-json.ts';
import { deviceKeyOf, whyNoSigning } from '../store/device-key.ts';
import { askToKeepStore } from '../store/device-store.ts';
import type { DeviceLabel } from '../store/kept.ts';
import { confirmOnSite, enrol } from './enrol.ts';
import { type Readiness, readinessOf } from './readiness.ts';
import { keepVerifier } from './verifier.ts';

/** Longest wait for the worker to keep the sheet, and for a browser that lets a worker in at all, ms. */
const PATIENCE = 15_000;
const NO_WORKER = 2_000;
const POLL = 200;

/** Asks the worker for the sheet and for the course in the language of the page; waits for the sheet. */
async function keepPages(): Promise<void> {
  if (!canKeep()) return;
  // where the browser refuses workers this never comes to an end
  void keepNow()
    .then(() => sendToWorker({ do: 'keep-sheet' }))
    .catch(() => undefined);
  const started = performance.now();
  while ((await readinessOf()).page === 'none') {
    const waited = performance.now() - started;
    const isRefused =
      waited > NO_WORKER && (await navigator.serviceWorker.getRegistration()) === undefined;
    if (isRefused || waited > PATIENCE) return;
    await new Promise((wake) => setTimeout(wake, POLL));
  }
}

/**
 * Makes this device ready for the machine: with the network, once. A fresh sign-in enrols its key; then the
 * kit, a verifier of the password and the course are kept here.
 */
export async function makeReady(given: {
  readonly password: string;
  readonly device: DeviceLabel;
}): Promise<Reply<Readiness>> {
  const why = await whyNoSigning();
  if (why !== null) return { ok: false, status: 0, path: '', message: why };
  const kit = await fetchKit();
  if (!kit.ok) return kit;
  const { person, passwordSetAt } = kit.value.trainer;
  try {
    const key = await deviceKeyOf(person);
    const tickets = await confirmOnSite(given.password, [], key);
    if (!tickets.ok) return tickets;
    const enrolled = await enrol(key, given.device, tickets.value.enrolTicket);
    if (!enrolled.ok) return enrolled;
    await keepVerifier(person, given.password, passwordSetAt);
    await askToKeepStore();
  } catch (error) {
    return { ok: false, status: 0, path: '', message: sayNotKept(error) };
  }
  await keepPages().catch(() => undefined);
  return { ok: true, value: await readinessOf() };
}
