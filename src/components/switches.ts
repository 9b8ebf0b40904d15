/** The two switches in the header: millimetres or inches, light or dark. Browser code. */
import { formatLength } from '../geometry/index.ts';
import { figuresIn } from '../words/index.ts';
import { pageLanguage, pageUnit } from '../words/spoken.ts';

const root = document.documentElement;

function remember(key: string, value: string): void {
  // storage may be refused or full; the choice then lasts for this page
  try {
    localStorage.setItem(key, value);
  } catch {}
}

/** Rewrites every served length under `within` in the unit in force. */
export function showLengths(within: ParentNode = document): void {
  const unit = pageUnit();
  for (const span of within.querySelectorAll<HTMLElement>('.length[data-mm]')) {
    const { mm, digits = 1 } = span.dataset;
    span.textContent = figuresIn(pageLanguage(), formatLength(Number(mm), unit, Number(digits)));
  }
}

function pressUnit(): void {
  for (const button of document.querySelectorAll<HTMLElement>('[data-set-unit]')) {
    button.setAttribute('aria-pressed', String(button.dataset['setUnit'] === pageUnit()));
  }
}

function isDark(): boolean {
  return root.dataset['theme']
    ? root.dataset['theme'] === 'dark'
    : matchMedia('(prefers-color-scheme: dark)').matches;
}

function nameTheme(): void {
  for (const button of document.querySelectorAll<HTMLElement>('[data-switch-theme]')) {
    const { light = '', dark = '', sayLight = '', sayDark = '' } = button.dataset;
    button.textContent = isDark() ? light : dark;
    button.setAttribute('aria-label', isDark() ? sayLight : sayDark);
  }
}

export function startSwitches(): void {
  pressUnit();
  nameTheme();
  if (pageUnit() === 'inch') showLengths();
  document.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest('button') : null;
    if (button?.dataset['setUnit']) {
      root.dataset['unit'] = button.dataset['setUnit'];
      remember('unit', button.dataset['setUnit']);
      pressUnit();
      showLengths();
      document.dispatchEvent(new CustomEvent('unitchange', { detail: pageUnit() }));
    } else if (button && 'switchTheme' in button.dataset) {
      root.dataset['theme'] = isDark() ? 'light' : 'dark';
      remember('theme', root.dataset['theme']);
      nameTheme();
      document.dispatchEvent(new CustomEvent('themechange'));
    }
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', nameTheme);
}
