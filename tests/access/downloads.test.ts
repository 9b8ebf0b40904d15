import { globSync, readFileSync } from 'node:fs';
import { resolve, sep } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newId } from '../../src/records/index.ts';
import { addressOf } from './cells.ts';
import { openWorld } from './open-world.ts';
import type { RunningSite } from './site.ts';
import type { ViewerName, World } from './world.ts';

/**
 * Every route that sends a file, and the name it gives it: ours, whatever the address says. OWASP ASVS 5.0.0, 5.4.1;
 * the shape of the header is RFC 6266, section 4.1.
 */
const ID = '[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}';
const DAY = String.raw`\d{4}-\d\d-\d\d`;
type Download = {
  readonly how: 'attachment' | 'inline';
  readonly name: string;
  readonly as: ViewerName;
};
const kept = (name: string, as: ViewerName = 'anna'): Download => ({
  how: 'attachment',
  name,
  as,
});
const DOWNLOADS: Readonly<Record<string, Download>> = {
  '/api/authorisation-proofs/[id]': kept(`leave-${ID}.json`),
  '/api/checkpoints': kept('checkpoint-\\d+.txt'),
  '/api/packs/[id]/[file]': kept(`pack-${DAY}.pdf`),
  '/api/photos/[digest]': { how: 'inline', name: 'photo-[0-9a-f]{12}.jpg', as: 'ruth' },
  '/api/proofs/[id]': kept(`proof-${ID}.json`),
  '/calendar/[token].ics': { how: 'inline', name: 'due.ics', as: 'nobody' },
  '/invite': kept('invitations.csv', 'ruth'),
  '/my-data/copy.json': kept('my-data.json', 'mira'),
  '/my-data/organisation.json': kept('organisation.json'),
  '/shared/[token]/[file]': kept(`pack-${DAY}.pdf`, 'nobody'),
  '/verifier.html': kept('verifier.html', 'nobody'),
  '/who-may/matrix.csv': kept(`who-may-${DAY}.csv`),
  '/who-may/statements.jsonl': kept(`statements-${DAY}.jsonl`),
};
/** What a page sends that is no page, no part of one and no JSON of an interface. */
const SENDS_FILE =
  /content-disposition|\bsendFile\(|\breplyFile\(|'content-type': '(?!text\/plain)/;

let world: World;
let site: RunningSite;
let close: () => Promise<void>;
beforeAll(async () => {
  ({ world, site, close } = await openWorld());
}, 120_000);
afterAll(() => close());

describe('what is sent as a file', () => {
  it('comes from these routes and from no other', () => {
    const root = resolve(import.meta.dirname, '../../src/pages');
    const found = globSync('**/*.{ts,astro}', { cwd: root })
      .map((file) => file.split(sep).join('/'))
      .filter((file) => !/(^|\/)_/.test(file))
      .filter((file) => SENDS_FILE.test(readFileSync(resolve(root, file), 'utf8')))
      .map((file) => `/${file}`.replace(/\.(ts|astro)$/, '').replace(/\/index$/, ''));
    expect([...new Set(found)].sort()).toEqual(Object.keys(DOWNLOADS).sort());
  });

  it.each(Object.entries(DOWNLOADS))('%s has a name of ours', async (pattern, expected) => {
    const subject = pattern.includes('packs')
      ? 'annas'
      : /proofs|photos/.test(pattern)
        ? 'mira'
        : 'near';
    const cookie = world.cookies[expected.as];
    const path = addressOf({ pattern }, pattern.includes('[') ? subject : 'none', world);
    // a name somebody wishes for changes nothing
    const wished = `${path}${path.includes('?') ? '&' : '?'}filename=mine.exe&name=mine.exe`;
    const isForm = pattern === '/invite';
    const form = { do: 'make', as: 'csv', text: 'name,role\nJo Ash,trainee\n', id: newId() };
    const reply = await site.send(wished, {
      ...(isForm ? { method: 'POST', body: new URLSearchParams(form).toString() } : {}),
      headers: {
        ...(cookie === '' ? {} : { cookie }),
        ...(isForm
          ? { origin: site.origin, 'content-type': 'application/x-www-form-urlencoded' }
          : {}),
      },
    });
    expect(reply.status).toBe(200);
    expect(reply.headers['content-disposition']).toMatch(
      new RegExp(`^${expected.how}; filename="${expected.name.replaceAll('.', '\\.')}"$`),
    );
  });

  it('is named by a pattern: what does not fit it is no file', async () => {
    const token = addressOf({ pattern: '/shared/[token]' }, 'near', world);
    for (const name of ['mine.pdf', 'pack-en-a4.pdf%22;x=%22', '..%2fpack-en-a4.pdf']) {
      const reply = await site.send(`${token}/${name}`, {});
      expect([404, reply.headers['content-disposition']]).toEqual([reply.status, undefined]);
    }
  });
});
