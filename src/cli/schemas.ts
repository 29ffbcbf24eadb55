import { anchoringOptionsSchema } from "../chart/anchoring-at.js";
import { areaSchema } from "../chart/area.js";
import { nextInput } from "../daylight/events.js";
import { placeAndStay } from "../daylight/input.js";
import { distanceInput, destinationInput } from "../geo/distance.js";
import { breakOutInput } from "../holding/breakOut.js";
import { bringUpInput } from "../holding/bringUp.js";
import { designLoadInput } from "../holding/designLoad.js";
import { holdingInput } from "../holding/holding.js";
import { shipHoldingInput } from "../holding/shipHolding.js";
import { sizeAnchorInput } from "../holding/outfit.js";
import { twoAnchorsInput } from "../holding/twoAnchors.js";
import { balancingWindInput } from "../lie/balance.js";
import { lieInput } from "../lie/lie.js";
import { streamLoadInput } from "../lie/stream.js";
import { vesselSketch } from "../lie/vessel.js";
import { waveLoadInput } from "../lie/wave.js";
import { windLoadInput } from "../lie/wind.js";
import { stayInput } from "../plan/input.js";
import { seekInput } from "../plan/seekBerth.js";
import { wayOutInput } from "../plan/wayOut.js";
import { layRodeSchema } from "../rode/layRode.js";
import { loadAtReachSchema } from "../rode/loadAtReach.js";
import { rodeForLoadSchema } from "../rode/rodeForLoad.js";
import { rodeProfileSchema } from "../rode/rodeProfile.js";
import { scopeByRuleSchema } from "../rode/scopeByRule.js";
import { surgeCapacitySchema } from "../rode/surgeCapacity.js";
import { ropeStiffnessSchema } from "../rode/tackle.js";
import { weakestLinkSchema } from "../rode/weakestLink.js";
import { seabedCodesSchema } from "../seabed/seabed-from-codes.js";
import { diffractionAtInput } from "../shelter/diffractionAt.js";
import { effectiveFetchInput } from "../shelter/effectiveFetch.js";
import { fetchFanInput } from "../shelter/fetchFan.js";
import { motionInput, naturalRollInput } from "../shelter/motion.js";
import { rankShelterInput } from "../shelter/rankShelter.js";
import { shelterInput } from "../shelter/shelterInput.js";
import { swellAtInput } from "../shelter/swellAt.js";
import { windForceInput, seaStateInput, swellTermsInput } from "../shelter/terms.js";
import { waveGrowthInput } from "../shelter/waveGrowth.js";
import { wavesInDepthInput } from "../shelter/wavesInDepth.js";
import { windToInput } from "../shelter/windTo.js";
import { windWavesInput } from "../shelter/windWaves.js";
import { input as signalsDueInput } from "../signals/due.js";
import { input as soundEquipmentInput } from "../signals/equipment.js";
import { input as lightIntensityInput } from "../signals/intensity.js";
import { input as signalsOverInput } from "../signals/over.js";
import { input as streamBelowInput } from "../stream/below.js";
import { input as ellipsesFromInput } from "../stream/fit.js";
import { streamSource } from "../stream/source.js";
import { input as subordinateTurnsInput } from "../stream/subordinate.js";
import { sweepInput } from "../sweep/input.js";
import { neighbourGuessInput } from "../swing/neighbour-guess.js";
import { swingCircleInput } from "../swing/swing-circle.js";
import { swingEnvelopeInput } from "../swing/swing-envelope.js";
import { twoAnchorEnvelopeInput } from "../swing/two-anchor-envelope.js";
import { anchoredVessel } from "../swing/vessel.js";
import { depthOverStayInput } from "../tide/depth.js";
import { portCurveInput } from "../tide/port-curve.js";
import { pressureSurgeInput } from "../tide/pressure.js";
import { tideSteps } from "../tide/series.js";
import { tideSource } from "../tide/source.js";
import { checkTimesInput } from "../watch/checktimes.js";
import { watchEvent } from "../watch/events.js";
import { judgeSetInput } from "../watch/judgeset.js";
import { watchLimitsInput } from "../watch/limits.js";
import { watchRotaInput } from "../watch/rota.js";
import { startWatchInput } from "../watch/startwatch.js";
import { fitSwingInput } from "../watch/swingfit.js";
import { pickTransitsInput } from "../watch/transits.js";
import type * as z from "zod/mini";

/** Schemas of the inputs of public functions, and of the parts they share, by name. */
export const SCHEMAS: Readonly<Record<string, z.ZodMiniType>> = {
  planStay: stayInput,
  wayOut: wayOutInput,
  seekBerth: seekInput,
  sweep: sweepInput,
  tideSource,
  depthOverStay: depthOverStayInput,
  portCurveFrom: portCurveInput,
  pressureSurge: pressureSurgeInput,
  tideSeriesSteps: tideSteps,
  streamSource,
  streamBelow: streamBelowInput,
  ellipsesFrom: ellipsesFromInput,
  subordinateTurns: subordinateTurnsInput,
  layRode: layRodeSchema,
  loadAtReach: loadAtReachSchema,
  rodeForLoad: rodeForLoadSchema,
  rodeProfile: rodeProfileSchema,
  scopeByRule: scopeByRuleSchema,
  surgeCapacity: surgeCapacitySchema,
  weakestLink: weakestLinkSchema,
  ropeStiffness: ropeStiffnessSchema,
  lie: lieInput,
  vesselFrom: vesselSketch,
  windLoad: windLoadInput,
  streamLoad: streamLoadInput,
  waveLoad: waveLoadInput,
  balancingWind: balancingWindInput,
  holding: holdingInput,
  breakOut: breakOutInput,
  bringUp: bringUpInput,
  designLoad: designLoadInput,
  shipHolding: shipHoldingInput,
  sizeAnchor: sizeAnchorInput,
  twoAnchors: twoAnchorsInput,
  seabedFromCodes: seabedCodesSchema,
  chartArea: areaSchema,
  anchoringOptions: anchoringOptionsSchema,
  swingCircle: swingCircleInput,
  swingEnvelope: swingEnvelopeInput,
  swingGapVessel: anchoredVessel,
  twoAnchorEnvelope: twoAnchorEnvelopeInput,
  neighbourGuess: neighbourGuessInput,
  fetchFan: fetchFanInput,
  effectiveFetch: effectiveFetchInput,
  windWaves: windWavesInput,
  waveGrowth: waveGrowthInput,
  wavesInDepth: wavesInDepthInput,
  windTo: windToInput,
  swellAt: swellAtInput,
  diffractionAt: diffractionAtInput,
  shelter: shelterInput,
  rankShelter: rankShelterInput,
  motion: motionInput,
  naturalRoll: naturalRollInput,
  windForce: windForceInput,
  seaState: seaStateInput,
  swellTerms: swellTermsInput,
  signalsDue: signalsDueInput,
  signalsOver: signalsOverInput,
  soundEquipment: soundEquipmentInput,
  lightIntensity: lightIntensityInput,
  darkness: placeAndStay,
  sunEvents: placeAndStay,
  nextSunEvent: nextInput,
  startWatch: startWatchInput,
  watchEvent,
  judgeSet: judgeSetInput,
  watchLimits: watchLimitsInput,
  watchRota: watchRotaInput,
  checkTimes: checkTimesInput,
  pickTransits: pickTransitsInput,
  fitSwing: fitSwingInput,
  distance: distanceInput,
  destination: destinationInput,
};
