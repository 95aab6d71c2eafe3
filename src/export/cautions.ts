import { AIDS_CAUTION } from '../parts/collector/aids.js';

/** What the law may have to say to any other exhaust. */
export const LAW_CAUTION =
  'Changing exhaust parts may be restricted by emissions and noise law: check the law where the vehicle is used.';

/** What every set of outputs says about work that can hurt. Local codes and licensed practice come first. */
export const CAUTIONS: readonly string[] = [
  'Printed parts are for mock-up and tacking only: take them off before full welding and before the engine runs. Plastic near heat burns and gives off fumes.',
  AIDS_CAUTION,
  'Cutting and welding: eye, skin, hearing and lung protection. Fume from stainless steel holds hexavalent chromium: extract it at the source.',
  'Argon used for purging displaces air: ventilate, and never enter or lean into a closed space.',
  'Exhaust parts get hot enough to burn skin, hoses and wiring and to start fires: shield them and keep the distances.',
  LAW_CAUTION,
  'Lengths and diameters for tuning are a starting point; the engine builder and the dynamometer decide. Measure the ports and bolt holes on the part itself before cutting.',
  'Follow local codes; work that calls for a licence belongs to those who hold it.',
];
