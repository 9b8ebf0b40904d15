import type { Auth } from './auth.ts';
import { type SignInInput, SignInSchema } from './fields.ts';
import { forgetExpired } from './forget-expired.ts';
import { grant, type Outcome, refuseAs, refuseForm, type SaidAs } from './problems.ts';
import { forgetTries, type TryKeys, takeTry } from './sign-in-tries.ts';
import { getSite, type Site } from './site.ts';
import type { Viewer } from './viewer.ts';

/** The same sentence for an unknown e-mail and a wrong password: the form must not tell who is here. */
const WRONG_PAIR: SaidAs = { key: 'sign-in.wrong' };

const sayWait = (seconds: number): SaidAs =>
  seconds < 120
    ? { key: 'sign-in.wait-seconds', count: seconds }
    : { key: 'sign-in.wait-minutes', count: Math.ceil(seconds / 60) };

async function findViewer({ auth, store }: Site, headers: Headers): Promise<Viewer | null> {
  // Nobody without a cookie is looked up, so a stranger's visit never touches the session table.
  if (!headers.has('cookie')) return null;
  const found = await auth.api.getSession({ headers });
  if (found === null) return null;
  const member = await store.db
    .selectFrom('membership')
    .select(['org', 'role'])
    .where('person', '=', found.user.id)
    .executeTakeFirst();
  if (member === undefined) return null;
  return {
    person: found.user.id,
    org: member.org,
    name: found.user.name,
    email: found.user.email,
    role: member.role,
    signedInAt: found.session.createdAt.toISOString(),
  };
}

const known = new WeakMap<Request, Promise<Viewer | null>>();

/** Who sent this request, or null. Looked up once per request. Never sets a cookie. */
export async function viewerOf(request: Request, site?: Site): Promise<Viewer | null> {
  const open = site ?? (await getSite());
  const before = known.get(request);
  if (before !== undefined) return before;
  const found = findViewer(open, request.headers);
  known.set(request, found);
  return found;
}

/** Checks a password against the lock-out and the stored hash. */
export async function checkPassword<Value>(
  { store }: Site,
  keys: TryKeys,
  verify: () => Promise<Value | null>,
  now: Date,
): Promise<Outcome<Value>> {
  const wait = await takeTry(store.db, keys, now);
  if (wait > 0) return refuseAs(429, 'password', sayWait(wait));
  const value = await verify();
  if (value === null) return refuseAs(401, 'password', WRONG_PAIR);
  await forgetTries(store.db, keys, now);
  return grant(value);
}

/** Whether an error is better-auth's plain "no" rather than a fault of ours. */
function isUnauthorized(error: unknown): boolean {
  return error instanceof Error && 'statusCode' in error && Number(error.statusCode) === 401;
}

async function openSession(
  auth: Auth,
  body: { email: string; password: string },
): Promise<string[] | null> {
  try {
    const { headers } = await auth.api.signInEmail({ body, returnHeaders: true });
    return headers.getSetCookie();
  } catch (error) {
    if (isUnauthorized(error)) return null;
    throw error;
  }
}

async function endSession({ auth }: Site, headers: Headers): Promise<string[]> {
  if (!headers.has('cookie')) return [];
  const { headers: reply } = await auth.api.signOut({ headers, returnHeaders: true });
  return reply.getSetCookie();
}

/**
 * Signs in and returns the cookies to set. Always a new session: one that the browser still had is ended,
 * so a cookie planted before sign-in is worth nothing after it.
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
  const { email } = read.data;
  const cookies = await checkPassword(
    open,
    { email, address },
    () => openSession(open.auth, read.data),
    now,
  );
  if (cookies.ok) {
    await endSession(open, request.headers);
    await forgetExpired(open.store.db, now);
  }
  return cookies;
}

/** Ends the session and returns the cookies that clear it. */
export async function signOut(request: Request, site?: Site): Promise<readonly string[]> {
  return endSession(site ?? (await getSite()), request.headers);
}
