import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { startLogged } from './watch/running-site.ts';

/** Prints, as the process ends, every file that it read a module from. */
const TELL_MODULES = `data:text/javascript,${encodeURIComponent(`
  import { registerHooks } from 'node:module';
  const read = [];
  registerHooks({ load: (url, context, next) => { read.push(url); return next(url, context); } });
  process.on('exit', () => process.stderr.write('MODULES ' + JSON.stringify(read) + '\\n'));
`)}`;

it('is started from what the build packed, and from nothing else', async () => {
  const site = await startLogged('empty', { NODE_OPTIONS: `--import ${TELL_MODULES}` });
  try {
    expect((await fetch(site.url)).status).toBe(200);
    site.signal('SIGTERM');
    await site.ended;
    const [, modules = ''] = /^MODULES (.*)$/m.exec(site.printed()) ?? [];
    const files = (JSON.parse(modules) as string[])
      .filter((url) => url.startsWith('file:'))
      .map((url) => fileURLToPath(url).replace(/^.*?\/(?=(src|dist|node_modules)\/)/, ''));
    expect(files).toContain('dist/server/serve.mjs');
    expect(files).toContain('dist/server/entry.mjs');
    // the command looks whether anything is to be built; all the rest is packed
    expect(files.filter((file) => !/^(dist\/server|src\/cli)\//.test(file))).toEqual([]);
    expect(files.length).toBeLessThan(120);
  } finally {
    await site.remove();
  }
});
