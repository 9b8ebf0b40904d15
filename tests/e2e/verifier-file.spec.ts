import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, type Page, test } from '@playwright/test';
import { buildVerifier, LARGEST_VERIFIER } from '../../src/panels/verify/build/build-verifier.ts';
import { readQuestion } from '../../src/panels/verify/question/index.ts';
import { verifyProof } from '../../src/records/index.ts';
import { axe } from '../helpers/axe.ts';
import { type ManyFile, makeManyFiles } from '../records/many-files.ts';

/** The file that checks proofs alone: opened from the disk with the network off, in its own policy. */
const ROOT = resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'signed-to-saw-'));
const place = join(folder, 'verifier.html');
let files: ManyFile[] = [];
let html = '';

test.beforeAll(async () => {
  html = await buildVerifier();
  writeFileSync(place, html);
  files = await makeManyFiles();
});
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

const address = () => pathToFileURL(place).href;

async function open(page: Page): Promise<string[]> {
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.context().setOffline(true);
  await page.goto(address());
  return asked;
}

async function ask(page: Page, { day, file, trusted }: ManyFile): Promise<string | null> {
  await page.getByLabel('Signers you trust').fill(trusted.join('\n'));
  await page.getByRole('textbox', { name: 'The proof' }).fill(JSON.stringify(file));
  await page.getByLabel('For which day').fill(day);
  await page.locator('.verify-answer').evaluate((node) => node.replaceChildren());
  await page.getByRole('button', { name: 'Check the proof' }).click();
  const answer = page.locator('[data-verdict]');
  await answer.waitFor();
  return answer.getAttribute('data-verdict');
}

/** The verdict of the command `verify`. */
function runCommand({ day, file, trusted }: ManyFile): Promise<string> {
  const words = ['src/cli/verify.ts', '-', '--json', '--at', day];
  const child = spawn(process.execPath, [...words, ...trusted.flatMap((did) => ['--trust', did])], {
    cwd: ROOT,
  });
  let out = '';
  child.stdout.on('data', (chunk) => {
    out += String(chunk);
  });
  child.stdin.end(JSON.stringify(file));
  return new Promise((done) => {
    child.on('close', () => done((JSON.parse(out) as { verdict: string }).verdict));
  });
}

test('page, file and command give each of many files the same verdict, and the right one', async ({
  page,
}) => {
  test.setTimeout(300_000);
  const asked = await open(page);
  expect(files.length).toBeGreaterThanOrEqual(40);
  const wrong: string[] = [];
  for (const one of files) {
    const question = readQuestion(
      { proof: JSON.stringify(one.file), signers: one.trusted.join('\n'), day: one.day },
      new Date(),
    );
    if (!question.ok) throw new Error(`${one.name}: ${question.problem}`);
    const byModule = (await verifyProof(question.file, question)).verdict;
    const [byFile, byCommand] = await Promise.all([ask(page, one), runCommand(one)]);
    if ([byModule, byFile, byCommand].some((found) => found !== one.verdict)) {
      wrong.push(`${one.name}: ${one.verdict}, not ${byModule} / ${byFile} / ${byCommand}`);
    }
  }
  expect(wrong).toEqual([]);
  expect([...new Set(files.map(({ verdict }) => verdict))]).toHaveLength(6);
  // nothing but the file itself was ever asked for
  expect(asked).toEqual([address()]);
});

test('weighs at most 60 kB, and its own policy lets nothing in or out', () => {
  const bytes = Buffer.byteLength(html);
  console.log(`verifier.html: ${(bytes / 1024).toFixed(1)} kB`);
  expect(bytes).toBeLessThanOrEqual(LARGEST_VERIFIER);
  expect(html).toContain("default-src 'none'; script-src 'sha256-");
  expect(html).not.toMatch(/https?:\/\/(?!www\.w3\.org)/);
});

test('takes the proof from a file chosen or dropped, and shows what it says', async ({ page }) => {
  await open(page);
  const leave = files.find(({ name }) => name === 'leave, all shown') as ManyFile;
  await page.getByLabel('Signers you trust').fill(`# by telephone\n${leave.trusted[0]}`);
  await page.getByLabel('For which day').fill(leave.day);
  await page.getByLabel('Choose the proof file').setInputFiles({
    name: 'proof.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(leave.file)),
  });
  const entry = page.getByRole('textbox', { name: 'The proof' });
  await expect(entry).toHaveValue(/authorisation-proof/);
  await page.getByRole('button', { name: 'Check the proof' }).click();
  const answer = page.locator('.verify-answer');
  await expect(answer.getByRole('heading', { name: 'What the check found' })).toBeFocused();
  for (const text of ['Genuine', 'Mira Holt', 'ripping, crosscutting', 'Anna Weir', '5.5 mm'])
    await expect(answer).toContainText(text);
  await entry.fill('');
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'proof.json'));
    const drop = new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true });
    document.querySelector('form')?.dispatchEvent(drop);
  }, JSON.stringify(leave.file));
  await expect(entry).toHaveValue(/authorisation-proof/);
});

test('trusts the key it was given only once the reader has compared it', async ({ page }) => {
  const leave = files.find(({ name }) => name === 'leave, all shown') as ManyFile;
  const own = leave.trusted[0] as string;
  writeFileSync(place, html.replace('data-suggested=""', `data-suggested="${own}"`));
  await open(page);
  const without = { ...leave, trusted: [] };
  expect(await ask(page, without)).toBe('not from a trusted signer');
  await expect(page.getByText('You named nobody to trust')).toBeVisible();
  await page.getByLabel('I compared it').check();
  expect(await ask(page, without)).toBe('genuine');
  writeFileSync(place, html);
});

test('says what is wrong beside the field, and keeps what was typed', async ({ page }) => {
  await open(page);
  const entry = page.getByRole('textbox', { name: 'The proof' });
  for (const [text, sentence] of [
    ['', 'The proof must be given'],
    ['{', 'The proof must be JSON'],
    ['{"format":"x"}', 'must be a proof file'],
  ] as const) {
    await entry.fill(text);
    await page.getByRole('button', { name: 'Check the proof' }).click();
    await expect(page.locator('#verify-proof-problem')).toContainText(sentence);
    await expect(entry).toBeFocused();
    await expect(entry).toHaveValue(text);
  }
  await entry.fill(JSON.stringify(files[0]?.file));
  await page.getByLabel('Signers you trust').fill('did:key:z6\n');
  await page.getByRole('button', { name: 'Check the proof' }).click();
  await expect(page.locator('#verify-signers-problem')).toContainText('Line 1');
});

for (const scheme of ['light', 'dark'] as const) {
  test(`speaks German, fits 320 px and reads well on a ${scheme} screen`, async ({ page }) => {
    await page.setViewportSize({ width: 320, height: 640 });
    await page.emulateMedia({ colorScheme: scheme });
    await open(page);
    await ask(page, files.find(({ name }) => name === 'leave, results shown') as ManyFile);
    const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
    expect(await wide()).toBeLessThanOrEqual(320);
    const { violations } = await axe(page).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    await page.getByRole('button', { name: 'Deutsch' }).click();
    await expect(page.locator('html')).toHaveAttribute('lang', 'de');
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(
      'Einen Nachweis prüfen, ohne Netz',
    );
    expect(await wide()).toBeLessThanOrEqual(320);
    const small = await page.locator('button, input').evaluateAll((nodes) =>
      nodes
        .filter((node) => !node.matches('[type="checkbox"]'))
        .filter((node) => node.getBoundingClientRect().height < 44)
        .map((node) => node.outerHTML),
    );
    expect(small).toEqual([]);
  });
}
