import { existsSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSiteKey, openStore } from '../../src/store/index.ts';
import { draftInvitation, makeTempStore, type TempFileStore } from './temp-store.ts';

let temp: TempFileStore;
let keyFile: string;
beforeEach(async () => {
  temp = await makeTempStore();
  keyFile = join(temp.folder, 'site-key.json');
  await temp.store.append(draftInvitation());
  await temp.store.close();
});
afterEach(() => temp.remove());

describe('the site key', () => {
  it('is made once, for its owner’s eyes only, and is the same at the next start', async () => {
    expect(statSync(keyFile).mode & 0o777).toBe(0o600);
    expect(statSync(temp.file).mode & 0o777).toBe(0o600);
    const again = await openSiteKey(keyFile, temp.file);
    expect(again.keyId).toBe(temp.siteKey.keyId);
    expect(again.keyId).toMatch(/^z6Mk/);
  });

  it('gives every use a secret of its own that stays the same', async () => {
    const again = await openSiteKey(keyFile, temp.file);
    expect(again.deriveSecret('sessions')).toMatch(/^[0-9a-f]{64}$/);
    expect(again.deriveSecret('sessions')).toBe(temp.siteKey.deriveSecret('sessions'));
    expect(again.deriveSecret('tokens')).not.toBe(again.deriveSecret('sessions'));
    const { key } = JSON.parse(readFileSync(keyFile, 'utf8'));
    expect(again.deriveSecret('sessions')).not.toContain(
      Buffer.from(key.d, 'base64url').toString('hex'),
    );
  });

  it('is not made anew where a log needs the old one', async () => {
    renameSync(keyFile, `${keyFile}.away`);
    await expect(openSiteKey(keyFile, temp.file)).rejects.toThrow(
      /is missing, and the log of this site was signed with it; put it back from your backup\.$/,
    );
    expect(existsSync(keyFile)).toBe(false);
  });

  it.each(['', 'not a key', '{}', '{"format":"site-key/1","key":{"kty":"OKP"}}'])(
    'is refused with a sentence when the file holds %j',
    async (text) => {
      writeFileSync(keyFile, text);
      await expect(openSiteKey(keyFile, temp.file)).rejects.toThrow(/is not a site key/);
    },
  );

  it('of another site does not open this log', async () => {
    const other = await makeTempStore();
    try {
      await expect(openStore({ file: temp.file }, other.siteKey)).rejects.toThrow(
        /not the one that signed this log of 1 records/,
      );
    } finally {
      await other.remove();
    }
  });

  it('with halves that do not belong together is refused', async () => {
    const other = await makeTempStore();
    try {
      const { key } = JSON.parse(readFileSync(keyFile, 'utf8'));
      const { key: foreign } = JSON.parse(
        readFileSync(join(other.folder, 'site-key.json'), 'utf8'),
      );
      const mixed = { format: 'site-key/1', key: { ...key, d: foreign.d } };
      writeFileSync(keyFile, JSON.stringify(mixed));
      await expect(openSiteKey(keyFile, temp.file)).rejects.toThrow(/is not a site key/);
    } finally {
      await other.remove();
    }
  });
});
