/** The trade's arithmetic on the wire: body and answer of each of its routes by name. No yard is changed by any of them. */
import * as z from 'zod';
import * as d from './wood-drying.ts';
import * as m from './wood-moisture.ts';
import * as v from './wood-size.ts';
import * as w from './wood-work.ts';

export const woodBodies = {
  woodVolume: v.volumeBody,
  woodDelivery: v.deliveryBody,
  woodWeight: v.weightBody,
  woodAllowances: v.allowancesBody,
  woodEmc: m.emcBody,
  woodWeighing: m.weighingBody,
  woodMeter: m.meterBody,
  woodShrinkage: m.shrinkageBody,
  woodMovement: m.movementBody,
  woodDrying: d.dryingBody,
  woodWarp: w.warpBody,
  woodGrade: w.gradeBody,
  woodGlueUp: w.glueUpBody,
  dryingReady: d.dryingReadyBody,
  boardsDrying: d.boardsDryingBody,
  checkDelivery: v.checkDeliveryBody,
  gradeBoard: w.gradeBoardBody,
  glueUpJob: w.glueUpJobBody,
  glueUpSheet: w.glueUpJobBody,
};

export const woodAnswers = {
  listSpecies: v.speciesAnswer,
  woodVolume: v.volumeAnswer,
  woodDelivery: v.deliveryAnswer,
  woodWeight: v.weightAnswer,
  woodAllowances: v.allowancesAnswer,
  woodEmc: m.emcAnswer,
  woodWeighing: m.weighingAnswer,
  woodMeter: m.meterAnswer,
  woodShrinkage: m.shrinkageAnswer,
  woodMovement: m.movementAnswer,
  woodDrying: d.dryingAnswer,
  woodWarp: w.warpAnswer,
  woodGrade: w.gradeAnswer,
  woodGlueUp: w.glueUpAnswer,
  dryingReady: d.dryingReadyAnswer,
  boardsDrying: d.boardsDryingAnswer,
  checkDelivery: v.checkDeliveryAnswer,
  gradeBoard: w.gradeAnswer,
  glueUpJob: w.glueUpJobAnswer,
  glueUpSheet: z.string(),
};
