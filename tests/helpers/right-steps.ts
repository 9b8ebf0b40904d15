/** What to do in each situation, in order, by the first words of each step: written out a second time. */
export const RIGHT_STEPS: Readonly<Record<string, readonly string[]>> = {
  'The work binds': [
    'Hold the work down',
    'Press stop',
    'Wait until',
    'Isolate',
    'Take the work off',
    'Find out why',
  ],
  'The power goes': [
    'Hold the work still',
    'Press stop',
    'Isolate',
    'Take the work out',
    'Tell the others',
    'When the power is back',
  ],
  'Somebody walks behind you': [
    'Keep your eyes',
    'Finish the cut',
    'Wait until',
    'Turn round and send',
    'Have the walkway',
  ],
  'An offcut is caught beside the blade': [
    'Keep your hands away',
    'Press stop',
    'Wait until',
    'Isolate',
    'Lift the offcut',
    'Look at the insert',
  ],
};
