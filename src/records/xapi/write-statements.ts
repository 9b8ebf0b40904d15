import { canonicalText } from '../check/index.ts';
import type { EventKindName, EventOf, LogEvent } from '../events/index.ts';
import type { XapiActivity, XapiAgent, XapiStatement } from './statement-schema.ts';
import { activityTypesOf, verbsOf } from './vocabulary.ts';

/** Kinds of events that a statement is made of or named by. */
export const XAPI_KINDS = [
  'attempt.started',
  'attempt.submitted',
  'sitting.started',
  'sitting.handed-in',
  'practical.signed',
  'practical.withdrawn',
  'authorisation.given',
  'authorisation.suspended',
  'authorisation.refreshed',
  'authorisation.ended',
] as const satisfies readonly EventKindName[];

type Said = Pick<XapiStatement, 'actor' | 'verb' | 'object'> &
  Pick<Partial<XapiStatement>, 'result' | 'context'>;

/** What earlier events have told of what later ones only name by id. */
type Told = {
  readonly task: Map<string, string>;
  readonly unit: Map<string, XapiActivity>;
  readonly leave: Map<string, XapiActivity>;
};

/**
 * Makes statements of events one after another, in the order of the log, so that an event finds what an
 * earlier one said of it. One event gives one statement or none, under its own id.
 *
 * @param site address of the site, which ids are joined to
 */
export function makeStatements(site: string): (event: LogEvent) => XapiStatement | null {
  const verbs = verbsOf(site);
  const types = activityTypesOf(site);
  const told: Told = { task: new Map(), unit: new Map(), leave: new Map() };
  const homePage = new URL('/', site).href;
  const agent = (name: string): XapiAgent => ({
    objectType: 'Agent',
    account: { homePage, name },
  });
  const activity = (path: string, type: string, name: string): XapiActivity => ({
    objectType: 'Activity',
    id: new URL(path, site).href,
    definition: { type, name: { en: name } },
  });
  const benchOf = (bench: { readonly id: string; readonly asset: string }) =>
    activity(`/register/${bench.id}`, types.bench, bench.asset);
  const workOf = (work: string) => activity(`/xapi/work/${work}`, types.work, work);

  function ofPractical({ body }: EventOf<'practical.signed'>): Said {
    const { bench, decision, trainer, unit, who, work } = body.statement;
    const object = activity(`/xapi/units/${unit.id}`, types.performance, unit.title);
    told.unit.set(body.signoff, object);
    const isSigned = decision === 'signed-off';
    return {
      actor: agent(who.person),
      verb: isSigned ? verbs.passed : verbs.failed,
      object,
      result: { success: isSigned, completion: true },
      context: {
        instructor: agent(trainer.person),
        contextActivities: { grouping: [benchOf(bench)], category: [workOf(work)] },
      },
    };
  }

  function ofLeave({ body, id }: EventOf<'authorisation.given'>): Said {
    const { bench, by, who, work } = body.statement;
    const object = activity(
      `/authorisations/${id}`,
      types.authorisation,
      `${work.join(', ')}, ${bench.asset}`,
    );
    told.leave.set(id, object);
    return {
      actor: agent(who.person),
      verb: verbs.authorised,
      object,
      context: {
        instructor: agent(by.person),
        contextActivities: { grouping: [benchOf(bench)], category: work.map(workOf) },
      },
    };
  }

  /** What became of an authorisation or a sign-off, by whoever entered it. */
  const ofLater = (
    event: LogEvent,
    about: { verb: Said['verb']; object: XapiActivity; first: string },
  ): Said | null =>
    event.about === null
      ? null
      : {
          actor: agent(event.about),
          verb: about.verb,
          object: about.object,
          context: {
            instructor: agent(event.by),
            statement: { objectType: 'StatementRef', id: about.first },
          },
        };

  const leaveOf = (id: string) =>
    told.leave.get(id) ?? activity(`/authorisations/${id}`, types.authorisation, id);

  function said(event: LogEvent): Said | null {
    switch (event.kind) {
      case 'attempt.started':
        told.task.set(event.body.attempt, event.body.task);
        return null;
      case 'sitting.started':
        told.task.set(event.body.attempt, event.body.blueprint);
        return null;
      case 'attempt.submitted': {
        const task = told.task.get(event.body.attempt) ?? event.body.attempt;
        told.task.delete(event.body.attempt);
        return {
          actor: agent(event.by),
          verb: verbs.completed,
          object: activity(`/bench/${task}`, types.simulation, task),
          result: { completion: true },
        };
      }
      case 'sitting.handed-in': {
        const test = told.task.get(event.body.attempt) ?? event.body.attempt;
        told.task.delete(event.body.attempt);
        return {
          actor: agent(event.by),
          verb: verbs.completed,
          object: activity(`/tests/${test}`, types.assessment, test),
          result: { completion: true, duration: `PT${Math.round(event.body.usedSeconds)}S` },
        };
      }
      case 'practical.signed':
        return ofPractical(event);
      case 'practical.withdrawn': {
        const { signoff } = event.body;
        const object =
          told.unit.get(signoff) ?? activity(`/proof/${signoff}`, types.performance, signoff);
        return ofLater(event, { verb: verbs.withdrawn, object, first: signoff });
      }
      case 'authorisation.given':
        return ofLeave(event);
      case 'authorisation.suspended':
      case 'authorisation.refreshed':
      case 'authorisation.ended': {
        const first = event.body.authorisation;
        const verb = {
          'authorisation.suspended': verbs.rested,
          'authorisation.refreshed': verbs.refreshed,
          'authorisation.ended': verbs.ended,
        }[event.kind];
        return ofLater(event, { verb, object: leaveOf(first), first });
      }
      default:
        return null;
    }
  }

  return (event) => {
    const one = said(event);
    return one === null ? null : { id: event.id, ...one, timestamp: event.at, version: '2.0.0' };
  };
}

/** One statement as one line of a JSON Lines file, in canonical form (RFC 8785): the same bytes each time. */
export const toJsonLine = (statement: XapiStatement): string => `${canonicalText(statement)}\n`;
