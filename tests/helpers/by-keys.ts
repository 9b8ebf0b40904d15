import { expect, type Page } from '@playwright/test';

/** Working a page by keyboard alone, as somebody would who sees no picture. */

/** A graphics card that is not there. */
export async function withoutWebGL(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const real = HTMLCanvasElement.prototype.getContext;
    Object.defineProperty(HTMLCanvasElement.prototype, 'getContext', {
      value(this: HTMLCanvasElement, kind: string, ...rest: unknown[]) {
        return kind.startsWith('webgl') ? null : real.call(this, kind as '2d', ...(rest as []));
      },
    });
  });
}

/** What the keyboard is on: its accessible name as a screen reader would say it. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (!(at instanceof HTMLElement)) return '';
    const label = at.id ? document.querySelector(`label[for="${at.id}"]`)?.textContent : null;
    return (
      at.getAttribute('aria-label') ??
      label ??
      at.closest('label')?.textContent ??
      at.textContent ??
      ''
    ).trim();
  });

/** Tabs on until the keyboard stands on `name`. */
export async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    if (typeof name === 'string' ? at === name : name.test(at)) return;
    passed.push(at);
  }
  throw new Error(`the keyboard never reaches ${name}; it passed ${passed.join(' | ')}`);
}

export async function press(page: Page, name: string | RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

/** Opens a paper: the tabs are one stop, and arrows go from one to the next. */
export async function turnTo(page: Page, name: string): Promise<void> {
  await tabTo(page, /^(Result|Job|Parts|Faults\d*|Cut|Notebook)$/);
  for (let i = 0; i < 6 && !(await focused(page)).startsWith(name); i++) {
    await page.keyboard.press('ArrowRight');
  }
  expect(await focused(page)).toContain(name);
  await untilFetched(page);
}

/** A paper is fetched when it is first turned to; nobody can go on before it has come. */
async function untilFetched(page: Page): Promise<void> {
  await expect(page.locator('.bench-paper')).not.toContainText('One moment');
}

export async function openPart(page: Page, name: string): Promise<void> {
  await turnTo(page, 'Parts');
  if ((await page.locator('#bench-sheet-name').count()) > 0) await press(page, 'All parts');
  await press(page, name);
  await expect(page.locator('#bench-sheet-name')).toHaveText(name);
  // the keyboard is at the head of the sheet, so what follows is the part itself
  await expect(page.locator('#bench-sheet-name')).toBeFocused();
}
