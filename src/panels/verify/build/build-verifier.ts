import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build, type Rolldown } from 'vite';
import { LANGUAGE_IDS } from '../../../words/index.ts';

/** Bytes the whole file may weigh: it goes by e-mail and onto old phones. */
export const LARGEST_VERIFIER = 60 * 1024;

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const digest = (text: string): string =>
  `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

type Sheet = Record<string, string>;

function readSheet(language: string, name: string): Sheet {
  const file = at(`../../../../content/messages/${language}/${name}.json`);
  return JSON.parse(readFileSync(file, 'utf8')) as Sheet;
}

/** Measures that a trainer writes down at a practical. */
function measuresInUnits(): Set<string> {
  const folder = at('../../../../content/units');
  const units = readdirSync(folder).map((file) => readFileSync(`${folder}/${file}`, 'utf8'));
  return new Set(
    units.flatMap((unit) => [...unit.matchAll(/measure: ([\w.]+)/g)].map(([, id]) => id ?? '')),
  );
}

const squeeze = (css: string): string =>
  css
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\s+/g, ' ')
    .trim();

/** Sentences that only the site itself says, of what lies in its store. */
const OF_THE_SITE = /^(piece|store|cosign)\.|^(self|meaning|not-whole)$/;

/** Style and the words of each language, packed: of the names only those a proof can hold. */
function packRest(): string {
  const measures = measuresInUnits();
  const isNeeded = (key: string) =>
    key.startsWith('work.') || (key.startsWith('measure.') && measures.has(key.slice(8)));
  const words = LANGUAGE_IDS.map((language) => {
    const names = Object.entries(readSheet(language, 'names'));
    const spoken = {
      panel: readSheet(language, 'verify-panel'),
      checks: Object.fromEntries(
        Object.entries(readSheet(language, 'checks')).filter(([key]) => !OF_THE_SITE.test(key)),
      ),
      names: Object.fromEntries(names.filter(([key]) => isNeeded(key))),
    };
    return [language, spoken] as const;
  });
  const style = squeeze(
    readFileSync(at('../alone/alone.css'), 'utf8') + readFileSync(at('../verify.css'), 'utf8'),
  );
  const text = JSON.stringify({ style, words: Object.fromEntries(words) });
  return gzipSync(text, { level: 9 }).toString('base64');
}

async function bundle(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    define: { PACKED: JSON.stringify(packRest()) },
    build: {
      write: false,
      rollupOptions: {
        input: at('../alone/alone.ts'),
        output: { format: 'iife', entryFileNames: 'alone.js' },
      },
    },
  });
  const { output } = (Array.isArray(built) ? built[0] : built) as Rolldown.RolldownOutput;
  const [script] = output;
  if (output.length !== 1) throw new Error('The verifier must be one script.');
  // a word inside the script must not end it
  return script.code.replaceAll('</script', '<\\/script').trim();
}

/**
 * The one file that checks proofs alone: script, style and words inside it, and a policy of its own that
 * allows nothing else, so that it can neither send nor fetch.
 */
export async function buildVerifier(): Promise<string> {
  const script = await bundle();
  const policy = `default-src 'none'; script-src ${digest(script)}; base-uri 'none'; form-action 'none'`;
  const html = [
    '<!doctype html>',
    '<html lang="en" data-suggested="">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="content-security-policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<title>Check a proof</title>',
    '</head>',
    '<body>',
    '<main><noscript>This file needs script to check a proof. Diese Datei braucht Skript.</noscript></main>',
    `<script>${script}</script>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
  const bytes = Buffer.byteLength(html);
  if (bytes > LARGEST_VERIFIER)
    throw new Error(`The verifier weighs ${bytes} bytes, more than ${LARGEST_VERIFIER}.`);
  return html;
}
