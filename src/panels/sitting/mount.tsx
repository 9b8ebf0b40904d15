import { render } from 'preact';
import { fitScreen } from '../bench/work/fit-screen.ts';
import { followUnit } from '../bench/work/follow-unit.ts';
import { SittingPanel } from './views/sitting-panel.tsx';
import { shelfFor } from './work/device-copy.ts';
import { holdOfTab, putDownHold } from './work/hold.ts';
import { connectSitting } from './work/protocol.ts';
import { createSitting } from './work/sitting.ts';

/** Puts the panel into `[data-panel="sitting"]`; `data-blueprint` names what is sat. */
export function mountSitting(): void {
  const root = document.querySelector<HTMLElement>('[data-panel="sitting"]');
  const blueprint = root?.dataset['blueprint'];
  if (root === null || blueprint === undefined) return;
  followUnit();
  const tab = () => sessionStorage;
  const hold = holdOfTab(tab);
  const sitting = createSitting({
    blueprint,
    hold,
    server: connectSitting((path, request) =>
      fetch(path, { ...request, keepalive: isSmall(request) }),
    ),
    shelf: shelfFor(() => localStorage),
    now: () => performance.now(),
    wait: (ms, then) => {
      setTimeout(then, ms);
    },
  });
  // leaving the page: what is on its way still goes, and the next page of this tab takes it up
  addEventListener('pagehide', () => {
    putDownHold(tab, hold);
    void sitting.send();
  });
  addEventListener('pageshow', (event) => {
    holdOfTab(tab);
    // back from another page as it was left: the server may know more by now
    if (event.persisted) void sitting.open('look');
  });
  addEventListener('online', () => void sitting.send());
  document.addEventListener('visibilitychange', () => void sitting.send());
  fitScreen(root);
  root.replaceChildren();
  render(<SittingPanel sitting={sitting} />, root);
  void sitting.open('look');
}

/** Bytes a browser lets go on after the page is left (Fetch standard, keepalive quota 64 KiB). */
const KEEPALIVE = 60_000;
const isSmall = (request: RequestInit | undefined): boolean =>
  String(request?.body ?? '').length < KEEPALIVE;
