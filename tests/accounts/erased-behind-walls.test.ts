import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { erasePerson, TABLE_NAMES } from '../../src/accounts/index.ts';
import { auditLog, newId } from '../../src/records/index.ts';
import { asOrganisation, asSite } from '../../src/store/index.ts';
import { SLOW } from '../store/temp-store.ts';
import {
  addMember,
  granted,
  PASSWORD,
  SITES,
  setUp,
  signInAs,
  type TempSite,
} from './temp-site.ts';

const NAME = 'Quendolin Vrastecki';
const EMAIL = 'quendolin.vrastecki@x.example';

describe.each(SITES)('erasing a person on %s, asked as a page asks', (_engine, makeSite) => {
  let temp: TempSite;
  beforeAll(async () => {
    temp = await makeSite();
  }, SLOW);
  afterAll(() => temp.remove());

  it('leaves no row that names them in any table, and a log that audits clean', async () => {
    const { site } = temp;
    const { trainer, who } = await asSite(async () => {
      const first = await setUp(site);
      const person = await addMember(site, first, 'trainee', NAME);
      await signInAs(site, EMAIL);
      return { trainer: first, who: person };
    });
    const input = { id: newId(), reason: 'asked-in-writing', name: NAME, password: PASSWORD };
    granted(
      await asOrganisation(trainer.org, () =>
        erasePerson(trainer, who.person, input, { address: null, site }),
      ),
    );
    await asSite(async () => {
      for (const table of TABLE_NAMES.filter((one) => one !== 'event')) {
        const rows = await site.store.db
          .selectFrom(table as 'user')
          .selectAll()
          .execute();
        const written = JSON.stringify(rows);
        for (const text of [who.person, NAME, EMAIL]) expect(written, table).not.toContain(text);
      }
      const report = await auditLog(site.store.readChunks(), {
        checkpoints: [await site.store.checkpoint()],
        publicKeys: [site.siteKey.publicKey],
        depth: 'events',
      });
      expect(report.ok).toBe(true);
    });
  });
});
