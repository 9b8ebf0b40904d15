import { z } from 'zod';
import { can, grant, type Outcome, refuse, type Site, type Viewer } from '../../accounts/index.ts';
import type { Blueprint, RatingLine } from '../../assessment/index.ts';
import { newId } from '../../records/index.ts';
import { loadBlueprints } from '../../store/content-files.ts';
import { isIdConflict } from '../../store/index.ts';
import { readRequest } from '../requests.ts';
import { lastRatings, type MarkSetting, readMarkSetting } from './read-setting.ts';
import { type MarkView, viewMark } from './view-setting.ts';

export const WHY_NOT_SET =
  'A pass mark is set by trainers: two or more rate the test, and one of them puts the mark in force.';

type Desk = {
  readonly viewer: Viewer;
  readonly setting: MarkSetting;
  readonly view: MarkView;
};

/** The setting of a mark, for somebody who may take part in it. */
export async function openMark(
  site: Site,
  viewer: Viewer | null,
  blueprint: string,
): Promise<Outcome<Desk>> {
  if (viewer === null) return refuse(401, '', 'Sign in to do this.');
  if (!can(viewer, 'pass-mark.set', { org: viewer.org })) return refuse(403, '', WHY_NOT_SET);
  const found: Blueprint | undefined = loadBlueprints(site.contentDir).get(blueprint);
  if (found === undefined) {
    return refuse(404, 'blueprint', 'There is no test of that name.');
  }
  const setting = await readMarkSetting(site, viewer.org, found);
  return grant({ viewer, setting, view: viewMark(setting, viewer.person) });
}

const id = z.uuidv7({ error: 'must be a UUID of version 7' }).optional();
const version = z.int({ error: 'must be the version of the test you looked at' });

const RatingSchema = (lines: readonly RatingLine[]) => {
  const must = 'must be a share from 0 to 1';
  const share = z.number({ error: must }).min(0, { error: must }).max(1, { error: must });
  return z.strictObject(
    {
      /** made where the form was made, so that sending it twice enters it once */
      id,
      version,
      ratings: z.strictObject(Object.fromEntries(lines.map((line) => [line.id, share])), {
        error: (issue) =>
          issue.code === 'unrecognized_keys'
            ? `has no part named ${issue.keys.join(', ')}`
            : 'must give a share for each part',
      }),
    },
    { error: 'must be a group of fields: id, version, ratings' },
  );
};

const AdoptionSchema = z.strictObject(
  {
    id,
    version,
    /** the mark that was on the page, so that nobody puts in force what they have not seen */
    mark: z.int({ error: 'must be a whole number from 1 to 100' }),
  },
  { error: 'must be a group of fields: id, version, mark' },
);

const CHANGED =
  'The test has been changed since you opened this page, so nothing was entered; open it again.';

/** Enters one trainer's ratings for their next round. */
export async function rateBlueprint(
  site: Site,
  viewer: Viewer | null,
  blueprint: string,
  body: unknown,
): Promise<Outcome<{ readonly round: number }>> {
  const desk = await openMark(site, viewer, blueprint);
  if (!desk.ok) return desk;
  const { setting, view } = desk.value;
  const read = readRequest(RatingSchema(setting.lines), body);
  if (!read.ok) return read;
  if (read.value.version !== setting.blueprint.version) return refuse(409, 'version', CHANGED);
  const same = setting.rated.find(({ event }) => event === read.value.id);
  if (same !== undefined) return grant({ round: same.round });
  if (view.next === null) {
    return refuse(
      409,
      'ratings',
      view.judges < 2
        ? 'You have rated this test; a second round begins when another trainer has rated it too.'
        : 'You have rated this round; the next begins when another trainer has rated it too, and there are five at most.',
    );
  }
  const entered = await enter(site, desk.value, {
    id: read.value.id ?? newId(),
    kind: 'pass-mark.rated',
    body: { round: view.next, ratings: read.value.ratings as Record<string, number> },
  });
  return entered.ok ? grant({ round: view.next }) : entered;
}

/** Puts the mark in force that the ratings come to. */
export async function adoptMark(
  site: Site,
  viewer: Viewer | null,
  blueprint: string,
  body: unknown,
): Promise<Outcome<{ readonly mark: number }>> {
  const desk = await openMark(site, viewer, blueprint);
  if (!desk.ok) return desk;
  const { setting, view } = desk.value;
  const read = readRequest(AdoptionSchema, body);
  if (!read.ok) return read;
  if (read.value.version !== setting.blueprint.version) return refuse(409, 'version', CHANGED);
  const { settled, mayAdopt } = view;
  if (settled === null || !mayAdopt) {
    return refuse(
      409,
      'mark',
      settled === null
        ? 'No mark can be put in force before you and another trainer have rated the test.'
        : view.given < view.furthest
          ? 'Another trainer has gone on to the next round; give your own ratings for it first.'
          : 'This mark is in force already.',
    );
  }
  if (read.value.mark !== settled.mark) {
    return refuse(
      409,
      'mark',
      `The ratings come to a mark of ${settled.mark} now, not ${read.value.mark}, so nothing was put in force; look again.`,
    );
  }
  const entered = await enter(site, desk.value, {
    id: read.value.id ?? newId(),
    kind: 'pass-mark.adopted',
    body: {
      mark: settled.mark,
      method: 'modified-angoff',
      ratings: lastRatings(setting.rated).map(({ event }) => event),
    },
  });
  return entered.ok ? grant({ mark: settled.mark }) : entered;
}

type Entry =
  | {
      readonly id: string;
      readonly kind: 'pass-mark.rated';
      readonly body: { readonly round: number; readonly ratings: Record<string, number> };
    }
  | {
      readonly id: string;
      readonly kind: 'pass-mark.adopted';
      readonly body: {
        readonly mark: number;
        readonly method: 'modified-angoff';
        readonly ratings: string[];
      };
    };

async function enter(
  site: Site,
  { viewer, setting }: Desk,
  { id: event, kind, body }: Entry,
): Promise<Outcome<null>> {
  const { id: blueprint, version: blueprintVersion } = setting.blueprint;
  const frame = {
    id: event,
    version: 1,
    org: viewer.org,
    at: new Date().toISOString(),
    by: viewer.person,
    about: viewer.org,
  };
  const named = { blueprint, blueprintVersion };
  try {
    await site.store.append(
      kind === 'pass-mark.rated'
        ? { ...frame, kind, body: { ...named, ...body } }
        : { ...frame, kind, body: { ...named, ...body } },
    );
    return grant(null);
  } catch (error) {
    if (isIdConflict(error)) {
      return refuse(
        409,
        'id',
        'This form was sent before; open the page again to see what stands.',
      );
    }
    throw error;
  }
}
