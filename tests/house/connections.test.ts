import { globSync, readFileSync } from 'node:fs';
import { resolve, sep } from 'node:path';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';

const ROOT = resolve(import.meta.dirname, '../..');
const line = z.string().min(3);
const files = z.array(line).min(1);
const ListSchema = z.strictObject({
  in: z.array(z.strictObject({ what: line, from: line })).min(1),
  out: z.array(z.strictObject({ what: line, to: line, encrypted: line, files })),
  commands: z.array(z.strictObject({ what: line, to: line, files })),
  browser: z.array(z.strictObject({ what: line, files })),
});
const list = ListSchema.parse(
  parse(readFileSync(resolve(ROOT, 'src/deploy/connections.yaml'), 'utf8')),
);

/** Anything that can open a connection or start another program. A type alone opens nothing. */
const OPENS =
  /\bfetch\(|\b(WebSocket|EventSource|XMLHttpRequest|sendBeacon)\b|from '(node:)?(https|http2|tls|dns|dns\/promises|dgram|child_process|cluster|undici)'|\bimport\('(node:)?(https?|net|tls|dgram)'\)|\b(http|net)\.(request|get|connect|createConnection)\(|import \{[^}]*\b(request|get|connect|createConnection|Socket)\b[^}]*\} from '(node:)?(http|net)'|from '(pg|nodemailer|axios|got)'/;
const IN_BROWSER = /^src\/(panels|offline)\//;

/** OWASP ASVS 5.0.0, 13.1.1: whom the site talks to, external services and given addresses among them. */
it('the list of connections names every file that can open one, and no other', () => {
  const found = globSync('src/**/*.{ts,tsx,mjs,astro}', { cwd: ROOT })
    .map((file) => file.split(sep).join('/'))
    .filter((file) => !IN_BROWSER.test(file))
    .filter((file) =>
      OPENS.test(
        readFileSync(resolve(ROOT, file), 'utf8')
          .replace(/\/\*[\s\S]*?\*\//g, '')
          .replace(/^\s*\/\/.*$|^import type .*$/gm, ''),
      ),
    );
  const named = [...list.out, ...list.commands, ...list.browser].flatMap((one) => one.files);
  expect([...new Set(named)].sort()).toEqual(found.sort());
});
