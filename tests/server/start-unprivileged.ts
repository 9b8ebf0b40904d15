import { runSite } from '../../src/server/index.ts';

// Starts a site with no more rights than anybody has, and prints the sentence it ends with.
const [dataDir = '', distDir = ''] = process.argv.slice(2);
const NOBODY = 65_534;
if (process.getuid?.() === 0) process.setuid?.(NOBODY);
try {
  const settings = { port: 0, host: '127.0.0.1', dataDir, siteUrl: null };
  const site = await runSite(settings, { distDir, contentDir: 'content' });
  await site.stop();
  console.log('started');
} catch (error) {
  console.log(error instanceof Error ? `${error.name}: ${error.message}` : error);
}
