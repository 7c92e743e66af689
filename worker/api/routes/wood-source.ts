/** What each answer says of its figures: how far to trust them, and the document that they stand in. */
import type { Source } from '../../contract/wood-figure.ts';
import type { Adhesive } from '../../wood/adhesive.ts';
import { type SourceFlag, sourceWords } from '../../wood/source.ts';
import type { Species } from '../../wood/species.ts';

/** From memory and common practice stand in no document, so none is named for them. */
export function sourceNote(of: string, flag: SourceFlag, document: string | null = null): Source {
  const none = flag === 'from-memory' || flag === 'common-practice' || flag === 'own';
  return { of, flag, words: sourceWords[flag], document: none ? null : document };
}

export const cite = {
  emc: sourceNote('EMC of the air', 'second-hand', 'Wood Handbook eq. 4-5 (FPL-GTR-190, FPL-GTR-282, p. 4-3)'),
  interior: sourceNote('moisture of interior wood by region', 'second-hand', 'Wood Handbook FPL-GTR-190 Fig. 13-1'),
  interiorRange: sourceNote(
    '4 to 13.5 % through the year in US interiors',
    'second-hand',
    'a study quoted in articles',
  ),
  byWeight: sourceNote('moisture content by weight', 'read', 'Wood Handbook FPL-GTR-190 eq. 4-1'),
  wetBasis: sourceNote('wet basis to dry basis', 'read', 'university extension; it follows from the two definitions'),
  kilnSample: sourceNote('oven-dry weight from a weighed sample', 'from-memory'),
  moistureMax: sourceNote('most water and sinking point', 'second-hand', 'Wood Handbook FPL-GTR-282 eq. 4-3 and 4-4'),
  meterRange: sourceNote('trusted range of the meter', 'read', 'Wood Handbook FPL-GTR-190 p. 13-3'),
  meterRule: sourceNote('0.5 point for each 10 °F', 'read', 'Wood Handbook FPL-GTR-190 p. 13-3'),
  meterFit: sourceNote(
    'published fit for pin meters',
    'second-hand',
    'a code copy of the formula; who published it is from memory',
  ),
  shrinkage: sourceNote('size at another moisture content', 'reproduced', 'Wood Handbook FPL-GTR-190 eq. 13-3'),
  partial: sourceNote('shrinkage in proportion below 30 %', 'second-hand', 'Wood Handbook FPL-GTR-282 eq. 4-9'),
  coefficient: sourceNote('size by coefficient, 6 to 14 %', 'read', 'Wood Handbook FPL-GTR-190 eq. 13-2'),
  ringAngle: sourceNote(
    'shrinkage at an angle to the rings',
    'computed',
    'small strains turned by the angle, shear left out',
  ),
  longitudinal: sourceNote('0.15 % along the grain, the middle of 0.1 to 0.2', 'read', 'timber council’s answers'),
  grooveAndPlay: sourceNote('room in grooves and drawers', 'common-practice'),
  evenYear: sourceNote('even swing between January and July', 'common-practice'),
  dryingLaw: sourceNote('moisture nears the air’s EMC by a constant share a day', 'from-memory'),
  dryingSpread: sourceNote('width of the likely range, 30 % at least', 'common-practice'),
  dryingDays: sourceNote('days to 20 % by species', 'from-memory'),
  dryingPower: sourceNote('drying time grows with thickness to the power 1.5', 'from-memory'),
  boardFoot: sourceNote('board foot of 144 in³, an inch of 25.4 mm', 'read', 'definition'),
  surfaceMeasure: sourceNote(
    'surface measure to the nearest foot, half feet down and up in turn',
    'second-hand',
    'two grading pages on the NHLA rules; King, Elements of Woodwork',
  ),
  dressed: sourceNote(
    'rough and dressed thickness of a call',
    'second-hand',
    'two copies of the hardwood grading table',
  ),
  dryTally: sourceNote('dry lumber is measured dry, with nothing added', 'second-hand', 'trade article'),
  gravity: sourceNote('gravity at a moisture content', 'second-hand', 'Wood Handbook FPL-GTR-282 eq. 4-11 and 4-13'),
  density: sourceNote('weight with its water', 'second-hand', 'Wood Handbook FPL-GTR-282 eq. 4-14'),
  lifting: sourceNote('23 kg (51 lb) for one person, ideal conditions', 'from-memory'),
  allowances: sourceNote('rough allowances and kerfs', 'common-practice'),
  warp: sourceNote('warp falls with the square of the span', 'computed', 'geometry of one even curve'),
  cleanup: sourceNote('clean-up of faces and edges', 'common-practice'),
  kink: sourceNote('depth of a kink', 'computed', 'triangle between its two straight reaches'),
  stations: sourceNote('depth from measured stations', 'computed', 'straight between stations'),
  likelyCrook: sourceNote(
    'crook starts near 50 % and grows evenly',
    'computed',
    'our inference from a wood science abstract',
  ),
  gradeTable: sourceNote(
    'cuttings and units of each grade',
    'second-hand',
    'two copies of a one-page summary of the inspection rules',
  ),
  gradeFaces: sourceNote('what a clear face and a sound reverse may show', 'from-memory'),
  clampFan: sourceNote('pressure fans out 45° from each pad', 'common-practice'),
  glueDensity: sourceNote('glue of 1.1 g/mL', 'from-memory'),
} as const satisfies Record<string, Source>;

const SHRINKAGE_IN: Readonly<Record<Species['figuresFrom'], string | null>> = {
  'wood-handbook': 'Wood Handbook FPL-GTR-190 Table 4-3 (imported: 4-4)',
  'genus-means': 'mean of the genus: Hoadley in The Structural Conservation of Panel Paintings (Getty 1998), Table 1',
  own: null,
};
const GRAVITY_IN: Readonly<Record<Species['figuresFrom'], string | null>> = {
  'wood-handbook': 'USDA Forest Inventory and Analysis species table (imported: Wood Handbook Table 5-5)',
  'genus-means': 'IPCC 2006 Guidelines vol. 4 Table 4.14 (walnut, chestnut: IPCC 2003), mostly by genus',
  own: null,
};

export const shrinkageOf = (s: Species): Source =>
  sourceNote(`shrinkage of ${s.name}`, s.sources.shrinkage, SHRINKAGE_IN[s.figuresFrom]);

export const coefficientsOf = (s: Species): Source =>
  sourceNote(
    `movement coefficients of ${s.name}`,
    s.sources.coefficients,
    s.sources.coefficients === 'computed'
      ? 'S / (3000 − 20 S) of its shrinkage'
      : 'Wood Handbook FPL-GTR-190 Table 13-5',
  );

export const gravityOf = (s: Species): Source =>
  sourceNote(`specific gravity (green volume) of ${s.name}`, s.sources.specificGravityGreen, GRAVITY_IN[s.figuresFrom]);

/** Every figure of a wood with its source. */
export function speciesSources(s: Species): Source[] {
  const { specificGravity12, greenMoisture } = s.sources;
  return [
    shrinkageOf(s),
    coefficientsOf(s),
    gravityOf(s),
    ...(specificGravity12
      ? [sourceNote('specific gravity at 12 %', specificGravity12, 'Wood Handbook FPL-GTR-190 Table 5-3b')]
      : []),
    ...(greenMoisture
      ? [sourceNote('green moisture', greenMoisture, 'USDA Forest Inventory and Analysis species table')]
      : []),
  ];
}

export const adhesiveSources = (a: Adhesive, own: { spread: boolean; open: boolean; pressure: boolean }): Source[] => {
  const document = 'trade articles; the glue maker’s sheet replaces them';
  const note = (of: string, flag: SourceFlag, isOwn: boolean) =>
    sourceNote(`${of} of ${a.name}`, isOwn ? 'own' : flag, document);
  return [
    note('spread', a.sources.spread, own.spread),
    note('open time', a.sources.open, own.open),
    note('clamping pressure', a.sources.pressure, own.pressure),
  ];
};
