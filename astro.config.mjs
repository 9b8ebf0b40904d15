import mdx from '@astrojs/mdx';
import node from '@astrojs/node';
import preact from '@astrojs/preact';
import { defineConfig } from 'astro/config';

// Lessons are prerendered; a page that needs a person says `export const prerender = false`.
// Nothing inline: the content policy in src/server.ts allows only files from this site.
export default defineConfig({
  output: 'static',
  adapter: node({ mode: 'middleware' }),
  integrations: [mdx({ syntaxHighlight: false }), preact()],
  trailingSlash: 'ignore',
  devToolbar: { enabled: false },
  telemetry: false,
  build: { inlineStylesheets: 'never', format: 'directory' },
  vite: { build: { assetsInlineLimit: 0 } },
});
