import { resolve } from 'node:path';
import type { BrowserContext, Page } from '@playwright/test';
import { build } from 'vite';
import { DEMO_PASSWORD } from './site.ts';

/** The modules of signing in a page of the built site, without the sheet's own screens. */
export type Signing = typeof import('./signing-in-page.ts');
export type WithSigning = { readonly signing: Signing };

let bundled: Promise<string> | null = null;

function bundle(): Promise<string> {
  bundled ??= build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: {
        entry: resolve(import.meta.dirname, 'signing-in-page.ts'),
        formats: ['es'],
        fileName: 'signing-in-page',
      },
      rollupOptions: { output: { codeSplitting: false } },
    },
  } as Parameters<typeof build>[0]).then((made) => {
    const [first] = Array.isArray(made) ? made : [made];
    const chunk = first !== undefined && 'output' in first ? first.output[0] : undefined;
    if (chunk?.type !== 'chunk') throw new Error('the modules could not be bundled');
    return chunk.code;
  });
  return bundled;
}

const MODULE = '/signing-in-page.js';

/** Lets pages of this browser fetch the modules as if the site had them. */
export async function offerSigning(context: BrowserContext): Promise<void> {
  const body = await bundle();
  await context.route(`**${MODULE}`, (route) =>
    route.fulfill({ contentType: 'text/javascript', body }),
  );
}

/** Loads the modules into an open page. */
export const loadSigning = (page: Page): Promise<void> =>
  page.evaluate(async (module) => {
    const signing = (await import(module)) as Signing;
    Object.assign(window, { signing });
  }, MODULE);

/** A page with the modules, in a browser that keeps no pages: what is tested here is the store. */
export async function openSigning(context: BrowserContext, url: string): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(() => {
    Reflect.deleteProperty(globalThis, 'caches');
  });
  await page.goto(`${url}/offline`);
  await loadSigning(page);
  return page;
}

/** Signs in over the interface, and returns the cookies of that session alone. */
export async function sessionOf(context: BrowserContext, url: string, who: string) {
  await context.clearCookies();
  const reply = await context.request.post(`${url}/sign-in`, {
    form: { email: `${who}@alderlane.example`, password: DEMO_PASSWORD },
    headers: { origin: url },
    maxRedirects: 0,
  });
  if (reply.status() !== 303) throw new Error(`signing in was answered with ${reply.status()}`);
  return context.cookies();
}
