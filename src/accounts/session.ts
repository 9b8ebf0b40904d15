import { logSecurity } from '../logging/index.ts';
import { asSite } from '../store/index.ts';
import { enterWith } from './factors/enter.ts';
import { type SignInInput, SignInSchema } from './fields.ts';
import { forgetExpired } from './forget-expired.ts';
import { personWithPassword } from './person-with-password.ts';
import { grant, type Outcome, refuseAs, refuseForm, type SaidAs } from './problems.ts';
import { endSession, findSession, type OwnSession } from './sessions/index.ts';
import { forgetTries, type TryKeys, takeTry } from './sign-in-tries.ts';
import { getSite, type Site } from './site.ts';
import type { Viewer } from './viewer.ts';

/** The same sentence for an unknown e-mail and a wrong password: the form must not tell who is here. */
const WRONG_PAIR: SaidAs = { key: 'sign-in.wrong' };

const sayWait = (seconds: number): SaidAs =>
  seconds < 120
    ? { key: 'sign-in.wait-seconds', count: seconds }
    : { key: 'sign-in.wait-minutes', count: Math.ceil(seconds / 60) };

const known = new WeakMap<Request, Promise<OwnSession | null>>();

/**
 * The session a request belongs to, or null. Looked up once per request. Unlike `viewerOf` it also tells of one that
 * is good only for setting up a second step.
 */
export async function ownSessionOf(
  request: Request,
  site?: Site,
  now: Date = new Date(),
): Promise<OwnSession | null> {
  const open = site ?? (await getSite());
  const before = known.get(request);
  if (before !== undefined) return before;
  const found = findSession(open, request.headers, now);
  known.set(request, found);
  return found;
}

/** Who sent this request, or null. Looked up once per request. Never sets a cookie. */
export async function viewerOf(
  request: Request,
  site?: Site,
  now: Date = new Date(),
): Promise<Viewer | null> {
  const session = await ownSessionOf(request, site, now);
  return session?.level === 'full' ? session.viewer : null;
}

/** Checks a password, or whatever else is guessed at, against the lock-out and then by `verify`. */
export async function checkPassword<Value>(
  { store }: Pick<Site, 'store'>,
  keys: TryKeys,
  verify: () => Promise<Value | null>,
  now: Date,
): Promise<Outcome<Value>> {
  const wait = await asSite(() => takeTry(store.db, keys, now));
  if (wait > 0) {
    logSecurity('locked-out');
    return refuseAs(429, 'password', sayWait(wait));
  }
  const value = await verify();
  if (value === null) return refuseAs(401, 'password', WRONG_PAIR);
  await asSite(() => forgetTries(store.db, keys));
  return grant(value);
}

/**
 * Signs in and returns the cookies to set: of a new session, or of a second step that is still to come. One that the
 * browser still had is ended, so a cookie planted before sign-in is worth nothing after it.
 * @param address network address of the browser, counted for the lock-out; null when not known
 */
export async function signIn(
  request: Request,
  input: SignInInput,
  address: string | null,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<readonly string[]>> {
  const read = SignInSchema.safeParse(input);
  if (!read.success) {
    return refuseForm(read.error, 'The form');
  }
  const open = site ?? (await getSite());
  const { email, password } = read.data;
  const found = await checkPassword(
    open,
    { email, address },
    () => personWithPassword(open, email, password),
    now,
  );
  if (!found.ok) {
    if (found.refusal.status === 401) logSecurity('sign-in-refused');
    return found;
  }
  await endSession(open, request.headers);
  await asSite(() => forgetExpired(open.store.db, now));
  return grant(await enterWith('password', open, found.value, request.headers, now));
}

/** Ends the session on the server and returns the cookies that clear it. */
export async function signOut(request: Request, site?: Site): Promise<readonly string[]> {
  const cleared = await endSession(site ?? (await getSite()), request.headers);
  if (cleared.length > 0) logSecurity('signed-out');
  return cleared;
}
