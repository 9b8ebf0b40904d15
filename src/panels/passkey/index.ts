import type {
  PublicKeyCredentialCreationOptionsJSON,
  PublicKeyCredentialRequestOptionsJSON,
} from '@simplewebauthn/browser';
import { pageLanguage } from '../../words/spoken.ts';

/**
 * The buttons of a page that use a passkey. The page says in data attributes what for, where to go afterwards and what
 * to say when the browser gave up; the library is fetched at the first press.
 */

type Reply = { readonly ok: boolean; readonly value: unknown; readonly sentence: string | null };

const sentenceIn = (value: unknown): string | null => {
  if (typeof value !== 'object' || value === null || !('error' in value)) return null;
  const { error } = value;
  const found = typeof error === 'object' && error !== null && 'message' in error;
  return found && typeof error.message === 'string' ? error.message : null;
};

async function post(path: string, body: unknown): Promise<Reply> {
  const reply = await fetch(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'x-language': pageLanguage() },
    body: JSON.stringify(body),
  });
  const value: unknown = await reply.json().catch(() => null);
  return { ok: reply.ok, value, sentence: sentenceIn(value) };
}

/** Asks the passkey and tells the site what it answered. Returns a sentence when it was not taken. */
async function usePasskey(use: string, name: string): Promise<string | null> {
  const asked = await post('/api/passkeys/ask', { for: use });
  if (!asked.ok) return asked.sentence ?? '';
  const { startAuthentication, startRegistration } = await import('@simplewebauthn/browser');
  const answer =
    use === 'add'
      ? await startRegistration({
          optionsJSON: asked.value as PublicKeyCredentialCreationOptionsJSON,
        })
      : await startAuthentication({
          optionsJSON: asked.value as PublicKeyCredentialRequestOptionsJSON,
        });
  const taken = await post('/api/passkeys/answer', { for: use, answer, name });
  return taken.ok ? null : (taken.sentence ?? '');
}

/** Asks the passkey about the text on the page, and sends the form with what it answered. */
async function signForm(part: HTMLElement): Promise<string | null> {
  const form = part.closest('form');
  const held = part.querySelector<HTMLInputElement>('input[name="passkey"]');
  const sign = form?.querySelector<HTMLButtonElement>('[data-passkey-sign]');
  if (form === null || held === null || sign == null) return '';
  const statements = [part.dataset['statement'] ?? ''];
  const asked = await post('/api/passkeys/ask', { for: 'sign', statements, key: null });
  if (!asked.ok) return asked.sentence ?? '';
  const { startAuthentication } = await import('@simplewebauthn/browser');
  const answer = await startAuthentication({
    optionsJSON: asked.value as PublicKeyCredentialRequestOptionsJSON,
  });
  held.value = JSON.stringify(answer);
  form.requestSubmit(sign);
  return null;
}

function startOne(part: HTMLElement): void {
  const button = part.querySelector<HTMLButtonElement>('[data-passkey-do]');
  const problem = part.querySelector<HTMLElement>('[data-passkey-problem]');
  const name = part.querySelector<HTMLInputElement>('[data-passkey-name]');
  if (button === null || problem === null) return;
  part.hidden = false;
  button.addEventListener('click', async () => {
    button.disabled = true;
    problem.hidden = true;
    const use = part.dataset['passkey'] ?? '';
    // the browser throws when the person closes its window, and when it cannot
    const using = use === 'sign' ? signForm(part) : usePasskey(use, name?.value ?? '');
    const wrong = await using.catch(() => '');
    if (wrong === null) {
      if (use !== 'sign') location.assign(part.dataset['next'] ?? '/');
      return;
    }
    problem.textContent = wrong || (part.dataset['failed'] ?? '');
    problem.hidden = false;
    button.disabled = false;
  });
}

/** Shows the buttons of the page, where this browser knows passkeys. */
export function startPasskeys(): void {
  if (typeof window.PublicKeyCredential !== 'function') return;
  for (const part of document.querySelectorAll<HTMLElement>('[data-passkey][hidden]')) {
    startOne(part);
  }
}
