import type { Page } from '@playwright/test';

/** The picture as pixels, in a page of its own: the site's content policy refuses data addresses. */
export async function readInOwnPage(page: Page, png: Buffer) {
  const own = await page.context().newPage();
  await own.setContent(`<img src="data:image/png;base64,${png.toString('base64')}">`);
  const pixels = await own.evaluate(async () => {
    const picture = document.querySelector('img')!;
    await picture.decode();
    const canvas = new OffscreenCanvas(picture.naturalWidth, picture.naturalHeight);
    const context = canvas.getContext('2d')!;
    context.drawImage(picture, 0, 0);
    const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
    return { data: [...data], width, height };
  });
  await own.close();
  return pixels;
}
