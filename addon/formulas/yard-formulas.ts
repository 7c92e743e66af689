/** Formulas that the yard answers: what stands in stock, and where one board stands. */
import { readThicknessArgument, readUnit, readWoodArgument } from './cell-argument.ts';
import { type Argument, isBlank, isFault, type YardFormula } from './formula.ts';

const REFRESH: Argument = {
  name: 'refresh',
  help: 'Any cell; changing it asks the yard again. Without it, answers are up to a minute old.',
  optional: true,
};

export const yardFormulas: readonly YardFormula[] = [
  {
    name: 'FREE',
    asks: 'yard',
    help: 'Board feet of this wood in the yard that no job holds.',
    arguments: [
      { name: 'species', help: 'White oak, walnut, hard maple.' },
      { name: 'thickness', help: 'A call (8/4) or a size. Without it: every thickness.', optional: true },
      REFRESH,
    ],
    gives: 'board feet',
    example: { given: ['white oak', '8/4'], result: 312.5 },
    question: (values, habits) => {
      const wood = readWoodArgument(values[0], habits);
      if (isFault(wood)) return wood;
      if (isBlank(values[1])) return { about: 'free', species: wood.key, thicknessNm: null };
      const unit = readUnit(null, habits);
      if (isFault(unit)) return unit;
      const thicknessNm = readThicknessArgument('thickness', values[1], unit, habits);
      return isFault(thicknessNm) ? thicknessNm : { about: 'free', species: wood.key, thicknessNm };
    },
  },
  {
    name: 'STATUS',
    asks: 'yard',
    help: 'Where the board with this tag stands: free, held and for which job, cut, written off.',
    arguments: [{ name: 'tag', help: 'The tag on the board.' }, REFRESH],
    gives: 'a few words',
    example: { given: ['JB-101'], result: 'free' },
    question: (values) => {
      const tag = String(values[0] ?? '').trim();
      return tag === '' ? { fault: 'give the tag on the board' } : { about: 'tag', tag };
    },
  },
];
