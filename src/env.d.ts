declare namespace App {
  interface Locals {
    /** Who asks for this page; null for a stranger and on prerendered pages. */
    viewer: import('./accounts/index.ts').Viewer | null;
  }
}
