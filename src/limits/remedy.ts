/** What a person who finds a fault can do about it. The ids are fixed: claims and records name them. */
export const REMEDIES = {
  'stop-isolate': {
    title: 'Stop, isolate and lock off',
    means: 'Nobody works on or near the blade until the supply is locked off and the blade stands.',
  },
  'put-right': {
    title: 'Put it right before starting',
    means: 'A trained operator can set, clean or change it here, with the bench isolated.',
  },
  'take-out-of-service': {
    title: 'Take it out of service',
    means:
      'The part or the bench is marked and kept from use until a competent person has seen to it.',
  },
  report: {
    title: 'Report it',
    means: 'The supervisor is told, so that it is put right by whoever may do so.',
  },
} as const satisfies Record<string, { title: string; means: string }>;

export type RemedyId = keyof typeof REMEDIES;
export const REMEDY_IDS = Object.keys(REMEDIES) as [RemedyId, ...RemedyId[]];
