import {
  changePassword,
  confirmCodes,
  endOneSession,
  endSessions,
  type From,
  grant,
  knowReset,
  type Outcome,
  type OwnSession,
  organisationName,
  refuseAs,
  removeFactor,
  renewRecovery,
  type Site,
  setUpCodes,
  signInFresh,
} from '../../accounts/index.ts';

type Form = Readonly<Record<string, string>>;

/** What a form of the page did: cookies to set, recovery codes told this once, and the part to go back to. */
export type DoneHere = {
  readonly cookies: readonly string[];
  readonly recovery: readonly string[];
  readonly part: string;
};

const notFresh = () => refuseAs(403, '', { key: 'my-sign-in.fresh' });

const done = (part: string, cookies: readonly string[] = []): Outcome<DoneHere> =>
  grant({ cookies, recovery: [], part });

async function inPart(
  part: string,
  changed: Promise<
    Outcome<{ readonly cookies: readonly string[]; readonly recovery: readonly string[] }>
  >,
): Promise<Outcome<DoneHere>> {
  const outcome = await changed;
  return outcome.ok ? grant({ ...outcome.value, part }) : outcome;
}

/** What each button of the page does, by the value of `do`. */
const ACTIONS: Readonly<
  Record<
    string,
    (session: OwnSession, form: Form, from: From, site: Site) => Promise<Outcome<DoneHere>>
  >
> = {
  fresh: (session, { password = '', code = '' }, from, site) =>
    inPart('', signInFresh(session, { password, code }, from, site)),
  password: async (session, { current = '', password = '' }, from, site) => {
    const changed = await changePassword(session, { current, password }, from, site);
    return changed.ok ? done('password', changed.value) : changed;
  },
  'codes-begin': async (session, _form, _from, site) => {
    const organisation = await organisationName(session.viewer.org, site);
    const begun = await setUpCodes(session, organisation, site);
    return begun.ok ? done('codes') : begun;
  },
  'codes-confirm': (session, { code = '' }, _from, site) =>
    inPart('recovery', confirmCodes(session, code, site)),
  'codes-remove': (session, _form, from, site) =>
    inPart('codes', removeFactor(session, { kind: 'codes' }, from, site)),
  'passkey-remove': (session, { id = '' }, from, site) =>
    inPart('passkeys', removeFactor(session, { kind: 'passkey', id }, from, site)),
  recovery: (session, _form, _from, site) => inPart('recovery', renewRecovery(session, site)),
  'end-one': async ({ viewer, fresh }, { id = '' }, _from, site) => {
    if (!fresh) return notFresh();
    await endOneSession(viewer.person, id, site);
    return done('sessions');
  },
  'end-others': async ({ viewer, fresh }, _form, { headers }, site) => {
    if (!fresh) return notFresh();
    await endSessions(viewer.person, headers, site);
    return done('sessions');
  },
  'end-all': async ({ viewer, fresh }, _form, _from, site) => {
    if (!fresh) return notFresh();
    await endSessions(viewer.person, null, site);
    return done('sessions');
  },
  know: async ({ viewer }, _form, _from, site) => {
    await knowReset(viewer.person, site, new Date());
    return done('');
  },
};

/** Does what a form of the page about one's own sign-in asks for. */
export async function changeMySignIn(
  session: OwnSession,
  form: Form,
  from: From,
  site: Site,
): Promise<Outcome<DoneHere>> {
  const asked = form['do'] ?? '';
  const act = Object.hasOwn(ACTIONS, asked) ? ACTIONS[asked] : undefined;
  if (act === undefined) return refuseAs(400, '', { key: 'my-sign-in.what' });
  return act(session, form, from, site);
}
