import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openSite } from '../../src/accounts/index.ts';

const place = (dataDir: string) => ({
  dataDir,
  contentDir: 'content',
  address: new URL('http://localhost'),
});

describe('a data folder that cannot be made', () => {
  // Node's mkdirSync with `recursive` spins for ever there, so a start hung instead of saying why.
  it.runIf(existsSync('/proc/self'))('is refused with one sentence under /proc', async () => {
    await expect(openSite(place('/proc/no-such-folder'))).rejects.toThrow(
      /^The data folder \/proc\/no-such-folder cannot be used; .+DATA_DIR/,
    );
  });

  it('is made with the folders above it where that is allowed', async () => {
    const root = mkdtempSync(join(tmpdir(), 'folder-test-'));
    const site = await openSite(place(join(root, 'one', 'two')));
    expect(existsSync(join(root, 'one', 'two', 'store.sqlite'))).toBe(true);
    await site.store.close();
    rmSync(root, { recursive: true, force: true });
  });
});
