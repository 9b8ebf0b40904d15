import { VERIFIER } from 'virtual:verifier';
import type { Site } from '../../accounts/index.ts';
import { didOf } from '../../records/index.ts';

/** The one file that checks proofs alone, with the key of this site in it for the reader to compare. */
export const verifierOf = ({ siteKey }: Pick<Site, 'siteKey'>): string =>
  VERIFIER.replace('data-suggested=""', `data-suggested="${didOf(siteKey.keyId)}"`);
