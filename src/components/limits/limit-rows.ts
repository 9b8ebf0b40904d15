/** The sets the page of limits shows unless it is told which: four columns can be read side by side. */
export const USUAL_SETS: readonly string[] = ['eu', 'gb', 'us-ca', 'practice'];

/** The anchor of a row of that page. */
export const rowAnchor = (measure: string): string => `row-${measure.replaceAll('.', '-')}`;
