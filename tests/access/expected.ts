/**
 * Who gets what at every address: the one table, written down apart from the code that decides. A column is how the
 * viewer stands to what the address is about (`standOf` in cells.ts): nobody is signed in, own, another trainee's
 * (`other`), a trainer about a trainee, about themselves (`trainerSelf`), about
 * another trainer where that differs (`colleague`), about what they signed (`signer`), the
 * employer; and for each role what is not there or belongs to another workshop (`Missing`). One value alone holds
 * for everybody. An address with a secret in it is `there` or `missing`.
 *
 * `sign-in` leads to the page for it and back; `to:` leads elsewhere; a method that is not named is refused, 405,
 * with those that are named in `Allow`. A form is sent empty, an interface gets `{}`: 400 and 422 mean that the door
 * was open and the form was not filled in.
 */
export type Row = string;
export type Rows = Partial<Readonly<Record<'GET' | 'POST' | 'PUT' | 'DELETE', Row>>>;

/** Built ahead, the same for everybody. */
const AHEAD: Rows = { GET: '200' };

export const EXPECTED: Readonly<Record<string, Rows>> = {
  '/': {
    GET: '200',
  },
  '/404': AHEAD,
  '/_image': { GET: '404', POST: '404', PUT: '404', DELETE: '404' },
  '/_server-islands/[name]': { GET: '404', POST: '404', PUT: '404', DELETE: '404' },
  '/again': AHEAD,
  '/api/attempts': {
    POST: '400',
  },
  '/api/attempts/submit': {
    POST: '400',
  },
  '/api/attempts/verdict': {
    POST: '400',
  },
  '/api/authorisation-proofs/[id]': {
    GET: 'nobody=401 own=200 other=403 traineeMissing=404 trainer=200 trainerMissing=404 trainerSelf=200 employer=200 employerMissing=404',
  },
  '/api/benches': {
    POST: 'nobody=401 own=403 trainer=400 employer=403',
  },
  '/api/checkpoints': {
    GET: 'nobody=401 own=403 trainer=200 employer=200',
  },
  '/api/device-keys': {
    POST: 'nobody=401 own=403 trainer=400 employer=403',
  },
  '/api/health': {
    GET: '200',
  },
  '/api/invitations': {
    GET: 'nobody=401 own=403 trainer=200 employer=403',
    POST: 'nobody=401 own=403 trainer=400 employer=403',
  },
  '/api/kit': {
    GET: 'nobody=401 own=403 trainer=200 employer=403',
  },
  '/api/pass-marks': {
    GET: 'nobody=401 own=403 trainer=200 employer=403',
  },
  '/api/pass-marks/[blueprint]/adoption': {
    POST: 'nobody=401 own=403 traineeMissing=403 trainer=400 trainerMissing=404 employer=403 employerMissing=403',
  },
  '/api/pass-marks/[blueprint]/ratings': {
    POST: 'nobody=401 own=403 traineeMissing=403 trainer=400 trainerMissing=404 employer=403 employerMissing=403',
  },
  '/api/people': {
    GET: 'nobody=401 own=403 trainer=200 employer=200',
  },
  '/api/people/me': {
    GET: '200',
  },
  '/api/photos/[digest]': {
    GET: 'nobody=401 own=200 other=403 traineeMissing=404 signer=200 trainerMissing=404 trainer=200 trainerSelf=200 employer=200 employerMissing=404',
    PUT: 'nobody=401 own=403 other=403 traineeMissing=403 signer=422 trainerMissing=404 trainer=403 trainerSelf=403 employer=403 employerMissing=403',
  },
  '/api/practicals': {
    POST: 'nobody=401 own=403 trainer=400 employer=403',
  },
  '/api/practicals/[id]/cosign': {
    POST: 'nobody=401 own=403 other=403 traineeMissing=403 signer=403 trainerMissing=404 trainer=400 trainerSelf=403 employer=403 employerMissing=403',
  },
  '/api/practicals/[id]/withdraw': {
    POST: 'nobody=401 own=403 other=403 traineeMissing=403 signer=400 trainerMissing=404 trainer=400 trainerSelf=403 employer=403 employerMissing=403',
  },
  '/api/practicals/confirm': {
    POST: 'nobody=401 own=403 trainer=400 employer=403',
  },
  '/api/progress': {
    GET: '200',
    POST: 'nobody=401 own=400 trainer=400 employer=401',
    DELETE: 'nobody=401 own=200 trainer=200 employer=401',
  },
  '/api/proofs/[id]': {
    GET: 'nobody=401 own=200 other=403 traineeMissing=404 signer=200 trainerMissing=404 trainer=200 trainerSelf=200 employer=200 employerMissing=404',
  },
  '/api/sittings': {
    POST: '400',
  },
  '/api/sittings/hand-in': {
    POST: 'nobody=401 own=400 trainer=400 employer=400',
  },
  '/api/sittings/more': {
    POST: 'nobody=401 own=400 trainer=400 employer=400',
  },
  '/api/sittings/save': {
    POST: 'nobody=401 own=400 trainer=400 employer=400',
  },
  '/attempts/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=404 trainer=200 trainerMissing=404 trainerSelf=200 employer=403 employerMissing=404',
  },
  '/authorisations': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=200',
  },
  '/authorisations/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=404 trainer=200 trainerMissing=404 trainerSelf=200 employer=200 employerMissing=404',
    POST: 'nobody=sign-in own=403 other=403 traineeMissing=404 trainer=400 trainerMissing=404 trainerSelf=403 employer=400 employerMissing=404',
  },
  '/authorisations/new': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
    POST: 'nobody=sign-in own=403 trainer=400 employer=400',
  },
  '/bench/[task]': AHEAD,
  '/board': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
    POST: 'nobody=sign-in own=403 trainer=400 employer=403',
  },
  '/calendar/[token].ics': {
    GET: 'there=200 missing=404',
  },
  '/checkpoints': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
    POST: 'nobody=sign-in own=403 trainer=400 employer=400',
  },
  '/devices': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
    POST: 'nobody=sign-in own=403 trainer=400 employer=400',
  },
  '/due': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=200',
    POST: 'nobody=sign-in own=400 trainer=400 employer=400',
  },
  '/earlier': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
    POST: 'nobody=sign-in own=403 trainer=422 employer=403',
  },
  '/erasing': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
  },
  '/erasing/[id]': {
    GET: 'nobody=sign-in own=403 other=403 traineeMissing=403 trainer=200 trainerMissing=404 trainerSelf=403 employer=200 employerMissing=404',
    POST: 'nobody=sign-in own=403 other=403 traineeMissing=403 trainer=400 trainerMissing=404 trainerSelf=403 employer=400 employerMissing=404',
  },
  '/my-data': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=200',
    POST: 'nobody=sign-in own=400 trainer=400 employer=400',
  },
  '/my-data/copy.json': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=200',
  },
  '/my-data/organisation.json': {
    GET: 'nobody=sign-in own=403 trainer=403 employer=200',
  },
  '/api/packs/[id]': {
    GET: 'nobody=401 traineeMissing=403 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
  },
  '/api/packs/[id]/[file]': {
    GET: 'nobody=401 traineeMissing=403 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
  },
  '/pack': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
    POST: 'nobody=sign-in own=403 trainer=400 employer=400',
  },
  '/pack/[id]': {
    GET: 'nobody=sign-in traineeMissing=403 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
  },
  '/share': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
    POST: 'nobody=sign-in own=403 trainer=400 employer=400',
  },
  '/shared/[token]': {
    GET: 'there=200 missing=404',
  },
  '/shared/[token]/[file]': {
    GET: 'there=200 missing=404',
  },
  '/glossary': AHEAD,
  '/privacy': AHEAD,
  '/who-may/matrix.csv': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
  },
  '/who-may/statements.jsonl': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
  },
  '/groups': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
    POST: 'nobody=sign-in own=403 trainer=400 employer=403',
  },
  '/groups/[id]': {
    GET: 'nobody=sign-in own=403 traineeMissing=403 trainer=200 trainerMissing=404 employer=403 employerMissing=403',
    POST: 'nobody=sign-in own=403 traineeMissing=403 trainer=400 trainerMissing=400 employer=403 employerMissing=403',
  },
  '/invitation/[token]': {
    GET: 'there=200 missing=404',
    POST: 'there=400 missing=404',
  },
  '/invite': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
    POST: 'nobody=sign-in own=403 trainer=422 employer=403',
  },
  '/lessons': AHEAD,
  '/lessons/[lesson]': AHEAD,
  '/lessons/[lesson]/job-aid': AHEAD,
  '/limits': {
    GET: '200',
  },
  '/my-book': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=403',
  },
  '/offline': AHEAD,
  '/other-rules': {
    GET: '200',
    POST: '200',
  },
  '/pass-marks': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
  },
  '/pass-marks/[blueprint]': {
    GET: 'nobody=sign-in own=403 traineeMissing=403 trainer=200 trainerMissing=404 employer=403 employerMissing=403',
    POST: 'nobody=sign-in own=403 traineeMissing=403 trainer=400 trainerMissing=404 employer=403 employerMissing=403',
  },
  '/api/passkeys/answer': {
    POST: '400',
  },
  '/api/passkeys/ask': {
    POST: '400',
  },
  '/my-sign-in': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=200',
    POST: 'nobody=sign-in own=400 trainer=400 employer=400',
  },
  '/new-password/[token]': {
    GET: 'there=200 missing=404',
    POST: 'there=400 missing=404',
  },
  '/people/[id]/reset': {
    GET: 'nobody=sign-in own=403 other=403 traineeMissing=403 trainer=200 colleague=403 trainerMissing=403 trainerSelf=403 employer=200 employerMissing=403',
    POST: 'nobody=sign-in own=403 other=403 traineeMissing=403 trainer=400 colleague=403 trainerMissing=403 trainerSelf=403 employer=400 employerMissing=403',
  },
  '/people/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=403 trainer=200 trainerMissing=404 trainerSelf=200 employer=200 employerMissing=404',
    POST: 'nobody=sign-in own=403 other=403 traineeMissing=403 trainer=400 trainerMissing=404 trainerSelf=400 employer=403 employerMissing=404',
  },
  '/practical/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=404 signer=200 trainerMissing=404 trainer=200 trainerSelf=200 employer=200 employerMissing=404',
    POST: 'nobody=sign-in own=400 other=403 traineeMissing=404 signer=400 trainerMissing=404 trainer=400 trainerSelf=400 employer=400 employerMissing=404',
  },
  '/practical/new': {
    GET: 'nobody=sign-in own=403 trainer=to:/practical/sheet employer=403',
  },
  '/practical/sheet': AHEAD,
  '/practice': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=403',
    POST: 'nobody=sign-in own=400 trainer=400 employer=403',
  },
  '/proof/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=404 signer=200 trainerMissing=404 trainer=200 trainerSelf=200 employer=200 employerMissing=404',
  },
  '/proof/leave/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=403 trainer=200 trainerMissing=404 trainerSelf=200 employer=200 employerMissing=404',
  },
  '/register': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=200',
  },
  '/register/[id]': {
    GET: 'nobody=sign-in own=200 traineeMissing=404 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
  },
  '/register/[id]/check': {
    GET: 'nobody=sign-in own=200 traineeMissing=404 trainer=200 trainerMissing=404 employer=403 employerMissing=404',
    POST: 'nobody=sign-in own=400 traineeMissing=404 trainer=400 trainerMissing=404 employer=403 employerMissing=404',
  },
  '/register/[id]/label': {
    GET: 'nobody=sign-in own=200 traineeMissing=404 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
  },
  '/register/[id]/report': {
    GET: 'nobody=sign-in own=200 traineeMissing=404 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
    POST: 'nobody=sign-in own=400 traineeMissing=404 trainer=400 trainerMissing=404 employer=400 employerMissing=404',
  },
  '/register/[id]/service': {
    GET: 'nobody=sign-in own=200 traineeMissing=404 trainer=200 trainerMissing=404 employer=200 employerMissing=404',
    POST: 'nobody=sign-in own=400 traineeMissing=404 trainer=400 trainerMissing=404 employer=400 employerMissing=404',
  },
  '/register/new': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
    POST: 'nobody=sign-in own=403 trainer=400 employer=403',
  },
  '/rules': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
    POST: 'nobody=sign-in own=403 trainer=400 employer=400',
  },
  '/search': AHEAD,
  '/search/[language].json': AHEAD,
  '/set-up': {
    GET: '200',
    POST: '400',
  },
  '/sign-in': {
    GET: 'nobody=200 own=to:/my-book trainer=to:/board employer=to:/who-may',
    POST: '400',
  },
  '/sign-out': {
    GET: 'to:/',
    POST: 'to:/',
  },
  '/sittings/[id]': {
    GET: 'nobody=sign-in own=200 other=403 traineeMissing=404 trainer=200 trainerMissing=404 trainerSelf=200 employer=403 employerMissing=404',
    POST: 'nobody=sign-in own=400 other=403 traineeMissing=404 trainer=400 trainerMissing=404 trainerSelf=400 employer=403 employerMissing=404',
  },
  '/test-figures': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=403',
  },
  '/tests': {
    GET: 'nobody=sign-in own=200 trainer=200 employer=403',
  },
  '/tests/[blueprint]': AHEAD,
  '/verifier.html': {
    GET: '200',
  },
  '/verify': AHEAD,
  '/who-may': {
    GET: 'nobody=sign-in own=403 trainer=200 employer=200',
  },
  '/words/[language]/[sheet].json': AHEAD,
  '/workings': {
    GET: '200',
  },
};
