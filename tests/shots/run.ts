import { mkdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type Browser, type BrowserContextOptions, chromium, type Page } from '@playwright/test';
import { CHROMIUM_FLAGS, findChromium } from '../helpers/find-chromium.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { fillSheet, handInAttempt, reviewSheet, signInToDemo, signSheet } from '../helpers/walk.ts';

/**
 * `npm run shots [WORD]`: a picture of every screen (or those whose name holds WORD) in five looks,
 * into the git-ignored folder `shots`. For people to look at; nothing is compared.
 */
const OUT = resolve(import.meta.dirname, '../../shots');

type Look = {
  readonly name: string;
  readonly options: BrowserContextOptions;
  readonly print?: true;
};
const LOOKS: readonly Look[] = [
  { name: '1440', options: { viewport: { width: 1440, height: 900 } } },
  { name: '1024', options: { viewport: { width: 1024, height: 768 }, hasTouch: true } },
  { name: '390', options: { viewport: { width: 390, height: 844 }, hasTouch: true } },
  { name: 'dark', options: { viewport: { width: 1440, height: 900 }, colorScheme: 'dark' } },
  { name: 'print', options: { viewport: { width: 794, height: 1123 } }, print: true },
];

type Who = 'nobody' | 'ruth.amsel' | 'mira.holt' | 'anna.weir';
type Screen = {
  readonly name: string;
  readonly who: Who;
  readonly path: string;
  /** what to do once it is open */
  readonly after?: (page: Page, site: Site) => Promise<void>;
  /** a screen that fills the window is not scrolled */
  readonly stage?: true;
};

/** Pages of the workshop that need nothing but somebody who may see them. */
const DESK: readonly string[] = [
  ...['/authorisations', '/authorisations/new', '/checkpoints', '/devices', '/due', '/erasing'],
  ...['/groups', '/invite', '/my-data', '/my-sign-in', '/pack', '/pass-marks', '/practice'],
  ...['/privacy', '/rules', '/share', '/test-figures', '/tests'],
];

const openParts = async (page: Page): Promise<void> => {
  await page.getByRole('tab', { name: 'Parts' }).click();
};

function screensOf(made: {
  readonly attempt: string;
  readonly walk: string;
  readonly proof: string;
  readonly person: string;
}): Screen[] {
  const bench = (name: string, path: string, after?: Screen['after']): Screen => ({
    name,
    who: 'nobody',
    path,
    stage: true,
    ...(after === undefined ? {} : { after }),
  });
  return [
    { name: 'home', who: 'nobody', path: '/' },
    { name: 'lessons', who: 'nobody', path: '/lessons/' },
    { name: 'lesson', who: 'nobody', path: '/lessons/riving-knife' },
    { name: 'job-aid', who: 'nobody', path: '/lessons/riving-knife/job-aid' },
    { name: 'glossary', who: 'nobody', path: '/glossary' },
    { name: 'limits', who: 'nobody', path: '/limits' },
    { name: 'other-rules', who: 'nobody', path: '/other-rules' },
    { name: 'workings', who: 'nobody', path: '/workings' },
    bench('bench-walk-round', '/bench/walk-round'),
    bench('bench-knife-and-guard', '/bench/knife-and-guard'),
    bench('bench-parts', '/bench/knife-and-guard', openParts),
    bench('bench-knife-sheet', '/bench/knife-and-guard', async (page) => {
      await openParts(page);
      await page
        .getByRole('button', { name: /^Riving knife/ })
        .first()
        .click();
      await page.waitForTimeout(1500);
    }),
    bench('bench-drawings', '/bench/knife-and-guard', async (page) => {
      await page.getByRole('button', { name: 'Drawings' }).click();
    }),
    { name: 'sign-in', who: 'nobody', path: '/sign-in' },
    { name: 'not-found', who: 'nobody', path: '/no-such-page' },
    { name: 'my-book', who: 'mira.holt', path: '/my-book' },
    { name: 'attempt-settings', who: 'mira.holt', path: `/attempts/${made.attempt}` },
    { name: 'attempt-faults', who: 'mira.holt', path: `/attempts/${made.walk}` },
    { name: 'refused', who: 'mira.holt', path: '/board' },
    { name: 'board', who: 'ruth.amsel', path: '/board' },
    { name: 'person', who: 'ruth.amsel', path: `/people/${made.person}` },
    { name: 'register', who: 'ruth.amsel', path: '/register' },
    { name: 'register-new', who: 'ruth.amsel', path: '/register/new' },
    { name: 'practical-choose', who: 'ruth.amsel', path: '/practical/new' },
    {
      name: 'practical-sheet',
      who: 'ruth.amsel',
      path: '/practical/new',
      after: (page, site) => fillSheet(page, site.url, 'Tom Okafor', 'Machine shop, Alder Lane'),
    },
    { name: 'who-may', who: 'anna.weir', path: '/who-may' },
    { name: 'proof', who: 'anna.weir', path: made.proof },
    ...DESK.map((path) => ({
      name: `desk-${path.slice(1).replaceAll('/', '-')}`,
      who: 'anna.weir' as const,
      path,
    })),
  ];
}

/** Two attempts by Mira, and a practical signed for her, so that every screen has something on it. */
async function fillRecords(browser: Browser, site: Site) {
  const trainee = await (await browser.newContext()).newPage();
  await signInToDemo(trainee, site.url, 'mira.holt');
  const attempt = await handInAttempt(trainee, site.url, 'knife-and-guard');
  const walk = await handInAttempt(trainee, site.url, 'walk-round');

  const trainer = await (
    await browser.newContext({ viewport: { width: 1024, height: 768 } })
  ).newPage();
  await signInToDemo(trainer, site.url, 'ruth.amsel');
  await fillSheet(trainer, site.url, 'Mira Holt', 'Machine shop, Alder Lane');
  await reviewSheet(trainer);
  await trainer.screenshot({ path: join(OUT, 'practical-review-1024.png'), fullPage: true });
  await signSheet(trainer, 'Ruth Amsel', DEMO_PASSWORD);
  await trainer.getByText(/Logged as record/).waitFor();
  await trainer.screenshot({ path: join(OUT, 'practical-signed-1024.png'), fullPage: true });
  await trainer.goto(`${site.url}/board`);
  const person = await trainer
    .getByRole('link', { name: 'Mira Holt' })
    .first()
    .getAttribute('href');

  const employer = await (await browser.newContext()).newPage();
  await signInToDemo(employer, site.url, 'anna.weir');
  await employer.goto(`${site.url}/who-may`);
  const proof = await employer.locator('a[href^="/proof/"]').first().getAttribute('href');
  for (const page of [trainee, trainer, employer]) await page.context().close();
  return {
    attempt,
    walk,
    proof: proof ?? '/proof',
    person: (person ?? '').split('/').at(-1) ?? '',
  };
}

async function shoot(page: Page, site: Site, screen: Screen, look: Look): Promise<void> {
  await page.goto(site.url + screen.path);
  await page.waitForLoadState('networkidle');
  if (screen.stage) {
    // a bench half done is kept for its trainee, who is asked; each picture begins afresh
    const fresh = page.getByRole('button', { name: 'Take a fresh bench' });
    if (await fresh.isVisible()) await fresh.click();
    await page.locator('canvas, .bench-drawing').first().waitFor();
    await page.waitForTimeout(2500);
  }
  await screen.after?.(page, site);
  if (look.print) await page.emulateMedia({ media: 'print' });
  const path = join(OUT, `${screen.name}-${look.name}.png`);
  await page.screenshot({ path, fullPage: screen.stage === undefined || look.print === true });
  if (look.print) await page.emulateMedia({ media: 'screen' });
}

async function shootLook(
  browser: Browser,
  site: Site,
  screens: readonly Screen[],
  look: Look,
): Promise<void> {
  for (const who of new Set(screens.map((screen) => screen.who))) {
    const context = await browser.newContext(look.options);
    const page = await context.newPage();
    if (who !== 'nobody') await signInToDemo(page, site.url, who);
    for (const screen of screens.filter((one) => one.who === who)) {
      await shoot(page, site, screen, look).catch((error: Error) => {
        console.log(`  ${screen.name} (${look.name}): ${error.message.split('\n')[0]}`);
        process.exitCode = 1;
      });
    }
    await context.close();
  }
  console.log(`${look.name}: ${screens.length} screens`);
}

const wanted = process.argv[2] ?? '';
rmSync(OUT, { recursive: true, force: true });
mkdirSync(OUT, { recursive: true });
const executablePath = findChromium();
const browser = await chromium.launch({
  args: [...CHROMIUM_FLAGS],
  ...(executablePath === undefined ? {} : { executablePath }),
});
const site = await startSite('demo');
try {
  const screens = screensOf(await fillRecords(browser, site));
  const chosen = screens.filter(({ name }) => name.includes(wanted));
  for (const look of LOOKS) await shootLook(browser, site, chosen, look);
  console.log(`The pictures are in shots/.`);
} finally {
  await browser.close();
  await site.stop();
}
