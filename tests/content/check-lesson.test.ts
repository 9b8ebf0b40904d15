import { describe, expect, it } from 'vitest';
import { FILES, flawsOf, problemsOf, SOUND, type Texts } from './sound-course.ts';

/** One thing broken, and what the check must say of it. */
type Broken = readonly [what: string, from: string | RegExp, to: string, says: string];

const broken = (
  key: 'lesson' | 'questions' | 'glossary' | 'facts',
  [, from, to]: Broken,
): Texts => {
  const text = SOUND[key].replace(from, to);
  if (text === SOUND[key]) throw new Error(`Nothing was broken: ${from}`);
  return { ...SOUND, [key]: text };
};

it('says nothing of a sound lesson', () => {
  expect(problemsOf(SOUND)).toEqual([]);
});

const LESSON: Broken[] = [
  ['a head that cannot be read', 'order: 1', 'order: [', 'This is no YAML'],
  [
    'a field of the head that is wrong',
    'minutes: 20',
    'minutes: long',
    'The field minutes must be a whole number',
  ],
  [
    'a field of the head that is not known',
    'minutes: 20',
    'minutes: 20\nlength: 3',
    'The field length is not known',
  ],
  [
    'a bench that is not there',
    'bench: lesson-bench',
    'bench: no-bench',
    'There is no bench no-bench',
  ],
  ['a limit set that is not there', '[gb, eu]', '[gb, xx]', 'There is no limit set xx'],
  ['an import', '## How to stand', 'import a from "b"\n\n## How to stand', 'imports nothing'],
  ['code in a sentence', 'Nobody needs', '{blade.kerf} needs', 'is code; write a figure as'],
  [
    'a part without its end',
    '<Term id="kerf">slot</Term>',
    '<Term id="kerf">slot',
    'cannot be read',
  ],
  ['a part nobody knows', '<Questions />', '<Quiz />', 'There is no part <Quiz>'],
  ['an attribute nobody knows', '<Questions />', '<Questions all="1" />', 'all is not known'],
  ['an attribute left out', 'kind="warning" ', '', 'Caution: kind is missing'],
  ['a kind of caution that is none', 'kind="warning"', 'kind="loud"', 'kind must be'],
  [
    'a figure the bench has not',
    'of="blade.rimSpeed"',
    'of="blade.rimspeed"',
    'There is no figure named blade.rimspeed',
  ],
  ['a limit that is not there', 'gb.knife.gap', 'gb.knife.gab', 'There is no limit gb.knife.gab'],
  ['a limit of no set', 'gb.knife.gap', 'xx.knife.gap', 'begins with the name of a set'],
  ['a fact that is not there', 'id="of-ten"', 'id="of-tens"', 'There is no fact of-tens'],
  [
    'a trade word that is not there',
    '<Term id="kerf">',
    '<Term id="kerff">',
    'kerff is not in the glossary',
  ],
  ['a word linked twice', 'About <Fact', '<Term id="kerf" /> <Fact', 'kerf is explained above'],
  ['a task that is not there', 'id="try-it"', 'id="try-hard"', 'there is no task try-hard'],
  [
    'a question that is not there',
    '<Question id="one" />',
    '<Question id="none" />',
    'none is not in the questions',
  ],
  [
    'a question placed twice',
    '<Question id="one" />',
    '<Question id="one" />\n<Question id="one" />',
    'stands in the lesson twice',
  ],
  ['questions no lesson places', '<Questions />', '', 'no lesson places this question'],
  [
    'a row of rules no set speaks of',
    "'knife.gapMin'",
    "'blade.crack'",
    'has a limit for blade.crack',
  ],
  [
    'a row of rules that is no measure',
    "'knife.gapMin'",
    "'knife.gapMid'",
    'there is no measure knife.gapMid',
  ],
  ['a view that is none', 'view="end"', 'view="back"', 'view must be side, end'],
  [
    'a dimension that is none',
    'view="end"',
    'view="end" dimensions={[\'blade.width\']}',
    'there is no dimension blade.width',
  ],
  [
    'a dimension the view cannot show',
    'view="end"',
    'view="end" dimensions={[\'knife.gapAtTable\']}',
    'knife.gapAtTable cannot be shown in the view end',
  ],
  [
    'a part that is none',
    'view="side"',
    'view="side" labels={{ motor: \'motor\' }}',
    'no part is named motor',
  ],
  [
    'a part the view does not show',
    'view="knife"',
    'view="knife" labels={{ guard: \'guard\' }}',
    'guard is not to be seen in the view knife',
  ],
  [
    'a drawing of no bench',
    'view="side"',
    'view="side" bench="no-bench"',
    'there is no bench no-bench',
  ],
  [
    'a short title',
    /title="The bench of this lesson, end view"/,
    'title="Bench"',
    'title has 5 letters',
  ],
  ['no description', /alt="[^"]*line with them\."/, 'alt=""', 'alt is missing'],
  [
    'a description that is the title',
    /alt="[^"]*line with them\."/,
    'alt="The bench of this lesson, end view."',
    'says the same as the title',
  ],
  [
    'a short description',
    /alt="[^"]*line with them\."/,
    'alt="A blade and wood stand there."',
    'letters; at least 60',
  ],
  [
    'a description without a fact',
    /alt="[^"]*line with them\."/,
    'alt="This drawing shows a view of the bench of this lesson, seen here in the end view of it."',
    'gives no fact beyond the title',
  ],
  [
    'a picture without a caption',
    / {2}Look at the place[^\n]*line with them\.\n/,
    '',
    'the caption between its ends has 0 letters',
  ],
  [
    'a plot of nothing',
    '<Questions />',
    '<Plot title="What the blade does" alt="The higher the blade stands the fewer of its teeth are in the wood at one time." >A caption that says it.</Plot>\n\n<Questions />',
    'Either show, a plot that is ready',
  ],
  [
    'a ready plot that is none',
    '<Questions />',
    '<Plot show="magic" title="What the blade does" alt="The higher the blade stands the fewer of its teeth are in the wood at one time." >A caption that says it.</Plot>\n\n<Questions />',
    'There is no plot named magic; there are entry-angle',
  ],
  [
    'a plot over a field that is none',
    '<Questions />',
    '<Plot change="blade.name" from={1} to={2} of={["blade.projection"]} title="What the blade does" alt="The higher the blade stands the fewer of its teeth are in the wood at one time." >A caption that says it.</Plot>\n\n<Questions />',
    'There is no figure named blade.name',
  ],
  [
    'a plot from high to low',
    '<Questions />',
    '<Plot change="arbor.depth" from={2} to={1} of={["blade.projection"]} title="What the blade does" alt="The higher the blade stands the fewer of its teeth are in the wood at one time." >A caption that says it.</Plot>\n\n<Questions />',
    'needs from to be less than to',
  ],
  [
    'too few pictures',
    /<Drawing\n {2}view="knife"[\s\S]*?<\/Drawing>/,
    '',
    'has 2 drawings and plots; at least 3',
  ],
  ['too few words', /(The blade turns[^\n]*\n\n){6}/, '', '700 to 1300'],
  ['too many words', /(The blade turns[^\n]*\n\n){8}/, '$&$&', '700 to 1300'],
  [
    'hard words',
    /(The blade turns[^\n]*\n\n)/g,
    'Notwithstanding considerable uncertainty experienced practitioners systematically underestimate mechanical instability considerably '.repeat(
      6,
    ),
    'reads at the age of',
  ],
  ['no bench task', '<BenchTask id="try-it" />', '', 'has no BenchTask'],
  ['no caution', /<Caution[\s\S]*?<\/Caution>/, '', 'has no Caution'],
  ['no table of rules', /<LimitTable[^\n]*/, '', 'has 0 LimitTables'],
  ['a heading left out', '## Common mistakes', '## Slips', '"## Common mistakes" is missing'],
  [
    'a heading used twice',
    '## How to stand',
    '## Common mistakes',
    '"Common mistakes" is used twice',
  ],
  ['a rank of heading skipped', '## How to stand', '#### How to stand', 'skips a rank'],
  ['a second title', '## How to stand', '# How to stand', 'only heading of the first rank'],
  ['a link to no heading', '#how-to-stand', '#how-to-sit', 'names no heading of this lesson'],
  ['a link to no page', '(/limits)', '(/limit)', 'names no page'],
  ['a link to no lesson', '(/limits)', '(/lessons/none)', 'names no lesson'],
  ['a link to no job aid', '(/limits)', '(/lessons/none/job-aid)', 'names no lesson'],
  [
    'a link to no heading of a lesson',
    '(/limits)',
    '(/lessons/calm-cut#none)',
    'names no heading of the lesson calm-cut',
  ],
  ['a link to no word', '(/limits)', '(/glossary#none)', 'names no word of the glossary'],
  ['a link to no task', '(/limits)', '(/bench/none)', 'names no bench task'],
  ['a link out of the site', '(/limits)', '(https://example.org)', 'leads out of the site'],
  ['a link without its beginning', '(/limits)', '(limits)', 'must begin with / or #'],
  ['a typed figure', 'Nobody needs', 'Leave 8 mm. Nobody needs', '"8 mm" is a typed figure'],
  [
    'a spelled-out figure',
    'Nobody needs',
    'Wait ten seconds. Nobody needs',
    '"ten seconds" is a typed figure',
  ],
  [
    'a typed figure in a caption',
    'Look at the place',
    'Look 8 mm from the place',
    '"8 mm" is a typed figure',
  ],
  [
    'a typed figure in a description',
    'The blade stands above',
    'The blade stands 8 mm above',
    '"8 mm" is a typed figure',
  ],
  [
    'a typed figure in the job aid',
    'Stand to one side of the cut.',
    'Stand 80 mm to one side.',
    '"80 mm" is a typed figure',
  ],
  [
    'a unit after a figure',
    '<Figure of="blade.rimSpeed" />',
    '<Figure of="blade.rimSpeed" /> m/s',
    'brings its own unit',
  ],
  [
    'an undefined trade word',
    'Nobody needs',
    'Mind the scantling. Nobody needs',
    '"scantling" is not explained',
  ],
  [
    'a trade word that looks like a plain one',
    'Nobody needs',
    'Mind the burr. Nobody needs',
    '"burr" is not explained',
  ],
  ['a job aid that is too short', '    - Stop when it does not feel right.\n', '', 'at least 3'],
  [
    'a step with a figure that is none',
    'Look at the blade and the table.',
    'Look at {blade.colour} first.',
    'no figure named blade.colour',
  ],
  [
    'a step in hard words',
    'Look at the blade and the table.',
    'Systematically investigate instability considering mechanical characteristics.',
    'its steps read at the age',
  ],
  [
    'a measure of the job aid that is none',
    '- knife.gapAtTable',
    '- knife.gapped',
    'there is no measure knife.gapped',
  ],
];

describe('in a lesson the check finds', () => {
  it.each(LESSON)('%s', (...one) => {
    const found = problemsOf(broken('lesson', one));
    expect(found.filter((line) => line.includes(one[3]))).not.toEqual([]);
  });

  it('nothing wrong with a word that is linked to the glossary', () => {
    const lesson = SOUND.lesson.replace('>slot</Term>', '>scantling slit</Term>');
    expect(lesson).not.toBe(SOUND.lesson);
    expect(problemsOf({ ...SOUND, lesson })).toEqual([]);
  });

  it('the line it stands on', () => {
    const text = SOUND.lesson.replace(
      '## Common mistakes\n',
      '## Common mistakes\n\nLeave\n8 mm.\n',
    );
    const line = text.split('\n').findIndex((one) => one.startsWith('8 mm')) + 1;
    expect(problemsOf({ ...SOUND, lesson: text })).toEqual([
      expect.stringContaining(`${FILES.lesson}:${line}: "8 mm"`),
    ]);
  });
});

const QUESTIONS: Broken[] = [
  ['too few', / {2}- id: twelve[\s\S]*/, '', 'The bank has 11 questions; at least 12'],
  ['too few kinds', /kind: several/g, 'kind: choice', 'has 3 kinds of question; at least 4'],
  ['an id used twice', '- id: two\n', '- id: one\n', 'The id one is used twice'],
  [
    'a choice with two right options',
    'text: Stand right behind the cut.\n',
    'text: Stand right behind the cut.\n        right: true\n',
    'exactly one right option, and this one has 2',
  ],
  ['no right option', /(id: seven[\s\S]*?)\n {8}right: true/, '$1', 'no option is right'],
  [
    'a reason left short',
    'why: This is what the wood does there, 1.',
    'why: No.',
    'has no reason worth reading',
  ],
  [
    'a reason that only says it again',
    'why: This is what the wood does there, 1.',
    'why: Stand to one side of it.',
    'only says it again',
  ],
  [
    'an answer that stands twice',
    'text: Stand right behind the cut.',
    'text: Stand to one side of it.',
    'stands twice',
  ],
  [
    'an answer without a why of its own',
    /because: Look at the blade first.*/,
    'because: So it is.',
    'because has 9 letters',
  ],
  ['a figure that is none', '{blade.kerf}', '{blade.curve}', 'no figure named blade.curve'],
  ['a limit that is none', '{blade.kerf}', '{limit:gb.none}', 'There is no limit gb.none'],
  ['a fact that is none', '{blade.kerf}', '{fact:none}', 'There is no fact none'],
  ['a bracket left open', '{blade.kerf}', '{blade.kerf', 'stands alone'],
  ['a typed figure', '{blade.kerf}', '3.2 mm', '"3.2 mm" is a typed figure'],
  [
    'an answer that is none',
    'answer: knife.underKerf',
    'answer: knife.over',
    'no figure named knife.over',
  ],
  [
    'an answer outside within',
    'answer: knife.underKerf\n    within: 0.05',
    'answer: blade.rimSpeed\n    within: 0.01',
    'lies outside within 0.01',
  ],
  ['within so wide that nothing counts', 'within: 0.05', 'within: 40', 'nothing counts as right'],
  [
    'hard words',
    /Look at the blade first\. Then/g,
    'Notwithstanding considerable experimental uncertainty, practitioners systematically underestimate mechanical instability; considering characteristics, investigate, and',
    'The questions read at the age of',
  ],
  [
    'an undefined trade word',
    'Stand right behind',
    'Stand at the scantling behind',
    '"scantling" is not explained',
  ],
];

describe('among questions the check finds', () => {
  it.each(QUESTIONS)('%s', (...one) => {
    const found = problemsOf(broken('questions', one));
    expect(found.filter((line) => line.includes(one[3]))).not.toEqual([]);
  });

  it('right options that always stand in one place', () => {
    const right = '\n        right: true';
    const first = SOUND.questions
      .replaceAll(right, '')
      .replaceAll('there, 1.', `there, 1.${right}`);
    expect(problemsOf({ ...SOUND, questions: first }).join()).toContain('stands in place 1');
  });

  it('right options that are always the longest', () => {
    const long = SOUND.questions.replace(
      /text: [^\n]*(\n[^\n]*\n {8}right)/g,
      'text: Stand to one side of it and look at the cut$1',
    );
    expect(problemsOf({ ...SOUND, questions: long }).join()).toContain(
      'the right option is the longest',
    );
  });

  it('that there are none', () => {
    expect(problemsOf({ ...SOUND, questions: 'questions: []' }).join()).toContain('at least 12');
  });
});

const GLOSSARY: Broken[] = [
  ['a pointer to nothing', 'see: [plate]', 'see: [plates]', 'see names plates'],
  [
    'one thing under two names',
    'term: plate',
    'term: width of cut',
    '"width of cut" already names kerf',
  ],
  [
    'three sentences',
    'The slot the blade cuts in the wood.',
    'A slot. It is cut. It is thin.',
    'has 3 sentences; at most 2',
  ],
  [
    'a hard explanation',
    'The slot the blade cuts in the wood.',
    'Systematically investigated mechanical instability characteristics.',
    'the meaning reads at the age of',
  ],
  ['a typed figure', 'The slot the blade', 'The 3 mm slot the blade', '"3 mm" is a typed figure'],
  [
    'an undefined trade word',
    'The slot the blade',
    'The scantling the blade',
    '"scantling" is not explained',
  ],
  [
    'a field nobody knows',
    'term: plate',
    'term: plate\n    colour: grey',
    'The field colour is not known',
  ],
];

const FACTS: Broken[] = [
  ['no value', 'value: 9', 'number: 9', 'of-ten.value must be a number'],
  ['no way it was seen', 'seen: primary', 'seen: once', 'source.seen must be primary'],
  ['no document', 'title: A count in one shop, ', '', 'source.title must be text'],
  [
    'a figure from memory that does not say so',
    'seen: primary',
    'seen: memory',
    'the sentence must say "from memory"',
  ],
];

describe('in the glossary and the facts the check finds', () => {
  it.each(GLOSSARY)('%s', (...one) => {
    const found = problemsOf(broken('glossary', one));
    expect(found.filter((line) => line.includes(one[3]))).not.toEqual([]);
  });
  it.each(FACTS)('%s', (...one) => {
    const found = problemsOf(broken('facts', one));
    expect(found.filter((line) => line.includes(one[3]))).not.toEqual([]);
  });

  it('words nobody uses, and only notes them', () => {
    const glossary = `${SOUND.glossary}  spare:\n    term: spare part\n    meaning: A part kept for later.\n`;
    const about = flawsOf({ ...SOUND, glossary }).filter(({ says }) => says.startsWith('spare'));
    expect(about).toEqual([
      { file: FILES.glossary, line: 11, says: 'spare: no lesson uses this word.', weight: 'note' },
    ]);
  });
});
