import { satteri } from '@astrojs/markdown-satteri';
import mdx from '@astrojs/mdx';
import node from '@astrojs/node';
import preact from '@astrojs/preact';
import { defineConfig } from 'astro/config';
import { linkTradeWords } from './src/components/lesson/link-words.ts';
import { offline } from './src/offline/build/offline.ts';
import { verifierFile } from './src/panels/verify/build/verifier-plugin.ts';
import { leaveOutShaders } from './src/scene/leave-out-shaders.ts';
import { methodsTaken } from './src/server/methods-of-pages.ts';
import { packServer } from './src/server/pack-server.ts';
import { pagesInLanguages } from './src/words/pages-in-languages.ts';

// What every page with a bench loads at once is packed in a few files: many small ones do not pack well.
const within = (folder, names) =>
  new RegExp(`src/${folder}/(${names.join('|')})\\.(ts|tsx)$`.replaceAll('/', '[\\\\/]'));
const PANEL_VIEWS =
  'bench-panel papers later foot job-card doorway stage-view picture-view drawing-view supply-flag reading-plate stock-sketch tray voice camera-pad tool-icon group mark';
const PANEL_WORK =
  'attempt desk fit-screen follow-unit focus-soon parts protocol readings say-action say-effect screen server shelf stage-loader words';
const ENGINE =
  'transition turning actions is-trial instruments measuring-points knife-edge slide-knife play walk measures/[\\w-]+ shape/[\\w-]+';
const PANEL = new RegExp(
  [
    within('panels/bench/views', PANEL_VIEWS.split(' ')),
    within('panels/bench/work', PANEL_WORK.split(' ')),
    /messages[\\/]en[\\/]bench-panel\.json$/,
  ]
    .map(({ source }) => source)
    .join('|'),
);
// a packed file takes along what it needs, so what lessons need as well is set apart first
const COMMON = /vite[\\/]preload-helper|src[\\/](words[\\/][\w-]+|geometry[\\/]units)\.ts$/;
const groups = [
  { name: 'common', test: COMMON, priority: 1 },
  { name: 'view', test: /node_modules[\\/]@?preact[\\/]/ },
  { name: 'engine', test: within('bench', ENGINE.split(' ')) },
  { name: 'panel', test: PANEL },
];

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
  vite: {
    plugins: [leaveOutShaders(), verifierFile(), methodsTaken(), packServer()],
    build: { assetsInlineLimit: 0 },
    environments: {
      client: {
        build: {
          rolldownOptions: {
            output: { codeSplitting: { groups } },
          },
        },
      },
    },
  },
});
