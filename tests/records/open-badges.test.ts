import { readFileSync } from 'node:fs';
import { Ajv2019 } from 'ajv/dist/2019.js';
import { describe, expect, it } from 'vitest';
import type { JsonObject } from '../../src/records/index.ts';
import { sampleLeave } from './sample-authorisation.ts';
import { sampleProof } from './sample-log.ts';

/*
 * The JSON Schema (2019-09) of an Open Badges 3.0 AchievementCredential belongs to 1EdTech and is not in this
 * repository. Give its path in OB3_SCHEMA to run these; without it they are skipped.
 */
const path = process.env['OB3_SCHEMA'];

const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/;

function compile(file: string) {
  const ajv = new Ajv2019({
    strict: false,
    allErrors: true,
    formats: {
      'date-time': (text: string) => INSTANT.test(text) && Number.isFinite(Date.parse(text)),
      uri: (text: string) => URL.canParse(text),
      email: (text: string) => /^[^@\s]+@[^@\s]+$/.test(text),
      date: (text: string) => /^\d{4}-\d\d-\d\d$/.test(text),
    },
  });
  return ajv.compile(JSON.parse(readFileSync(file, 'utf8')));
}

describe.skipIf(path === undefined)(
  'against the schema of Open Badges 3.0 (skipped unless OB3_SCHEMA names the file)',
  async () => {
    const practical = await sampleProof();
    // VC 2.0 section 4.10 allows several status entries and Bitstring Status List 1.0 wants one a
    // purpose; this schema knows a single one, so the credential is held against it once with each.
    const each = (name: string, credential: JsonObject): [string, JsonObject][] =>
      [credential['credentialStatus']].flat().map((entry) => {
        const { statusPurpose } = entry as { statusPurpose: string };
        return [`${name}, status ${statusPurpose}`, { ...credential, credentialStatus: entry }];
      });
    const credentials = each('a sign-off', practical.file.credential);
    for (const shown of ['nothing', 'results', 'all'] as const) {
      const { credential } = (await sampleLeave({ shown })).file;
      credentials.push(...each(`leave, ${shown} shown`, credential));
    }

    it.each(credentials)('the credential of %s fits', (_, credential) => {
      const validate = compile(path as string);
      expect(validate(credential), JSON.stringify(validate.errors)).toBe(true);
    });

    it.each(['issuer', 'validFrom', 'credentialSubject', '@context', 'type'])(
      'a credential without %s does not',
      (field) => {
        const { [field]: _, ...rest } = practical.file.credential;
        expect(compile(path as string)(rest)).toBe(false);
      },
    );
  },
);
