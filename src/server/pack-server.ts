import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

/**
 * Packages that stay as they are installed: they look for files of their own beside themselves, or are not there
 * for everybody.
 */
const STAY = ['pdfkit', 'pg-native'];

/**
 * Packs the server and the packages it needs together with the pages, as `serve.mjs` beside them. Read from their own
 * files they are some 1,400, and finding each costs more than running it.
 */
export function packServer(): Plugin {
  return {
    name: 'pack-server',
    configEnvironment: (name) =>
      name === 'ssr' ? { resolve: { noExternal: true, external: STAY } } : undefined,
    applyToEnvironment: ({ name }) => name === 'ssr',
    buildStart() {
      const id = fileURLToPath(new URL('serve.ts', import.meta.url));
      this.emitFile({ type: 'chunk', id, fileName: 'serve.mjs' });
    },
  };
}
