import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { locate } from './read-input.ts';

/** The folder of this site: what is built lies in its `dist`, the content in its `content`. */
export const SITE_ROOT = resolve(import.meta.dirname, '../..');

export const SITE_FOLDERS = {
  distDir: join(SITE_ROOT, 'dist'),
  contentDir: join(SITE_ROOT, 'content'),
} as const;

/** Version of this site, as its package says. */
export function siteVersion(): string {
  const { version } = JSON.parse(readFileSync(join(SITE_ROOT, 'package.json'), 'utf8'));
  return String(version);
}

/** The data folder a command works on: `--data`, else DATA_DIR, else ./data. */
export const dataFolder = (given: string | undefined): string =>
  given === undefined ? resolve(process.env['DATA_DIR'] || 'data') : locate(given);
