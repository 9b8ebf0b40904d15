import { satteri } from '@astrojs/markdown-satteri';
import mdx from '@astrojs/mdx';
import node from '@astrojs/node';
import preact from '@astrojs/preact';
import { defineConfig } from 'astro/config';
import { linkTradeWords } from './src/components/lesson/link-words.ts';
import { offline } from './src/offline/build/offline.ts';
import { leaveOutShaders } from './src/scene/leave-out-shaders.ts';
import { pagesInLanguages } from './src/words/pages-in-languages.ts';

// Lessons are prerendered; a page that needs a person says `export const prerender = false`.
// Nothing inline: the content policy in src/server allows only files from this site.
export default defineConfig({
  output: 'static',
  // without streaming, an error inside a page becomes a whole reply and not a page cut short
  adapter: node({ mode: 'middleware', experimentalDisableStreaming: true }),
  session: false,
  integrations: [
    mdx({ syntaxHighlight: false, processor: satteri({ mdastPlugins: [linkTradeWords()] }) }),
    preact(),
    pagesInLanguages(),
    offline(),
  ],
  trailingSlash: 'ignore',
  devToolbar: { enabled: false },
  telemetry: false,
  build: { inlineStylesheets: 'never', format: 'directory' },
  vite: { plugins: [leaveOutShaders()], build: { assetsInlineLimit: 0 } },
});
