import type { PackChoice } from '../../src/pages/_pack/choice.ts';
import { type MadePack, makePack } from '../../src/pages/_pack/make-pack.ts';
import type { PackStage } from './stage.ts';

/** Where the site of the stage would be found. */
export const ADDRESS = 'https://saw.alderlane.example';

export const addressOf = (path: string): string => new URL(path, ADDRESS).href;

/** A pack about everybody and every bench of the stage, as the page has it made. */
export function makeStagePack(
  stage: PackStage,
  made: string,
  over: Partial<PackChoice> = {},
): Promise<MadePack> {
  const choice: PackChoice = {
    people: [],
    bench: null,
    asOf: stage.today,
    language: 'en',
    paper: 'a4',
    photos: 'left-out',
    earlier: '',
    ...over,
  };
  return makePack({ org: stage.org, choice, made, addressOf }, stage.site, '<!doctype html>\n');
}
