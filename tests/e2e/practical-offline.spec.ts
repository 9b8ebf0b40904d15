import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { uuidv7 } from 'uuidv7';
import type { Plan } from '../helpers/signing-in-page.ts';
import {
  loadSigning,
  offerSigning,
  openSigning,
  sessionOf,
  type WithSigning,
} from '../helpers/signing-page.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';

/*
 * A signed practical on a device that goes wrong in every way a workshop can think of: nothing is lost and
 * nothing is entered twice. The modules of signing are called in pages of the built site.
 */
let site: Site;
test.setTimeout(20_000);
test.beforeAll(async () => {
  test.setTimeout(60_000);
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});

const plan = (over: Partial<Plan> = {}): Plan => ({
  ids: [uuidv7()],
  practical: uuidv7(),
  photos: 0,
  confirmed: 'site',
  password: DEMO_PASSWORD,
  ...over,
});

const sign = (page: Page, given: Plan) =>
  page.evaluate((one) => (window as unknown as WithSigning).signing.signPlan(one), given);
const lookFor = (page: Page, given: Plan) =>
  page.evaluate((one) => (window as unknown as WithSigning).signing.lookFor(one), given);
const flush = (page: Page) =>
  page.evaluate(() => (window as unknown as WithSigning).signing.flush('wait'));
const waiting = (page: Page) =>
  page.evaluate(() => (window as unknown as WithSigning).signing.countWaiting());
const readiness = (page: Page) =>
  page.evaluate(() => (window as unknown as WithSigning).signing.readinessOf());
const makeReady = (page: Page, password = DEMO_PASSWORD) =>
  page.evaluate(
    (given) =>
      (window as unknown as WithSigning).signing.makeReady({ password: given, device: 'tablet' }),
    password,
  );

/** How often each id stands in the log of the site. */
function countInLog(ids: readonly string[]): number[] {
  const store = new DatabaseSync(join(site.data, 'store.sqlite'), { readOnly: true });
  const count = store.prepare('select count(*) as n from event where id = ?');
  const found = ids.map((id) => Number(count.get(id)?.['n']));
  store.close();
  return found;
}

function countPhotos(ids: readonly string[]): number {
  const store = new DatabaseSync(join(site.data, 'store.sqlite'), { readOnly: true });
  const count = store.prepare('select count(*) as n from photo where signoff = ?');
  const found = ids.reduce((sum, id) => sum + Number(count.get(id)?.['n']), 0);
  store.close();
  return found;
}

/** A page of Ruth Amsel's, whose device is ready. */
async function openReady(context: BrowserContext): Promise<Page> {
  await offerSigning(context);
  await sessionOf(context, site.url, 'ruth.amsel');
  const page = await openSigning(context, site.url);
  const ready = await makeReady(page);
  expect(ready).toMatchObject({
    ok: true,
    value: { kit: 'kept', key: 'enrolled', password: 'kept' },
  });
  return page;
}

test('signed without a network on the device, and sent when it is back', async ({ context }) => {
  const page = await openReady(context);
  await context.setOffline(true);
  expect(
    await page.evaluate(() => (window as unknown as WithSigning).signing.whereConfirmed()),
  ).toBe('device');
  const wrong = await sign(page, plan({ confirmed: 'device', password: 'not the right one' }));
  expect(wrong).toMatchObject({
    state: 'refused',
    path: 'password',
    message: 'That is not your password, so nothing was signed.',
  });
  const given = plan({ ids: [uuidv7(), uuidv7(), uuidv7()], photos: 2, confirmed: 'device' });
  const outcome = await sign(page, given);
  expect(outcome).toMatchObject({
    state: 'kept',
    message: 'The site cannot be reached from here.',
  });
  expect(await lookFor(page, given)).toEqual({
    outbox: expect.arrayContaining([...given.ids]),
    refused: [],
    draft: false,
  });
  expect(countInLog(given.ids)).toEqual([0, 0, 0]);
  await context.setOffline(false);
  await expect.poll(() => countInLog(given.ids)).toEqual([1, 1, 1]);
  await expect.poll(() => waiting(page)).toEqual({ unsent: 0, refused: 0, missing: 0 });
  expect(countPhotos(given.ids)).toBe(6);
});

test('a wrong password is waited for longer and longer, also after a reload', async ({
  context,
}) => {
  const page = await openReady(context);
  const check = (password: string) =>
    page.evaluate(async (tried) => {
      const { signing } = window as unknown as WithSigning;
      const kit = await signing.keptKit();
      return signing.checkOnDevice(kit?.trainer.person ?? '', tried);
    }, password);
  for (let tries = 0; tries < 3; tries += 1) {
    expect(await check('wrong')).toEqual({ state: 'wrong' });
  }
  expect(await check(DEMO_PASSWORD)).toMatchObject({ state: 'wait' });
  await page.reload();
  await loadSigning(page);
  expect(await check(DEMO_PASSWORD)).toMatchObject({ state: 'wait' });
  // the wait is over: the right one ends the count
  await page.evaluate(async () => {
    const db = await (window as unknown as WithSigning).signing.openDeviceStore();
    const [kept] = await db.getAll('verifiers');
    if (kept !== undefined) await db.put('verifiers', { ...kept, blockedUntil: 0 });
  });
  expect(await check(DEMO_PASSWORD)).toEqual({ state: 'right' });
  expect(await check('wrong')).toEqual({ state: 'wrong' });
  expect(await check(DEMO_PASSWORD)).toEqual({ state: 'right' });
});

test('a session that ran out, or somebody else signed in, sends nothing and is told', async ({
  context,
}) => {
  const page = await openReady(context);
  await context.setOffline(true);
  const given = plan({ confirmed: 'device' });
  await sign(page, given);
  await context.clearCookies();
  await context.setOffline(false);
  expect(await flush(page)).toMatchObject({
    left: 1,
    held: 'signed-out',
    message: 'Sign in again: 1 signed record waits on this device.',
  });
  await sessionOf(context, site.url, 'dev.pradhan');
  expect(await flush(page)).toMatchObject({ left: 1, held: 'other-person' });
  expect(countInLog(given.ids)).toEqual([0]);
  await sessionOf(context, site.url, 'ruth.amsel');
  expect(await flush(page)).toMatchObject({ left: 0, held: null });
  expect(countInLog(given.ids)).toEqual([1]);
});

test('a record the site will not take is put aside with its sentence, shown and tried again', async ({
  context,
}) => {
  const page = await openReady(context);
  await context.route('**/api/practicals', (route) =>
    route.fulfill({
      status: 422,
      json: { error: { path: 'at', message: 'at must be another day.' } },
    }),
  );
  const given = plan();
  expect(await sign(page, given)).toMatchObject({
    state: 'kept',
    message: 'at must be another day.',
    units: [{ state: 'refused', refused: { status: 422, path: 'at' } }],
  });
  expect(await lookFor(page, given)).toEqual({ outbox: [], refused: [...given.ids], draft: false });
  await page.goto(`${site.url}/offline`);
  await loadSigning(page);
  await expect(
    page.getByRole('status').getByText('1 signed record not taken by the site'),
  ).toBeVisible();
  await page.evaluate(
    (id) => (window as unknown as WithSigning).signing.reopenSheets(id),
    given.ids[0] ?? '',
  );
  expect((await lookFor(page, given)).draft).toBe(true);
  await context.unroute('**/api/practicals');
  await page.evaluate(
    (id) => (window as unknown as WithSigning).signing.tryAgain(id),
    given.ids[0] ?? '',
  );
  expect(await flush(page)).toMatchObject({ left: 0, refused: [] });
  expect(countInLog(given.ids)).toEqual([1]);
  await expect(page.locator('[data-unsent]')).toHaveCount(0);
});

test('the page of a wireless net that answers everything lets go of nothing', async ({
  context,
}) => {
  const page = await openReady(context);
  for (const status of [200, 404]) {
    const given = plan();
    await context.route('**/api/practicals', (route) =>
      route.fulfill({ status, contentType: 'text/html', body: '<p>Welcome to our net</p>' }),
    );
    expect(await sign(page, given)).toMatchObject({ state: 'kept', units: [{ state: 'kept' }] });
    await context.unroute('**/api/practicals');
    expect(await flush(page)).toMatchObject({ left: 0 });
    expect(countInLog(given.ids)).toEqual([1]);
  }
});

/** The clock of the browser shifted, as somebody sets a tablet wrong. */
const shiftClock = (page: Page, days: number) =>
  page.evaluate((by) => {
    const Real = Date;
    const shift = by * 86_400_000;
    class Shifted extends Real {
      constructor(...given: [] | [number | string]) {
        if (given.length === 0) super(Real.now() + shift);
        else super(given[0]);
      }
      static override now = () => Real.now() + shift;
    }
    globalThis.Date = Shifted as DateConstructor;
  }, days);

test('a clock that is days out is told, and nothing signed by it is lost', async ({ context }) => {
  const page = await openReady(context);
  await shiftClock(page, 3);
  await page.evaluate(() => (window as unknown as WithSigning).signing.fetchKit());
  expect((await readiness(page)).clockAheadSeconds).toBeGreaterThan(3 * 86_400 - 60);
  const ahead = plan();
  expect(await sign(page, ahead)).toMatchObject({
    state: 'kept',
    message: 'The clock of this device is more than a day ahead: set it right and sign again.',
  });
  expect((await lookFor(page, ahead)).refused).toEqual([...ahead.ids]);

  await page.reload();
  await loadSigning(page);
  await shiftClock(page, -3);
  const behind = plan();
  expect(await sign(page, behind)).toMatchObject({ state: 'refused', path: 'at' });
  expect(await lookFor(page, behind)).toEqual({ outbox: [], refused: [], draft: true });

  for (const days of [0.4, -0.4]) {
    await page.reload();
    await loadSigning(page);
    await shiftClock(page, days);
    const near = plan();
    expect(await sign(page, near)).toMatchObject({ state: 'logged' });
    expect(countInLog(near.ids)).toEqual([1]);
  }
});

test('with no room left nothing is signed by half, and the sheet is still there', async ({
  context,
}) => {
  const page = await openReady(context);
  await page.evaluate(() => {
    const real = IDBObjectStore.prototype.put;
    let puts = 0;
    IDBObjectStore.prototype.put = function (...given: Parameters<typeof real>) {
      if (this.name === 'outbox') puts += 1;
      if (puts === 2) throw new DOMException('full', 'QuotaExceededError');
      return real.apply(this, given);
    };
    Object.assign(window, { makeRoom: () => (IDBObjectStore.prototype.put = real) });
  });
  const given = plan({ ids: [uuidv7(), uuidv7(), uuidv7()], photos: 1 });
  expect(await sign(page, given)).toMatchObject({
    state: 'refused',
    message:
      'This device has no room left, so nothing was changed: delete something else on it, and try again.',
  });
  expect(await lookFor(page, given)).toEqual({ outbox: [], refused: [], draft: true });
  await page.evaluate(() => (window as unknown as { makeRoom: () => void }).makeRoom());
  expect(await sign(page, given)).toMatchObject({ state: 'logged' });
  expect(countInLog(given.ids)).toEqual([1, 1, 1]);
});

test('a device that is really full says so, and signs once there is room', async ({ context }) => {
  await offerSigning(context);
  await sessionOf(context, site.url, 'ruth.amsel');
  const page = await openSigning(context, site.url);
  const devtools = await context.newCDPSession(page);
  const limit = (quotaSize?: number) =>
    devtools.send('Storage.overrideQuotaForOrigin', {
      origin: site.url,
      ...(quotaSize === undefined ? {} : { quotaSize }),
    });
  // before the store is opened: the browser remembers for a while how much room there is
  await limit(3_000_000);
  expect(await makeReady(page)).toMatchObject({ ok: true });
  /** Fills the store with what does not pack, until the browser refuses. */
  const filled = await page.evaluate(async () => {
    const db = await (window as unknown as WithSigning).signing.openDeviceStore();
    let size = 400_000;
    for (let count = 0; count < 60; count += 1) {
      const bytes = new Uint8Array(size);
      for (let at = 0; at < bytes.length; at += 65_536) {
        crypto.getRandomValues(bytes.subarray(at, Math.min(at + 65_536, bytes.length)));
      }
      const photo = { digest: `fill-${count}`, bytes: bytes.buffer, keptAt: '', heldBy: [] };
      const why = await db.put('photos', photo).catch((error: DOMException) => error.name);
      if (why !== 'QuotaExceededError') continue;
      // smaller and smaller, until there is no room for a record either
      if (size <= 1_000) return count;
      size = Math.floor(size / 4);
    }
    return null;
  });
  expect(filled).not.toBeNull();
  const given = plan();
  const full = await sign(page, given).catch((error: Error) => error.message);
  expect(typeof full === 'string' ? full : JSON.stringify(full)).toMatch(/[Qq]uota|no room left/);
  expect((await lookFor(page, given)).outbox).toEqual([]);
  expect(countInLog(given.ids)).toEqual([0]);
  await limit();
  expect(await sign(page, given)).toMatchObject({ state: 'logged' });
});

test('a store the browser has thrown away is told, and a saved file brings the records back', async ({
  context,
}) => {
  const page = await openReady(context);
  await context.setOffline(true);
  const given = plan({ ids: [uuidv7(), uuidv7()], photos: 1, confirmed: 'device' });
  await sign(page, given);
  const file = await page.evaluate(async () =>
    (await (window as unknown as WithSigning).signing.exportUnsent()).text(),
  );
  expect(JSON.parse(file)).toMatchObject({ format: 'signed-to-saw/unsent/1' });
  await page.evaluate(async () => {
    (await (window as unknown as WithSigning).signing.openDeviceStore()).close();
    await new Promise((done, fail) => {
      const asked = indexedDB.deleteDatabase('signed-to-saw');
      asked.onsuccess = done;
      asked.onerror = fail;
    });
  });
  await context.setOffline(false);
  await page.goto(`${site.url}/lessons/`);
  await expect(
    page.getByText('2 signed records were cleared off this device by the browser'),
  ).toBeVisible();
  await loadSigning(page);
  const bring = (text: string) =>
    page.evaluate(
      (json) => (window as unknown as WithSigning).signing.importUnsent(new Blob([json])),
      text,
    );
  const forged = file.replace('Redwood, 50 mm, dry', 'Oak');
  expect(await bring(forged)).toMatchObject({
    ok: false,
    message: 'In this file, records[0].event must be as it was signed.',
  });
  expect(await bring(file)).toEqual({ ok: true, value: 2 });
  expect(await flush(page)).toMatchObject({ left: 0 });
  expect(countInLog(given.ids)).toEqual([1, 1]);
  expect(countPhotos(given.ids)).toBe(2);
  // the same file once more does no harm
  expect(await bring(file)).toEqual({ ok: true, value: 2 });
  expect(await flush(page)).toMatchObject({ left: 0, refused: [] });
  expect(countInLog(given.ids)).toEqual([1, 1]);
});

test('two devices that send the same record enter it once', async ({ context, browser }) => {
  const page = await openReady(context);
  await context.setOffline(true);
  const given = plan({ ids: [uuidv7(), uuidv7()], photos: 1, confirmed: 'device' });
  await sign(page, given);
  const file = await page.evaluate(async () =>
    (await (window as unknown as WithSigning).signing.exportUnsent()).text(),
  );
  const second = await browser.newContext();
  await offerSigning(second);
  await sessionOf(second, site.url, 'ruth.amsel');
  const other = await openSigning(second, site.url);
  await other.evaluate(
    (json) => (window as unknown as WithSigning).signing.importUnsent(new Blob([json])),
    file,
  );
  await context.setOffline(false);
  const [one, two] = await Promise.all([flush(page), flush(other)]);
  expect([one.left, two.left]).toEqual([0, 0]);
  expect([one.refused, two.refused]).toEqual([[], []]);
  expect(countInLog(given.ids)).toEqual([1, 1]);
  expect(countPhotos(given.ids)).toBe(2);
  await second.close();
});

test('a store of the first form keeps its key, its sheet and its unsent record', async ({
  context,
}) => {
  await offerSigning(context);
  const page = await openSigning(context, site.url);
  const found = await page.evaluate(async () => {
    const key = await crypto.subtle.generateKey('Ed25519', false, ['sign', 'verify']);
    const opening = indexedDB.open('signed-to-saw', 1);
    opening.onupgradeneeded = () => {
      const db = opening.result;
      db.createObjectStore('keys', { keyPath: 'person' });
      db.createObjectStore('sheets', { keyPath: 'sheetKey' });
      db.createObjectStore('unsent', { keyPath: 'signoff' });
      db.createObjectStore('checkpoints', { keyPath: 'origin' });
    };
    const db = await new Promise<IDBDatabase>((done) => {
      opening.onsuccess = () => done(opening.result);
    });
    const write = db.transaction(['keys', 'sheets', 'unsent'], 'readwrite');
    write.objectStore('keys').put({ person: 'ruth', keyId: 'k', enrolled: true, ...key });
    const left = { title: 'left', path: '/practical/new', savedAt: '2026-03-03T08:00:00Z' };
    write.objectStore('sheets').put({ ...left, sheetKey: 'ruth/a', sheet: { typed: '7,5' } });
    for (const [signoff, signedAt] of [
      ['b', '2026-03-03T09:00:00Z'],
      ['a', '2026-03-03T08:00:00Z'],
    ]) {
      write.objectStore('unsent').put({
        signoff,
        sheetKey: 'ruth/a',
        title: 'signed',
        path: '/practical/new',
        trainer: 'ruth',
        signedAt,
        request: { event: { id: signoff, by: 'ruth', body: {} }, sheet: {} },
        statementHash: '0'.repeat(64),
      });
    }
    await new Promise((done) => {
      write.oncomplete = done;
    });
    db.close();
    const { signing } = window as unknown as WithSigning;
    const store = await signing.openDeviceStore();
    const kept = await store.get('keys', 'ruth');
    return {
      names: [...store.objectStoreNames],
      key: [kept?.keyId, kept?.privateKey.extractable, kept?.enrolled],
      left: await signing.leftHere('ruth'),
      waiting: await signing.countWaiting(),
      order: (await signing.unsentOf('ruth')).map(({ signoff }) => signoff),
    };
  });
  expect(found.names).not.toContain('unsent');
  expect(found.key).toEqual(['k', false, true]);
  expect(found.left.sheets).toMatchObject([{ sheetKey: 'ruth/a', sheet: { typed: '7,5' } }]);
  expect(found.left.unsent).toMatchObject([
    { ticket: null, photos: [], logged: null, drafts: [] },
    { ticket: null, photos: [], logged: null, drafts: [] },
  ]);
  expect(found.order).toEqual(['a', 'b']);
  expect(found.waiting).toEqual({ unsent: 2, refused: 0, missing: 0 });
});

test('a photo is drawn afresh: smaller, and without the place it was taken', async ({
  context,
}) => {
  const page = await openReady(context);
  const kept = await page.evaluate(async () => {
    const { signing } = window as unknown as WithSigning;
    const canvas = document.createElement('canvas');
    canvas.width = 3000;
    canvas.height = 2000;
    const pen = canvas.getContext('2d')!;
    const noise = pen.createImageData(3000, 2000);
    for (let at = 0; at < noise.data.length; at += 1) noise.data[at] = (at * 2_654_435_761) >>> 13;
    pen.putImageData(noise, 0, 0);
    const plain = await new Promise<Blob>((done) =>
      canvas.toBlob((blob) => done(blob!), 'image/jpeg', 0.9),
    );
    const bytes = new Uint8Array(await plain.arrayBuffer());
    // an Exif block as a camera writes it, behind the first marker
    const exif = new TextEncoder().encode('Exif\0\0N51.5 W0.12 taken at home');
    const head = new Uint8Array([0xff, 0xe1, 0, exif.length + 2]);
    const taken = new Blob([bytes.slice(0, 2), head, exif, bytes.slice(2)], { type: 'image/jpeg' });
    const { digest, url } = await signing.keepPhoto(taken);
    const drawn = await createImageBitmap(
      (await (await fetch(url).catch(() => null))?.blob()) ?? taken,
    );
    const db = await signing.openDeviceStore();
    const photo = await db.get('photos', digest);
    const text = new TextDecoder('latin1').decode(photo?.bytes);
    return {
      size: photo?.bytes.byteLength ?? 0,
      place: text.includes('N51.5'),
      url: url.slice(0, 5),
      shown: Math.max(drawn.width, drawn.height),
    };
  });
  expect(kept.place).toBe(false);
  expect(kept.size).toBeGreaterThan(1000);
  expect(kept.size).toBeLessThanOrEqual(600_000);
  expect(kept.url).toBe('blob:');
});

test('signing out asks about what is not sent, keeps it, and takes the rest off the device', async ({
  context,
}) => {
  const page = await openReady(context);
  await context.route('**/api/practicals', (route) => route.abort());
  const given = plan({ photos: 1 });
  await sign(page, given);
  await page.goto(`${site.url}/lessons/`);
  const asked: string[] = [];
  page.once('dialog', (dialog) => {
    asked.push(dialog.message());
    void dialog.dismiss();
  });
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect.poll(() => asked.length, { timeout: 20_000 }).toBe(1);
  expect(asked[0]).toMatch(/^1 signed record is not sent yet\. It stays on this device/);
  await loadSigning(page);
  expect((await readiness(page)).kit).toBe('kept');
  page.once('dialog', (dialog) => void dialog.accept());
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL(`${site.url}/`);
  await loadSigning(page);
  expect(await readiness(page)).toMatchObject({ kit: 'none', password: 'none', key: 'none' });
  expect(await waiting(page)).toEqual({ unsent: 1, refused: 0, missing: 0 });
  await context.unroute('**/api/practicals');
  await sessionOf(context, site.url, 'ruth.amsel');
  expect(await flush(page)).toMatchObject({ left: 0 });
  expect(countPhotos(given.ids)).toBe(1);
});

test.describe('with the worker that keeps pages', () => {
  test.use({ serviceWorkers: 'allow' });

  test('the sheet opens from the home screen with the site stopped, and what is signed goes when it is back', async ({
    context,
  }) => {
    test.setTimeout(90_000);
    await offerSigning(context);
    await sessionOf(context, site.url, 'ruth.amsel');
    const page = await context.newPage();
    await page.goto(`${site.url}/practical/sheet`);
    await loadSigning(page);
    const ready = await makeReady(page);
    expect(ready).toMatchObject({ ok: true, value: { page: 'kept', kit: 'kept' } });
    const kept = await page.evaluate(async () => {
      const names = await caches.keys();
      const all = await Promise.all(
        names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url)),
      );
      return all.flat().map((url) => new URL(url).pathname);
    });
    expect(kept).toEqual(expect.arrayContaining(['/practical/sheet', '/de/practical/sheet']));
    expect(kept.filter((path) => path.startsWith('/api/'))).toEqual([]);
    await site.pause();
    let isBack = false;
    try {
      const reply = await page.goto(`${site.url}/practical/sheet?person=x&bench=y&work=rip`);
      expect(reply?.status()).toBe(200);
      await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('No network');
      await loadSigning(page);
      const given = plan({ ids: [uuidv7(), uuidv7()], photos: 1, confirmed: 'device' });
      expect(await sign(page, given)).toMatchObject({ state: 'kept' });
      // the tablet is switched off and on again
      await page.goto(`${site.url}/practical/sheet`);
      await expect(page.getByText('2 signed records not sent')).toBeVisible();
      await site.resume();
      isBack = true;
      await page.evaluate(() => dispatchEvent(new Event('online')));
      await expect.poll(() => countInLog(given.ids)).toEqual([1, 1]);
      await expect.poll(() => countPhotos(given.ids)).toBe(2);
      await expect(page.locator('[data-unsent]')).toHaveCount(0);
    } finally {
      if (!isBack) await site.resume();
    }
  });
});
