declare namespace App {
  interface Locals {
    /** Who asks for this page; null for a stranger and on prerendered pages. */
    viewer: import('./accounts/index.ts').Viewer | null;
  }
}

/** The built file that checks proofs alone; made by src/panels/verify/build. */
declare module 'virtual:verifier' {
  export const VERIFIER: string;
}
