import { AsyncLocalStorage } from 'node:async_hooks';
import { ofProcess } from '../../src/logging/index.ts';
import { NOBODY, WHOLE_SITE } from '../../src/store/asking.ts';

let byDefault = NOBODY;

/**
 * Says who asks the database wherever a test does not say it itself, as the server does for each request: behind
 * the walls nobody sees anything.
 */
export function askByDefault(who: { readonly org: string } | 'site' | 'nobody'): void {
  byDefault = who === 'site' ? WHOLE_SITE : who === 'nobody' ? NOBODY : who.org;
}

const askings = ofProcess('asking', () => new AsyncLocalStorage<{ who: string }>());
const saidInTest = askings.getStore.bind(askings);
askings.getStore = () => saidInTest() ?? (byDefault === NOBODY ? undefined : { who: byDefault });
