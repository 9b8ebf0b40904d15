import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  acceptInvitation,
  createOrganisation,
  fillDemoWorkshop,
  invite,
  type Outcome,
  type Refusal,
  readInvitation,
  setPassword,
  signIn,
  type Viewer,
} from '../../src/accounts/index.ts';
import { sayRefusal } from '../../src/components/say-refusal.ts';
import { sayIn } from '../../src/words/say.ts';
import {
  addMember,
  granted,
  makeTempSite,
  PASSWORD,
  refused,
  requestWith,
  setUp,
  tokenOf,
} from './temp-site.ts';

/** Refusals a person meets on a form: each has one sentence in English and one in German. */
let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;
beforeAll(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
});
afterAll(() => temp.remove());

const english = sayIn('en');
const german = sayIn('de');
const OPEN = ['{', 'undefined'];

function expectSaid(refusal: Refusal): string {
  expect(sayRefusal(refusal, english)).toBe(refusal.message);
  const said = sayRefusal(refusal, german);
  expect(said).not.toBe(refusal.message);
  for (const mark of OPEN) expect(said + refusal.message).not.toContain(mark);
  return said;
}

const workshop = { organisation: 'A', name: 'B', email: 'b@x.example', password: PASSWORD };
const try_ = (email: string, password: string, address: string | null = null, now?: Date) =>
  signIn(requestWith(), { email, password }, address, temp.site, now);

describe('the rules of a field', () => {
  it.each([
    [
      'organisation',
      '',
      'Der Name der Werkstatt muss aus 1 bis 80 Zeichen in einer Zeile bestehen.',
    ],
    ['name', 'two\nlines', 'Der Name muss aus 1 bis 80 Zeichen in einer Zeile bestehen.'],
    ['email', 'nobody', 'Die E-Mail-Adresse muss so aussehen: name@example.com.'],
    [
      'email',
      `${'a'.repeat(250)}@x.example`,
      'Die E-Mail-Adresse darf höchstens 254 Zeichen haben.',
    ],
    ['password', 'short', 'Das Passwort muss mindestens 12 Zeichen haben.'],
    ['password', 'p'.repeat(129), 'Das Passwort darf höchstens 128 Zeichen haben.'],
  ])('%s is said in German', async (field, value, said) => {
    const made = await createOrganisation({ ...workshop, [field]: value }, 'real', temp.site);
    expect(refused(made).path).toBe(field);
    expect(expectSaid(refused(made))).toBe(said);
  });

  it('asks for a password to sign in with, and for a new one of enough characters', async () => {
    expect(expectSaid(refused(await try_('first@x.example', '')))).toBe(
      'Das Passwort muss ausgefüllt sein.',
    );
    const set = refused(await setPassword(temp.site, trainer.person, 'short'));
    expect(set).toMatchObject({
      path: 'password',
      message: 'password must be at least 12 characters.',
    });
    expectSaid(set);
  });

  it('asks for a role there is', async () => {
    const asked = { role: 'guest' as 'trainee', name: 'G' };
    expectSaid(refused(await invite(trainer, asked, temp.site)));
  });
});

it('says in German why an invitation, a set-up or a sign-in is refused', async () => {
  const trainee = await addMember(temp.site, trainer, 'trainee', 'one');
  const open = granted(await invite(trainer, { role: 'trainee', name: 'two' }, temp.site));
  const token = tokenOf(open.path);
  const later = new Date(Date.now() + 8 * 24 * 3600 * 1000);
  const person = { name: 'Two', email: trainee.email, password: PASSWORD };
  const refusals: Outcome<unknown>[] = [
    await readInvitation('none', temp.site),
    await readInvitation(token, temp.site, later),
    await acceptInvitation(token, person, temp.site),
    await invite(trainee, { role: 'trainee', name: 'three' }, temp.site),
    await createOrganisation(workshop, 'real', temp.site),
    await fillDemoWorkshop(temp.site),
    await try_('first@x.example', 'not the password'),
  ];
  granted(await acceptInvitation(token, { ...person, email: 'two@x.example' }, temp.site));
  refusals.push(await readInvitation(token, temp.site));
  const said = refusals.map((one) => expectSaid(refused(one)));
  expect(new Set(said).size).toBe(refusals.length);
});

it('counts the seconds and minutes to wait in German', async () => {
  const now = new Date();
  const waits: string[] = [];
  for (let tries = 0; tries < 5; tries++) await try_('wait@x.example', 'wrong one', null, now);
  for (const seconds of [0, 4]) {
    const at = new Date(now.getTime() + seconds * 1000);
    waits.push(expectSaid(refused(await try_('wait@x.example', 'wrong one', null, at))));
  }
  expect(waits).toEqual([
    'Zu viele falsche Passwörter. Versuchen Sie es in 5 Sekunden noch einmal.',
    'Zu viele falsche Passwörter. Versuchen Sie es in 1 Sekunde noch einmal.',
  ]);
});
