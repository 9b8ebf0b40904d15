/** Verbs and kinds of activity of the public vocabulary at adlnet.gov, from memory. */
const ADL = 'http://adlnet.gov/expapi';

type Word = { readonly id: string; readonly display: { readonly en: string } };

const publicVerb = (name: string): Word => ({
  id: `${ADL}/verbs/${name}`,
  display: { en: name },
});

/** An address of this site that stands for a word no public vocabulary has. It opens no page. */
const ownVerb = (site: string, name: string, said: string): Word => ({
  id: new URL(`/xapi/verbs/${name}`, site).href,
  display: { en: said },
});

/** @param site address of the site */
export const verbsOf = (site: string) => ({
  completed: publicVerb('completed'),
  passed: publicVerb('passed'),
  /** a practical that ended with "not yet": what was to be shown was not shown */
  failed: publicVerb('failed'),
  withdrawn: ownVerb(site, 'sign-off-withdrawn', 'had a sign-off withdrawn for'),
  authorised: ownVerb(site, 'authorised', 'was authorised in writing for'),
  rested: ownVerb(site, 'authorisation-suspended', 'had an authorisation laid to rest for'),
  refreshed: ownVerb(site, 'authorisation-refreshed', 'had an authorisation refreshed for'),
  ended: ownVerb(site, 'authorisation-ended', 'had an authorisation ended for'),
});

/** @param site address of the site */
export const activityTypesOf = (site: string) => {
  const own = (name: string) => new URL(`/xapi/activities/${name}`, site).href;
  return {
    assessment: `${ADL}/activities/assessment`,
    simulation: `${ADL}/activities/simulation`,
    performance: `${ADL}/activities/performance`,
    bench: own('bench'),
    work: own('work'),
    authorisation: own('authorisation'),
  };
};
