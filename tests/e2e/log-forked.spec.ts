import { expect, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { sessionOf } from '../helpers/signing-page.ts';
import { startSite } from '../helpers/site.ts';

test('a log that does not go on is said on the sheet and among the devices until a person ends it', async ({
  context,
  page,
}) => {
  test.setTimeout(60_000);
  const site = await startSite('demo');
  try {
    await sessionOf(context, site.url, 'ruth.amsel').then((cookies) => context.addCookies(cookies));
    const asked = '**/api/checkpoints?from=*';
    const first = page.waitForResponse(asked);
    await page.goto(`${site.url}/practical/sheet`);
    expect((await first).status()).toBe(200);
    const notice = page.locator('[data-forked-log]');
    const grown = page.waitForResponse(asked);
    await page.goto(`${site.url}/devices`);
    expect(Number(new URL((await grown).url()).searchParams.get('from'))).toBeGreaterThan(0);
    await expect(notice).toBeHidden();
    // the same log with another root, as a site with a changed history would show it
    await context.route(asked, async (route) => {
      const reply = await route.fetch({ maxRetries: 2 });
      const { checkpoint, path } = await reply.json();
      const lines = checkpoint.split('\n');
      lines[2] = btoa('x'.repeat(32));
      await route.fulfill({ response: reply, json: { checkpoint: lines.join('\n'), path } });
    });
    await page.goto(`${site.url}/de/devices`);
    await expect(notice).toBeVisible();
    await expect(notice).toContainText('Das Protokoll dieser Seite wurde verändert');
    const { violations } = await axe(page)
      .options({ rules: { 'label-content-name-mismatch': { enabled: true } } })
      .analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
    // the site is as before: the notice is not the site's to take away
    await context.unroute(asked);
    await page.goto(`${site.url}/practical/sheet`);
    await expect(page.getByRole('alert')).toContainText('The log of this site was changed.');
    await page.getByRole('link', { name: 'See both seals, and what to do' }).click();
    await page.getByRole('button', { name: 'It is dealt with: end this notice' }).click();
    await expect(notice).toBeHidden();
    await page.reload();
    await expect(notice).toBeHidden();
  } finally {
    await site.stop();
  }
});
