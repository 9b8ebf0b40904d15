declare namespace App {
  interface Locals {
    /** Who asks for this page; null for a stranger and on prerendered pages. */
    viewer: import('./accounts/index.ts').Viewer | null;
    /** What a long reply waits for before each part; not there while the site is developed. */
    roomToSend?: () => Promise<void>;
  }
}

/** The built file that checks proofs alone; made by src/panels/verify/build. */
declare module 'virtual:verifier' {
  export const VERIFIER: string;
}

/** The methods each address takes, by its pattern without a language; read by src/server/methods-of-pages. */
declare module 'virtual:methods' {
  export const METHODS: Readonly<Record<string, readonly string[]>>;
}
