import { resolve } from 'node:path';
import { buildSite, needsBuild } from './build-site.ts';

// `npm run build`: the same build as at the start, so that the start finds it fresh.
const root = resolve(import.meta.dirname, '../..');
const problem = await buildSite(root, (text) => process.stdout.write(text));
if (problem !== null) {
  console.error(problem);
  process.exitCode = 1;
} else if (!needsBuild(root)) {
  console.log('The pages are up to date.');
}
