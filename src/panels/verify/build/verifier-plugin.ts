import type { Plugin } from 'vite';
import { buildVerifier } from './build-verifier.ts';

const NAME = 'virtual:verifier';
const RESOLVED = `\0${NAME}`;

/** Gives the server's code the built file that checks proofs alone, as text. */
export function verifierFile(): Plugin {
  let built: Promise<string> | undefined;
  return {
    name: 'verifier-file',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: async (id) => {
      if (id !== RESOLVED) return undefined;
      built ??= buildVerifier();
      return `export const VERIFIER = ${JSON.stringify(await built)};`;
    },
  };
}
