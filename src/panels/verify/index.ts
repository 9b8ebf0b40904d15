import checkWords from '../../../content/messages/en/checks.json' with { type: 'json' };
import english from '../../../content/messages/en/verify-panel.json' with { type: 'json' };
import { sayAgain } from '../../words/index.ts';
import { pageLanguage, sayFrom } from '../../words/spoken.ts';
import { mountVerifier } from './view/mount-verifier.ts';

/** Mounts the check of a proof on the page of the site. The page brings names of work and measures along. */
export async function mountVerifyPage(): Promise<void> {
  const root = document.querySelector<HTMLElement>('[data-panel="verify"]');
  if (root === null) return;
  const names = JSON.parse(root.dataset['names'] ?? '{}') as Readonly<Record<string, string>>;
  const language = pageLanguage();
  await mountVerifier(root, {
    language,
    say: sayFrom('verify-panel', english),
    sayCheck: (sentence) =>
      sayAgain(checkWords, sentence, { language, say: sayFrom('checks', checkWords) }),
    name: (key) => names[key] ?? key,
  });
}
