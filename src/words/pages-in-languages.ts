import { readdirSync } from 'node:fs';
import { sep } from 'node:path';
import type { AstroIntegration } from 'astro';
import { LANGUAGE_IDS } from './languages.ts';

/** `lessons/[lesson]/job-aid.astro` is asked for as `/lessons/[lesson]/job-aid`. */
const patternOf = (file: string): string =>
  `/${file.replace(/\.astro$/, '').replace(/(^|\/)index$/, '')}`.replace(/(.)\/$/, '$1');

/**
 * Gives every page an address in each language, `/de/lessons/` beside `/lessons/`: the same page, which
 * reads its language from its address. Interfaces and files have no language.
 */
export function pagesInLanguages(): AstroIntegration {
  return {
    name: 'pages-in-languages',
    hooks: {
      'astro:config:setup': ({ injectRoute, config }) => {
        const folder = new URL('pages/', config.srcDir).pathname;
        const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
          .map((file) => file.split(sep).join('/'))
          .filter((file) => file.endsWith('.astro') && !/(^|\/)_/.test(file));
        for (const language of LANGUAGE_IDS) {
          if (language === 'en') continue;
          for (const file of files) {
            injectRoute({
              pattern: `/${language}${patternOf(file)}`,
              entrypoint: new URL(
                file.replaceAll('[', '%5B').replaceAll(']', '%5D'),
                new URL('pages/', config.srcDir),
              ),
            });
          }
        }
      },
    },
  };
}
