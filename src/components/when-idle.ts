/** ms a browser is given to find a quiet moment, and waited where it cannot tell one. */
const LATEST = 10_000;
const QUIET = 3_000;

/** Once the page has loaded and has nothing better to do. */
export function whenIdle(work: () => void): void {
  const soon = () =>
    'requestIdleCallback' in globalThis
      ? requestIdleCallback(work, { timeout: LATEST })
      : setTimeout(work, QUIET);
  if (document.readyState === 'complete') soon();
  else addEventListener('load', soon, { once: true });
}
