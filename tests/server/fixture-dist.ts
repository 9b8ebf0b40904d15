import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** A built site as small as can be: one page file and a handler that knows no page. */
export function makeFixtureDist(folder: string): string {
  const dist = join(folder, 'dist');
  mkdirSync(join(dist, 'server'), { recursive: true });
  mkdirSync(join(dist, 'client'), { recursive: true });
  writeFileSync(
    join(dist, 'server', 'entry.mjs'),
    'export const handler = (request, response, next) => next();\n',
  );
  writeFileSync(join(dist, 'client', 'index.html'), '<!doctype html><title>First</title>');
  return dist;
}
