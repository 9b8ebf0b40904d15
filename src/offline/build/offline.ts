import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';
import { build } from 'vite';
import { listFiles } from './list-files.ts';

const kB = (bytes: number): string => `${Math.round(bytes / 1024)} kB`;

/** Builds the worker that keeps the course without a network, with the list of what this build holds. */
export function offline(): AstroIntegration {
  return {
    name: 'offline',
    hooks: {
      'astro:build:done': async ({ dir, logger }) => {
        const folder = fileURLToPath(dir).replace(/[\\/]$/, '');
        const { list, packed } = listFiles(folder);
        await build({
          configFile: false,
          logLevel: 'warn',
          publicDir: false,
          define: { BUILT_LIST: JSON.stringify(list) },
          build: {
            outDir: folder,
            emptyOutDir: false,
            copyPublicDir: false,
            rollupOptions: {
              input: fileURLToPath(new URL('../worker.ts', import.meta.url)),
              output: { format: 'iife', entryFileNames: 'worker.js' },
            },
          },
        });
        for (const [language, { pages, files, bytes }] of Object.entries(list.languages)) {
          const count = pages.length + files.length;
          logger.info(
            `kept without a network, ${language}: ${count} files, ${kB(bytes)}, over the network ${kB(packed[language] ?? 0)}`,
          );
        }
        const { files, bytes } = list.benches;
        logger.info(
          `kept with the first practice bench opened: ${files.length} files, ${kB(bytes)}, over the network ${kB(packed['bench'] ?? 0)}`,
        );
        logger.info(
          `kept on a device of a trainer, the practical sheet: ${list.sheet.files.length} files, ${kB(list.sheet.bytes)}, over the network ${kB(packed['sheet'] ?? 0)}`,
        );
      },
    },
  };
}
