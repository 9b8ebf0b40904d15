import english from '../../../content/messages/en/cosign.json' with { type: 'json' };
import { learnSheets, sayFrom } from '../../words/spoken.ts';
import {
  type DeviceLabel,
  guessDevice,
  isDeviceNew,
  newSignoffId,
  statementHashOf,
  whyNoSigning,
} from '../signing/index.ts';
import type { CosignProps } from './cosign-props.ts';
import { signAndSend } from './sign-cosign.ts';
import { type CosignAnswer, writeCosign } from './write-cosign.ts';

export type { CosignProps } from './cosign-props.ts';

const say = sayFrom('cosign', english);

const FIELDS: Readonly<Record<string, string>> = {
  answer: 'input[name="cosign-answer"]',
  note: '#cosign-note',
  password: '#cosign-password',
};

/** Puts one sentence beside the field to blame, and the focus into it. */
function showProblem(form: HTMLFormElement, path: string, message: string): void {
  const field = Object.hasOwn(FIELDS, path) ? path : '';
  for (const line of form.querySelectorAll<HTMLElement>('[data-problem]')) {
    const isIt = message !== '' && line.dataset['problem'] === field;
    line.hidden = !isIt;
    line.textContent = isIt ? message : '';
  }
  for (const [name, selector] of Object.entries(FIELDS)) {
    for (const input of form.querySelectorAll<HTMLElement>(selector)) {
      if (message !== '' && name === field) input.setAttribute('aria-invalid', 'true');
      else input.removeAttribute('aria-invalid');
    }
  }
  if (message !== '' && field !== '') form.querySelector<HTMLElement>(FIELDS[field] ?? '')?.focus();
}

function readAnswer(form: HTMLFormElement, id: string): CosignAnswer | null {
  const data = new FormData(form);
  const answer = data.get('cosign-answer');
  if (answer !== 'agrees' && answer !== 'disagrees') return null;
  const note = String(data.get('note') ?? '').trim();
  return { id, answer, note: note === '' ? null : note };
}

/** The first thing missing in the form: its field and one sentence. */
function findMissing(given: CosignAnswer | null): [string, string] | null {
  if (given === null) return ['answer', say('need.answer')];
  if (given.answer === 'disagrees' && given.note === null) return ['note', say('need.note')];
  return null;
}

/** By what the second trainer signs in again at the moment of signing. */
type By = 'password' | 'passkey';

type Sending = { readonly id: string; readonly by: By };

async function send(form: HTMLFormElement, props: CosignProps, how: Sending): Promise<boolean> {
  const data = new FormData(form);
  const password = String(data.get('password') ?? '');
  const given = readAnswer(form, how.id);
  const missing =
    findMissing(given) ??
    (how.by === 'password' && password === '' ? ['password', say('need.password')] : null);
  if (missing !== null || given === null) {
    showProblem(form, ...(missing ?? ['', '']));
    return false;
  }
  showProblem(form, '', '');
  try {
    const reply = await signAndSend(writeCosign(props, given), {
      about: props.statement.who.person,
      by: how.by === 'password' ? { password } : { failed: say('passkey.failed') },
      device: String(data.get('device')) as DeviceLabel,
    });
    if (reply.ok) return true;
    showProblem(form, reply.path, reply.message);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    showProblem(form, '', say('could-not', { reason }));
  }
  return false;
}

/** Brings the form of a second trainer to life: shows what is signed, signs on this device, and sends it. */
export async function mountCosign(): Promise<void> {
  const form = document.querySelector<HTMLFormElement>('form[data-panel="cosign"]');
  if (form === null) return;
  await learnSheets('cosign', 'signing');
  const props = JSON.parse(form.dataset['props'] ?? '{}') as CosignProps;
  const noScript = document.querySelector<HTMLElement>('[data-cosign-no-script]');
  const cannot = await whyNoSigning();
  if (cannot !== null) {
    if (noScript !== null) noScript.textContent = cannot;
    return;
  }
  noScript?.remove();
  const hash = form.querySelector('[data-cosign-hash]');
  if (hash !== null) hash.textContent = statementHashOf(props.statement);
  const device = form.querySelector<HTMLElement>('[data-cosign-device]');
  const choice = form.querySelector<HTMLSelectElement>('#cosign-device');
  if (choice !== null) choice.value = guessDevice();
  if (device !== null) device.hidden = !(await isDeviceNew(props.trainer.person).catch(() => true));

  // a fresh id for each word that is written, and the same for a word that is sent again
  let id = newSignoffId();
  const meaning = form.querySelector<HTMLElement>('[data-cosign-meaning]');
  form.addEventListener('input', (event) => {
    if ((event.target as HTMLElement).id === 'cosign-password') return;
    id = newSignoffId();
    const given = readAnswer(form, id);
    if (given !== null && meaning !== null) {
      meaning.textContent = writeCosign(props, given).meaning;
    }
  });
  const button = form.querySelector<HTMLButtonElement>('button[type="submit"]');
  const other = form.querySelector<HTMLButtonElement>('[data-cosign-passkey]');
  const name = button?.textContent ?? '';
  const sign = async (by: By) => {
    if (button === null || button.disabled) return;
    button.disabled = true;
    if (other !== null) other.disabled = true;
    button.textContent = say('signing');
    const isSigned = await send(form, props, { id, by });
    const password = form.querySelector<HTMLInputElement>('#cosign-password');
    if (password !== null) password.value = '';
    button.textContent = name;
    button.disabled = false;
    if (other !== null) other.disabled = false;
    if (isSigned) window.location.assign(props.done);
  };
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    void sign('password');
  });
  if (other !== null && 'PublicKeyCredential' in window) {
    other.hidden = false;
    other.addEventListener('click', () => void sign('passkey'));
  }
  form.hidden = false;
}
