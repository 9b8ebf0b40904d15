import checkWords from '../../../content/messages/en/checks.json' with { type: 'json' };
import english from '../../../content/messages/en/proof-panel.json' with { type: 'json' };
import { verifyProof } from '../../records/check/index.ts';
import { clockIn, sayAgain } from '../../words/index.ts';
import { pageLanguage, sayFrom } from '../../words/spoken.ts';
import { type CheckedPart, checkPieces, type RecordPieces } from './pieces/index.ts';

type Sentence = {
  readonly id: string;
  readonly state: 'ok' | 'failed' | 'unknown';
  readonly sentence: string;
};
type Found = {
  readonly broken: boolean;
  /** in a few words: a key of the sheet after `verdict.` */
  readonly verdict: string;
  readonly checks: readonly Sentence[];
};

const say = sayFrom('proof-panel', english);
const sayCheck = (sentence: string): string =>
  sayAgain(checkWords, sentence, {
    language: pageLanguage(),
    say: sayFrom('checks', checkWords),
  });

const KINDS = { ok: 'safe', failed: 'prohibition', unknown: 'none' } as const;

function verdictWord(state: Sentence['state']): HTMLSpanElement {
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  svg.setAttribute('class', 'mark');
  svg.setAttribute('aria-hidden', 'true');
  const use = document.createElementNS('http://www.w3.org/2000/svg', 'use');
  use.setAttribute('href', `/marks.svg#${KINDS[state]}`);
  svg.append(use);
  const span = document.createElement('span');
  span.className = 'verdict';
  span.append(svg, say(state));
  return span;
}

/** A check the site did not list gets a line of its own: this browser may stop at another one. */
function lineOf(sheet: HTMLElement, { id, sentence }: Sentence): Element | null {
  const found = sheet.querySelector(`[data-check="${CSS.escape(id)}"] [data-by-browser]`);
  if (found !== null) return found;
  const row = document.createElement('tr');
  const cells = [sayCheck(sentence), say('not-made'), ''].map((text) =>
    Object.assign(document.createElement('td'), { textContent: text }),
  );
  row.append(...cells);
  sheet.querySelector('.check-table tbody')?.append(row);
  return cells[2] ?? null;
}

function show(sheet: HTMLElement, line: HTMLElement, { verdict, checks }: Found): void {
  const time = clockIn(pageLanguage(), new Date());
  line.textContent = say('again', { time, verdict: say.maybe(`verdict.${verdict}`) ?? verdict });
  for (const check of checks) lineOf(sheet, check)?.replaceChildren(verdictWord(check.state));
}

async function checkFile(url: string, trusted: string): Promise<Found> {
  const reply = await fetch(url, { headers: { accept: 'application/json' } });
  if (reply.status === 409) {
    return { broken: true, verdict: 'no-proof', checks: [] };
  }
  if (!reply.ok) throw new Error(say('answered', { status: reply.status }));
  const file: unknown = await reply.json();
  const found = await verifyProof(file, { trusted: [trusted], at: new Date().toISOString() });
  const isBroken = found.verdict === 'altered' || found.verdict === 'not from a trusted signer';
  return { broken: isBroken, verdict: found.verdict, checks: found.checks };
}

async function checkStored(pieces: RecordPieces): Promise<Found> {
  const checks: readonly CheckedPart[] = await checkPieces(pieces);
  return { broken: true, verdict: 'broken', checks };
}

/**
 * Checks the record on this page once more, by this browser's own arithmetic. Whatever it finds broken
 * turns the whole sheet into one that says so, on the screen and on paper.
 */
export async function mountProofCheck(): Promise<void> {
  const sheet = document.querySelector<HTMLElement>('[data-panel="proof"]');
  const line = sheet?.querySelector<HTMLElement>('[data-browser-line]');
  if (sheet == null || line == null) return;
  sheet.querySelector('[data-print]')?.addEventListener('click', () => window.print());
  if (globalThis.crypto?.subtle === undefined) {
    line.textContent = say('no-crypto');
    return;
  }
  const { file = '', trusted = '', pieces } = sheet.dataset;
  try {
    const found =
      pieces === undefined
        ? await checkFile(file, trusted)
        : await checkStored(JSON.parse(pieces) as RecordPieces);
    if (found.broken) sheet.dataset['state'] = 'broken';
    show(sheet, line, found);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    line.textContent = say('not-fetched', { reason });
  }
}
