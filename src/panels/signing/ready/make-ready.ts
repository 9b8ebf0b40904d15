import { canKeep, keepNow, sendToWorker } from '../../offline/index.ts';
import { fetchKit, sayNotKept } from '../kit.ts';
import type { Reply } from '../post-json.ts';
import { deviceKeyOf, whyNoSigning } from '../store/device-key.ts';
import { askToKeepStore } from '../store/device-store.ts';
import type { DeviceLabel } from '../store/kept.ts';
import { confirmOnSite, enrol } from './enrol.ts';
import { type Readiness, readinessOf } from './readiness.ts';
import { keepVerifier } from './verifier.ts';

/** Longest wait for the worker to keep the sheet, ms, and how often it is looked at. */
const PATIENCE = 15_000;
const POLL = 300;

/** Asks the worker for the sheet and for the course in the language of the page; waits for the sheet. */
async function keepPages(): Promise<void> {
  if (!canKeep()) return;
  await keepNow();
  await sendToWorker({ do: 'keep-sheet' });
  const giveUp = performance.now() + PATIENCE;
  while ((await readinessOf()).page === 'none' && performance.now() < giveUp) {
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
