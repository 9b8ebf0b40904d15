import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { codeAt } from '../../src/accounts/factors/one-time-codes.ts';
import { signOffDemo } from '../helpers/sign-off-demo.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { fillSheet, reviewSheet } from '../helpers/walk.ts';

/**
 * Passkeys, codes, sessions and links for a new password as their people meet them. The passkey is Chromium's own virtual
 * authenticator (DevTools protocol, domain WebAuthn). A passkey belongs to a domain, so the walk is on localhost.
 */
test.describe.configure({ mode: 'serial' });

const NEW_PASSWORD = 'a quite new password';
let site: Site;
let url = '';
let practical = '';
test.beforeAll(async () => {
  site = await startSite('demo');
  await signOffDemo(site, 'Mira Holt');
  url = site.url.replace('127.0.0.1', 'localhost');
});
test.afterAll(() => site.stop());

const main = (page: Page) => page.getByRole('main');
const press = (page: Page, name: string | RegExp) =>
  main(page).getByRole('button', { name }).click();

async function typePassword(page: Page, who: string, password = DEMO_PASSWORD): Promise<void> {
  await page.goto(`${url}/sign-in`);
  await page.getByLabel('E-mail').fill(`${who}@alderlane.example`);
  await page.getByLabel('Password').fill(password);
  await main(page).getByRole('button', { name: 'Sign in', exact: true }).click();
}

async function signOut(page: Page): Promise<void> {
  await page.getByRole('banner').getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL(`${url}/`);
}

/** A phone or tablet with a passkey chip, unlocked by its owner. */
async function giveAuthenticator(page: Page): Promise<{ cdp: CDPSession; id: string }> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('WebAuthn.enable');
  const { authenticatorId } = await cdp.send('WebAuthn.addVirtualAuthenticator', {
    options: {
      protocol: 'ctap2',
      transport: 'internal',
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  });
  return { cdp, id: authenticatorId };
}

const KEY = /^[A-Z2-7 ]{39}$/;
function fromBase32(text: string): Uint8Array {
  const bits = [...text.replaceAll(' ', '')]
    .map((sign) => 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'.indexOf(sign).toString(2).padStart(5, '0'))
    .join('');
  return Uint8Array.from(bits.match(/.{8}/g) ?? [], (byte) => Number.parseInt(byte, 2));
}

test('a trainer adds a passkey, signs in and signs a practical with it, and codes come after the password', async ({
  page,
}) => {
  const { cdp, id } = await giveAuthenticator(page);
  await typePassword(page, 'ruth.amsel');
  await page.waitForURL(`${url}/board`);
  await page.goto(`${url}/my-sign-in`);
  await page.getByLabel('Name for the new passkey').fill('Tablet of Ruth');
  await press(page, 'Add a passkey');
  await expect(page.getByText('Tablet of Ruth', { exact: true })).toBeVisible();

  // codes: the app scans or types the key, then shows its first code
  await press(page, 'Set up codes');
  const key = (await page.locator('#codes dd code').textContent()) ?? '';
  expect(key).toMatch(KEY);
  const secret = fromBase32(key);
  const first = codeAt(secret, new Date());
  await page.getByLabel('Code from the app').fill(first);
  await press(page, 'Put the codes in force');
  const recovery = await main(page).locator('.notice code').allInnerTexts();
  expect(recovery).toHaveLength(8);

  // the password alone no longer signs in; a code that was used neither; a recovery code once
  await signOut(page);
  await typePassword(page, 'ruth.amsel');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Second step');
  await page.getByLabel('Code').fill(first);
  await press(page, 'Go on');
  await expect(page.getByText('That code is not right, was used before, or is over')).toBeVisible();
  await page.getByLabel('Code').fill(recovery[0] ?? '');
  await press(page, 'Go on');
  await page.waitForURL(`${url}/board`);

  // a passkey counts as both steps, when its owner unlocked it
  await signOut(page);
  await page.goto(`${url}/sign-in?next=/register/`);
  await cdp.send('WebAuthn.setUserVerified', { authenticatorId: id, isUserVerified: false });
  await press(page, 'Sign in with a passkey');
  await expect(page.getByText('The passkey was not used.')).toBeVisible();
  await cdp.send('WebAuthn.setUserVerified', { authenticatorId: id, isUserVerified: true });
  await press(page, 'Sign in with a passkey');
  await page.waitForURL(`${url}/register/`);

  // at the machine it may stand in for the password, where the site is reached
  await fillSheet(page, url, 'Tom Okafor', 'Machine shop');
  await reviewSheet(page);
  await press(page, 'Sign with a passkey');
  await expect(page.getByText(/^Entered in the log|in the log/).first()).toBeVisible();
  practical = (await main(page).locator('a[href^="/practical/0"]').getAttribute('href')) ?? '';
});

test('an answer of a passkey counts once, and only for what was asked', async ({ page }) => {
  const { cdp, id } = await giveAuthenticator(page);
  await typePassword(page, 'dev.pradhan');
  await page.waitForURL(`${url}/board`);
  await page.goto(`${url}/my-sign-in`);
  await page.getByLabel('Name for the new passkey').fill('Phone');
  await press(page, 'Add a passkey');
  await expect(page.getByText('Phone', { exact: true })).toBeVisible();

  const sign = (asked: string[], sent: string[]) =>
    page.evaluate(
      async ([askedFor, sentFor]) => {
        const post = (path: string, body: unknown) =>
          fetch(path, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify(body),
          });
        const asking = await post('/api/passkeys/ask', {
          for: 'sign',
          statements: askedFor,
          key: null,
        });
        const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(await asking.json());
        const credential = await navigator.credentials.get({ publicKey });
        const passkey = (credential as PublicKeyCredential).toJSON();
        const body = { passkey, statements: sentFor, key: null };
        const replies = [];
        for (let i = 0; i < 2; i++) {
          replies.push((await post('/api/practicals/confirm', body)).status);
        }
        // a stolen answer opens no session and changes nothing either
        for (const use of ['sign-in', 'fresh']) {
          replies.push((await post('/api/passkeys/answer', { for: use, answer: passkey })).status);
        }
        return replies;
      },
      [asked, sent] as const,
    );
  const [one, two] = ['a'.repeat(64), 'b'.repeat(64)];
  expect(await sign([one], [one])).toEqual([200, 401, 401, 401]);
  expect(await sign([one], [two])).toEqual([401, 401, 401, 401]);

  // a second trainer's word on what the first one watched, by passkey alone
  await page.goto(`${url}/board`);
  const people = (await (await page.request.get(`${url}/api/people`)).json()) as {
    person: string;
    name: string;
  }[];
  const mira = people.find(({ name }) => name === 'Mira Holt')?.person;
  await page.goto(url + practical);
  await page.getByRole('radio', { name: 'I agree', exact: true }).check();
  await press(page, 'Sign with a passkey');
  await page.waitForURL(/done=cosign/);
  await expect(main(page).getByText('Dev Pradhan').first()).toBeVisible();

  // and leave in writing; a passkey that is not unlocked signs nothing
  await page.goto(`${url}/people/${mira}`);
  await main(page).locator('a[href*="/authorisations/new?"]').first().click();
  await page.getByRole('radio', { name: 'Yes', exact: true }).check();
  await press(page, 'Read it before you sign');
  await cdp.send('WebAuthn.setUserVerified', { authenticatorId: id, isUserVerified: false });
  await press(page, 'Sign with a passkey');
  await expect(page.getByText('The passkey was not used, so nothing was signed')).toBeVisible();
  await cdp.send('WebAuthn.setUserVerified', { authenticatorId: id, isUserVerified: true });
  await press(page, 'Sign with a passkey');
  await page.waitForURL(/authorisations\/0/);
  await expect(main(page).getByText('Mira Holt').first()).toBeVisible();
});

test('the employer makes a link for a trainer who lost everything, and the trainer is told', async ({
  browser,
  page,
}) => {
  await typePassword(page, 'anna.weir');
  await page.waitForURL(`${url}/who-may`);
  await page.goto(`${url}/rules`);
  await page.getByRole('radio', { name: 'Trainers', exact: true }).check();
  await press(page, 'Set the second step');
  await expect(page.getByText('The second step is set.')).toBeVisible();

  const people = await page.request.get(`${url}/api/people`);
  const list = (await people.json()) as { person: string; name: string }[];
  const ruth = list.find(({ name }) => name === 'Ruth Amsel')?.person;
  await page.goto(`${url}/people/${ruth}`);
  await page.getByRole('link', { name: 'New password for this person' }).click();
  await page.getByRole('radio', { name: /^The password, and passkeys/ }).check();
  await page.getByLabel('Your own password').fill(DEMO_PASSWORD);
  await press(page, 'Make the link');
  const link = (await main(page).locator('a.invitation-link').textContent()) ?? '';

  const other = await browser.newContext();
  const hers = await other.newPage();
  await hers.goto(link.replace('127.0.0.1', 'localhost'));
  await hers.getByLabel('New password').fill(NEW_PASSWORD);
  await press(hers, 'Set the password');
  await expect(hers.getByText('Your new password is set.')).toBeVisible();
  await hers.goto(link.replace('127.0.0.1', 'localhost'));
  await expect(hers.getByText('This link no longer works')).toBeVisible();

  // the workshop asks for a second step by now, so that comes first; then what was done is told
  await typePassword(hers, 'ruth.amsel', NEW_PASSWORD);
  await expect(hers.getByText('Your workshop asks for a second step.')).toBeVisible();
  await hers.goto(`${url}/board`);
  await hers.waitForURL(/my-sign-in/);
  await press(hers, 'Set up codes');
  const key = (await hers.locator('#codes dd code').textContent()) ?? '';
  await hers.getByLabel('Code from the app').fill(codeAt(fromBase32(key), new Date()));
  await press(hers, 'Put the codes in force');
  await expect(hers.getByText(/was set anew by a link that Anna Weir made/)).toBeVisible();
  await press(hers, 'I have read this');
  await expect(hers.getByText(/was set anew by a link/)).toHaveCount(0);
  await hers.goto(`${url}/board`);
  await expect(hers).toHaveURL(`${url}/board`);

  // from the list of sessions, here and everywhere
  await hers.goto(`${url}/my-sign-in`);
  await expect(main(hers).locator('#sessions li')).toHaveCount(1);
  await press(hers, 'Sign out everywhere');
  await hers.waitForURL(/sign-in/);
  await other.close();
});
