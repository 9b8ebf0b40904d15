import { type Action, type Bench, settingNow } from '../../../bench/index.ts';
import { say } from './words.ts';

/** What an action that brought no news is answered with, so that nobody is left wondering. */
export function sayAction(action: Action, bench: Bench | null): string {
  switch (action.do) {
    case 'isolate':
    case 'reconnect':
    case 'rest-fingers':
    case 'raise-fingers':
      return say(`now.${action.do}`);
    case 'unlock':
    case 'lock':
      return say(`now.${action.do}`, { part: say(`part.${action.part}`) });
    case 'set': {
      const now = bench === null ? null : settingNow(bench, action.setting);
      return now === null
        ? ''
        : say('now.set', { what: say(`setting.${action.setting}`), is: { mm: now, digits: 2 } });
    }
    default:
      return '';
  }
}
